//go:build !wasm

// Command widget is the page in the browser; built for anything else it does
// nothing.
package main

func main() {}
