#!/usr/bin/env bash
# Opens the window. On a machine without a display it opens it on a virtual screen beside
# the demo picture, and saves a screenshot.
set -euo pipefail
cd "$(dirname "$0")/.."
bin=$1

if [ "$(uname -s)" != Linux ] || [ -n "${DISPLAY:-}" ] || [ -n "${WAYLAND_DISPLAY:-}" ]; then
	exec "$bin"
fi

echo "There is no display here, so the window opens on a virtual screen."
. scripts/virtual.sh
virtual_screen 1280x860
export HOME="$work" XDG_CONFIG_HOME="$work/config" XDG_STATE_HOME="$work/state"
display -geometry 840x630+20+60 -title "A painting" assets/demo.png >/dev/null 2>&1 &
window_shown "A painting" >/dev/null
mkdir -p "$XDG_CONFIG_HOME/tonedesk"
cat >"$XDG_CONFIG_HOME/tonedesk/settings.json" <<END
{"version": 1, "region": {"x": 40, "y": 100, "width": 760, "height": 560},
 "place": {"x": 880, "y": 60, "width": 380, "height": 760}}
END
"$bin" --trace "$work/trace" &
desk=$!
window=$(window_shown Tonedesk)
trace_has "$work/trace" '"event":"shown"'
scripts/click.sh "$window" "$work/trace" 684 696
scripts/click.sh "$window" "$work/trace" 855 820
trace_has "$work/trace" 'tones'
xdotool mousemove --window "$window" 2 2
sleep 0.5 # for the last frame to be drawn
import -window root -strip build/desk.png
kill "$desk"
wait "$desk" || true
echo "A screenshot of it is in build/desk.png."
