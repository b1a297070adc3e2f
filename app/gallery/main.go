// Command gallery writes a page with every part in every state into a folder,
// for whoever changes how the page looks. It is no part of what is shipped.
package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"tarnwright/internal/markup"
	"tarnwright/internal/ui/gallery"
	"tarnwright/web"
)

const head = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Parts and their states</title>
<link rel="icon" href="data:,"><link rel="stylesheet" href="gallery.css"></head><body>
`

// The gallery's own look: pieces beside one another on the page's ground.
const layout = `
.gallery { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(340px, 100%), 1fr)); gap: 24px 32px; padding: 24px; container: none; }
.gallery > h1 { grid-column: 1 / -1; font: 22px/30px var(--serif); }
.gallery > form { display: none; }
.piece { min-width: 0; }
.piece > h2 { padding-bottom: 6px; border-bottom: 1px solid var(--hair); font: 13px/18px var(--sans); color: var(--ink-2); }
.piece-in { padding: 14px 2px; }
.piece-in > .pin { width: 27px; height: 27px; }
`

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "gallery: name a folder to write to")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
		os.Exit(1)
	}
}

func write(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	sheets, err := fs.Glob(web.Files, "css/*.css")
	if err != nil {
		return err
	}
	var css []byte
	for _, name := range sheets {
		raw, err := fs.ReadFile(web.Files, name)
		if err != nil {
			return err
		}
		css = append(css, raw...)
	}
	page := head + markup.HTML(gallery.Tree()) + "\n</body></html>\n"
	return errors.Join(
		os.WriteFile(filepath.Join(dir, "gallery.css"), append(css, layout...), 0o644),
		os.WriteFile(filepath.Join(dir, "index.html"), []byte(page), 0o644))
}
