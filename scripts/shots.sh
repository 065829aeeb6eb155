#!/usr/bin/env bash
# shots.sh PROGRAM FOLDER makes the README's pictures: the window beside a painting that it
# watches (window.png), and its other pages (pages.png).
set -euo pipefail
cd "$(dirname "$0")/.."
unset DISPLAY WAYLAND_DISPLAY
scripts/run.sh "$1"
cp build/desk.png "$2/window.png"

. scripts/virtual.sh
virtual_screen 1280x1000
export HOME="$work" XDG_CONFIG_HOME="$work/config" XDG_STATE_HOME="$work/state" XDG_DATA_HOME="$work/data" XDG_CACHE_HOME="$work/cache"
mkdir -p "$XDG_CONFIG_HOME/tonedesk"
for page in Structure Colours Stills; do
	echo "{\"version\": 1, \"page\": \"$page\", \"width\": 380, \"height\": 940}" >"$XDG_CONFIG_HOME/tonedesk/settings.json"
	"$1" --trace "$work/$page" assets/demo.png &
	desk=$!
	window=$(window_shown Tonedesk)
	trace_has "$work/$page" '"event":"shown"'
	case $page in
	Stills)
		xdotool key --window "$window" --clearmodifiers ctrl+s
		trace_has "$work/$page" '"shelf":\["'
		;;
	*)
		scripts/click.sh "$window" "$work/$page" 480 450
		scripts/click.sh "$window" "$work/$page" 550 569
		trace_has "$work/$page" 'tones'
		;;
	esac
	xdotool mousemove --window "$window" 2 2
	sleep 2 # for families, palette and small pictures
	import -window "$window" -strip "$work/$page.png"
	kill "$desk"
	wait "$desk" || true
done
montage "$work/Structure.png" "$work/Colours.png" "$work/Stills.png" -tile 3x1 -geometry +8+8 -background '#5e5e5e' -strip "$2/pages.png"
