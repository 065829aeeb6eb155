# Sourced after virtual.sh: opens the built program and drives it as a painter would. What it
# shows, and where, is read from its trace.

# window_shown TITLE waits for a window and sets $found to its id.
window_shown() { until_true "The window $1 did not open." window_found "$1"; }

window_found() {
	found=$(xdotool search --onlyvisible --name "^$1\$" 2>/dev/null | head -1) && [ -n "$found" ]
}

# open_desk PROGRAM SETTINGS [PICTURE] opens the window and waits for its first picture.
# SETTINGS are fields of the settings file in JSON.
open_desk() {
	mkdir -p "$XDG_CONFIG_HOME/tonedesk"
	echo "{\"version\": 1, $2}" >"$XDG_CONFIG_HOME/tonedesk/settings.json"
	trace="$work/trace"
	rm -f "$trace"
	"$1" --trace "$trace" "${@:3}" &
	desk=$!
	window_shown Tonedesk
	window=$found
	shows '"event":"shown"'
	says '"mirror":\[[0-9.]+,[0-9.]+,[1-9]'
	xdotool windowactivate --sync "$window"
}

# close_desk ends the program, which saves what there is to save.
close_desk() {
	kill "$desk"
	wait "$desk" || true
}

# shows PATTERN waits until a line of the trace matches, says PATTERN until the last one does.
shows() { until_true "The window never showed $1" grep -Eqs "$1" "$trace"; }
says() { until_true "The window does not show $1" last_line_has "$1"; }
last_line_has() { tail -1 "$trace" 2>/dev/null | grep -Eq "$1"; }

# part_at NAME prints where the part of that name in the trace lies: x, y, width, height.
part_at() { tail -1 "$trace" | sed -E "s/.*\"$1\":\\[+([^]]*)\\].*/\\1/" | tr , ' '; }

# tool_at NUMBER is the same for a tool of the page of notes.
tool_at() { tail -1 "$trace" | sed -E 's/.*"tools":\[\[([^"]*)\]\],.*/\1/; s/\],\[/\n/g' | sed -n "$1p" | tr , ' '; }

# in_part X Y LEFT TOP WIDTH HEIGHT prints the point that lies X and Y thousandths into it.
in_part() { awk -v x="$1" -v y="$2" -v l="$3" -v t="$4" -v w="$5" -v h="$6" 'BEGIN {printf "%d %d", l + w*x/1000, t + h*y/1000}'; }

# click_in PLACE X Y clicks in a place, as part_at and tool_at print it.
click_in() {
	# shellcheck disable=SC2046,SC2086 # words on purpose
	xdotool mousemove --window "$window" $(in_part "$2" "$3" $1) click 1
}

# pick X Y... sets spots in the picture, in thousandths of its width and height.
pick() {
	local spots=0
	while [ $# -gt 0 ]; do
		click_in "$(part_at mirror)" "$1" "$2"
		spots=$((spots + 1))
		says "\"spots\":\\[(\\{[^}]*\\},?){$spots}\\]"
		shift 2
	done
}

# draw X Y X Y drags in the picture, in thousandths of it.
draw() {
	local box
	box=$(part_at mirror)
	# shellcheck disable=SC2046,SC2086 # words on purpose
	xdotool mousemove --window "$window" $(in_part "$1" "$2" $box) mousedown 1 \
		mousemove --window "$window" $(in_part $((($1 + $3) / 2)) $((($2 + $4) / 2)) $box) \
		mousemove --window "$window" $(in_part "$3" "$4" $box) mouseup 1
}

# press KEY... presses keys in the window.
press() { xdotool key --window "$window" --clearmodifiers "$@"; }

# take FILE [WINDOW] takes a picture of the window, or of another (root), once it stays as it is
# for a second, with the pointer on the bar and no message over the picture.
take() {
	local before='' now='' same=0 ends=$((SECONDS + 60))
	xdotool mousemove --window "$window" 2 2
	says '"message":""'
	while [ $same -lt 3 ]; do
		if [ $SECONDS -gt $ends ]; then echo "The window never stayed as it is." >&2; return 1; fi
		sleep 0.4
		import -window "${2:-$window}" -strip "$work/now.png"
		now=$(identify -format '%#' "$work/now.png")
		if [ "$now" = "$before" ]; then same=$((same + 1)); else same=0; fi
		before=$now
	done
	mv "$work/now.png" "$1"
}
