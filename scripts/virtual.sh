# Sourced: virtual_screen WIDTHxHEIGHT starts a screen with a window manager and sets
# DISPLAY; it ends with the script.
virtual_screen() {
	local fifo
	work=$(mktemp -d)
	trap 'kill $(jobs -p) 2>/dev/null || true; wait 2>/dev/null || true; rm -rf "$work"' EXIT
	fifo="$work/display"
	mkfifo "$fifo"
	Xvfb -displayfd 5 -noreset -screen 0 "$1x24" 5>"$fifo" >/dev/null 2>&1 &
	read -r number <"$fifo"
	export DISPLAY=":$number" FYNE_SCALE="${FYNE_SCALE:-1}"
	unset WAYLAND_DISPLAY XDG_SESSION_TYPE XAUTHORITY TONEDESK_DISPLAY
	openbox >/dev/null 2>&1 &
	for _ in $(seq 100); do
		xprop -root _NET_SUPPORTING_WM_CHECK 2>/dev/null | grep -q 'window id' && return 0
		sleep 0.1
	done
}

# window_shown waits until the window TITLE is there, and prints its id.
window_shown() {
	local id
	for _ in $(seq 300); do
		id=$(xdotool search --onlyvisible --name "^$1\$" 2>/dev/null | head -1) || true
		if [ -n "$id" ]; then echo "$id"; return 0; fi
		sleep 0.1
	done
	echo "The window $1 did not open." >&2
	return 1
}

# trace_has waits until the trace FILE has a line that matches PATTERN.
trace_has() {
	for _ in $(seq 300); do
		if grep -q "$2" "$1" 2>/dev/null; then return 0; fi
		sleep 0.1
	done
	echo "The window did not show what was waited for: $2" >&2
	return 1
}
