#!/bin/sh
# Builds the widget for the browser and compresses it beside itself. Nothing
# happens when the result is newer than every source.
#
# Three things keep it light, measured with brotli on 2026-11-29: the framework
# is built from a copy without what this page never uses (.ci/trim.mjs), its
# memory is laid out in few pieces and without the tables of lines that only a
# stack trace reads (.ci/slim.mjs, 110 and 127 kB), and only code that a finger
# waits for is inlined, with the runtime it calls all the time: that works a
# move out a third faster in Node and a tenth in Chromium, which inlines by
# itself, for 32 kB. All of it inlined would be 154 kB more and draw no faster
# than the clock can tell. What a page brings over the line is packed besides
# (.ci/pack.mjs, 326 kB). go.mod itself is not touched.
set -eu
out=web/dist/app.wasm
work=.build/widget
mkdir -p web/dist $work
if [ -f $out.br ] && [ -f web/dist/app.pack.br ] && [ -z "$(find app internal .ci/dist.sh .ci/trim.mjs .ci/slim.mjs .ci/pack.mjs .ci/numbers.mjs web/js/unpack.js web/embed.go go.mod -newer $out.br \( -name '*.go' -o -name '*.sh' -o -name '*.mjs' -o -name '*.js' -o -name go.mod \) ! -name '*_test.go' | head -1)" ]; then
  exit 0
fi
go mod download github.com/maxence-charriere/go-app/v10
node .ci/trim.mjs "$(go list -m -f '{{.Dir}}' github.com/maxence-charriere/go-app/v10)" $work/go-app
cp go.mod $work/go.mod && cp go.sum $work/go.sum
echo "replace github.com/maxence-charriere/go-app/v10 => ./$work/go-app" >>$work/go.mod
flags="-gcflags=all=-l -gcflags=internal/runtime/...= -gcflags=runtime= -gcflags=math= -gcflags=math/bits="
for hot in core/geom core/num core/hydraulics core/pump core/layout drawing; do
  flags="$flags -gcflags=tarnwright/internal/$hot="
done
# The collector of Go before 1.26 is 10 kB lighter, and the slowest of 300 moves
# takes a few milliseconds less at 4x: the newer one is made for machines with
# much memory and many processors. A Go that has only that one builds with it.
collector=GOEXPERIMENT=nogreenteagc
env $collector GOOS=js GOARCH=wasm go list runtime >/dev/null 2>&1 || collector=
rm -f $out # a build leaves alone what it made before, slim or not
env $collector GOOS=js GOARCH=wasm go build -modfile $work/go.mod -trimpath -ldflags='-s -w' $flags -o $out ./app/widget
node .ci/slim.mjs $out
node .ci/pack.mjs $out
node .ci/press.mjs $out web/dist/app.pack
