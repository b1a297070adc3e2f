// Package web holds the files the browser takes: styles, the starting script,
// pictures, and the widget once it is built.
package web

import "embed"

// Files holds css, js, img, worker and dist as they stand in this folder.
//
//go:embed css js img worker all:dist
var Files embed.FS
