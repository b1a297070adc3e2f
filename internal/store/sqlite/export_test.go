package sqlite

import "context"

// OpenUnder opens a store on another file layer, with pragmas after the
// store's own, which win.
func OpenUnder(ctx context.Context, file, layer string, more ...string) (*Store, error) {
	return open(ctx, file, ground{layer, append(pragmas(), more...)})
}
