package wire

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"

	"tarnwright/internal/core/design"
)

// Leaves is a design as its file has it: the text of each value by its path,
// "outline.length_m".
func Leaves(d design.Design) (map[string]string, error) {
	raw, err := json.Marshal(d)
	if err != nil {
		return nil, fmt.Errorf("write a design: %w", err)
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		return nil, fmt.Errorf("read a design: %w", err)
	}
	out := map[string]string{}
	leaves(out, "", v)
	return out, nil
}

func leaves(out map[string]string, path string, v any) {
	switch v := v.(type) {
	case map[string]any:
		for name, kid := range v {
			at := name
			if path != "" {
				at = path + "." + name
			}
			leaves(out, at, kid)
		}
	case []any:
		for n, kid := range v {
			leaves(out, path+"["+strconv.Itoa(n)+"]", kid)
		}
	case nil:
	default:
		out[path] = fmt.Sprint(v)
	}
}
