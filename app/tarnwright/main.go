// Command tarnwright serves the pond check, prints calc sheets, checks files,
// and lists, resends, backs up and restores enquiries.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"tarnwright/internal/config"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], tools{out: os.Stdout, err: os.Stderr, env: config.Environment})
	stop()
	os.Exit(code)
}
