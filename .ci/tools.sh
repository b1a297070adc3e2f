#!/bin/sh
# Installs what the tests need and this machine lacks: Chromium with the fonts
# of the pictures and PostgreSQL (Debian packages), and the npm packages of
# .ci/package.json into a folder git ignores. Fails when something cannot be
# had.
set -eu
if ! command -v chromium >/dev/null 2>&1 || ! fc-list 2>/dev/null | grep -q NotoSerif-Regular || ! ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1; then
  sudo=""; [ "$(id -u)" = 0 ] || sudo=sudo
  $sudo apt-get update -qq
  DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq chromium fonts-noto-core postgresql >/dev/null
fi
mkdir -p .tools
if ! cmp -s .ci/package.json .tools/package.json; then
  cp .ci/package.json .tools/package.json
  (cd .tools && npm install --no-audit --no-fund --silent)
fi
test -f .tools/node_modules/axe-core/axe.min.js
