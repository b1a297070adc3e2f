// Package web holds the files the browser takes: styles, the starting script,
// what a builder's page takes, pictures, and the widget once it is built.
package web

import "embed"

// Files holds css, js, host, img, worker and dist as they stand in this folder.
//
//go:embed css js host img worker all:dist
var Files embed.FS
