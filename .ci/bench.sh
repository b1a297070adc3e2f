#!/bin/sh
# Prints benchmarks as ratios beside a reference run. Without arguments all
# parts run in order; with arguments, those named: sh .ci/bench.sh circulation
# Times are the best of several rounds, taken by turns, so that whatever else
# the machine does falls on all alike. Nothing here asserts a time. LONG=1 fills
# the databases with 1,000,000 leads instead of 100,000.
set -eu
out=.build/bench
mkdir -p $out
export OUT="$PWD/$out" WASM_EXEC="$(go env GOROOT)/lib/wasm/wasm_exec_node.js"

# build PACKAGE: its tests as a native program and as WASM.
build() {
  name=$(echo "$1" | tr / _)
  go test -c -o "$out/$name.test" "./$1"
  GOOS=js GOARCH=wasm go test -c -o "$out/$name.wasm" "./$1"
}

for part in ${*:-shape circulation page drag compare leads checks}; do
  case $part in
    shape) build internal/core/geom && go test -c -o "$out/browser.test" ./internal/browsertest ;;
    circulation) build internal/core/pump && build internal/core/hydraulics ;;
    page) build internal/form && build internal/drawing && go test -c -o "$out/app_tarnwright.test" ./app/tarnwright ;;
    drag) go test ./internal/browsertest -run '^$' -bench '^BenchmarkDrag$' -benchtime 1x | grep '^drag' && continue ;;
    compare) go test ./internal/browsertest -run '^$' -bench '^BenchmarkCompare$' -benchtime 1x | grep '^compare' && continue ;;
    leads) for db in sqlite postgres; do
        go test ./internal/store/$db -run '^$' -bench '^BenchmarkLeads$' -benchtime 1x -timeout 30m ${LONG:+-stored 1000000} | grep -e "^leads" -e "^---" -e FAIL -e "_test.go:" || exit 1
      done && continue ;;
    checks) go test ./app/tarnwright -run '^$' -bench '^BenchmarkChecks$' -benchtime 1x | grep '^checks' && continue ;;
    *) echo "no part $part" >&2 && exit 2 ;;
  esac
  node .ci/bench.mjs "$part"
done
