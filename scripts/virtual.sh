# Sourced: virtual_screen WIDTHxHEIGHT starts a screen with a window manager and sets
# DISPLAY; it ends with the script. $work is a folder for the script's files until then.
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
	until_true "The window manager did not start." managed
	xsetroot -solid '#2e2e2e'
	export HOME="$work" XDG_CONFIG_HOME="$work/config" XDG_STATE_HOME="$work/state" XDG_DATA_HOME="$work/data" XDG_CACHE_HOME="$work/cache"
}

managed() { xprop -root _NET_SUPPORTING_WM_CHECK 2>/dev/null | grep -q 'window id'; }

# until_true COMPLAINT COMMAND... runs the command until it succeeds, for 30 seconds.
until_true() {
	local complaint=$1 ends=$((SECONDS + 30))
	shift
	until "$@"; do
		if [ $SECONDS -gt $ends ]; then echo "$complaint" >&2; return 1; fi
		sleep 0.1
	done
}
