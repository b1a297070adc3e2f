#!/bin/sh
# Builds the widget for the browser and compresses it beside itself. Nothing
# happens when the result is newer than every Go file.
set -eu
out=web/dist/app.wasm
mkdir -p web/dist .build
if [ -f $out.br ] && [ -z "$(find app internal web/embed.go go.mod -newer $out.br \( -name '*.go' -o -name '*.json' -o -name go.mod \) ! -name '*_test.go' | head -1)" ]; then
  exit 0
fi
GOOS=js GOARCH=wasm go build -trimpath -ldflags='-s -w' -o $out ./app/widget
node .ci/press.mjs $out
