#!/usr/bin/env bash
# bench.sh PROGRAM prints the figures of DEVELOPERS.md: the parts by Go benchmarks (medians
# of several runs), the window from outside. Wants a quiet machine; takes some twelve minutes once all is
# built. TONEDESK_FIGURES: seconds for which memory is watched, after 140 s (60).
set -euo pipefail
cd "$(dirname "$0")/.."
export TONEDESK_NEED_X=1

# bench PATTERN TIME FOLDER... runs benchmarks three times, each for so long.
bench() {
	local pattern=$1 long=$2
	shift 2
	go test -run '^$' -bench "$pattern" -benchmem -benchtime "$long" -count 3 -timeout 20m "$@" | scripts/medians.sh
}

echo "The parts (medians of 3, and the least and the most; each beside its reference in the same run):"
bench 'Read(Plane)?(Painting|Noise)|ReadChanged|ReadLarge|ReduceChanged|ReduceAndPaint|ReadSpot11|Paper|Finder|Squint|SmallGaps|Meter|Distance|Families|Forms|Edges|Find$|Light|Shade|Palette|Change' 0.2s ./analysis/...
bench . 0.2s ./gui/live
bench 'X11|Follow|WatcherTick' 0.3s ./capture
bench ReadMany 2x ./cmd/desk/command
bench . 1x ./gui/stills/...
echo "The window (measured | to reach):"
TONEDESK_FIGURES="${TONEDESK_FIGURES:-60}" go test -v -count 1 -timeout 30m -run TestFigures ./cmd/desk | grep -E '^FIGURE|FAIL'
