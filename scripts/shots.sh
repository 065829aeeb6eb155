#!/usr/bin/env bash
# shots.sh PROGRAM FILE makes the README's picture: the window beside a painting that it
# watches.
set -euo pipefail
cd "$(dirname "$0")/.."
unset DISPLAY WAYLAND_DISPLAY
scripts/run.sh "$1"
cp build/desk.png "$2"
