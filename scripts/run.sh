#!/usr/bin/env bash
# Opens the window. On a machine without a display it opens it on a virtual screen beside
# the demo painting, and saves a screenshot.
set -euo pipefail
cd "$(dirname "$0")/.."
bin=$1

if [ "$(uname -s)" != Linux ] || [ -n "${DISPLAY:-}" ] || [ -n "${WAYLAND_DISPLAY:-}" ]; then
	exec "$bin"
fi

echo "There is no display here, so the window opens on a virtual screen."
. scripts/virtual.sh
. scripts/window.sh
virtual_screen 1300x840
display -resize 840x630 -geometry +20+60 -title "A painting" assets/demo.png >/dev/null 2>&1 &
window_shown "A painting"
open_desk "$bin" '"region": {"x": 21, "y": 80, "width": 838, "height": 628}, "place": {"x": 890, "y": 40, "width": 380, "height": 760}'
pick 492 300 558 500
take build/desk.png root
close_desk
echo "A screenshot of it is in build/desk.png."
