#!/bin/sh
# Runs the core's tests once more as WASM under Node: the golden figures must
# not depend on the machine.
set -eu
exec=$(go env GOROOT)/lib/wasm/go_js_wasm_exec
env -i PATH="$PATH" HOME="$HOME" GOOS=js GOARCH=wasm go test -exec "$exec" ./internal/core/... ./internal/view
