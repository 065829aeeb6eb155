#!/usr/bin/env bash
# click.sh WINDOW TRACE X Y clicks in the mirror, X and Y in thousandths of the picture.
# Where the picture lies in the window stands in the last line of the trace.
set -euo pipefail
box=$(tail -1 "$2" | sed -E 's/.*"mirror":\[([^]]*)\].*/\1/')
at=$(awk -F, -v x="$3" -v y="$4" '{printf "%d %d", $1 + $3*x/1000, $2 + $4*y/1000}' <<<"$box")
lines=$(wc -l <"$2")
# shellcheck disable=SC2086 # two words on purpose
xdotool mousemove --window "$1" $at click 1
for _ in $(seq 100); do
	[ "$(wc -l <"$2")" -gt "$lines" ] && break
	sleep 0.05
done
