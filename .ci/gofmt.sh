#!/bin/sh
# Fails, and says where, when a tracked Go file is not gofmt-clean.
bad=$(gofmt -l app internal web)
[ -z "$bad" ] || { echo "not gofmt-clean:"; echo "$bad"; exit 1; }
