#!/usr/bin/env bash
# bench.sh PROGRAM prints the figures of DEVELOPERS.md: the parts by Go benchmarks (medians
# of several runs), the window from outside. Wants a quiet machine; takes some minutes.
# TONEDESK_FIGURES: seconds for which memory is watched (300).
set -euo pipefail
cd "$(dirname "$0")/.."
export TONEDESK_NEED_X=1

echo "The parts (medians of 5, and the least and the most; each beside its reference in the same run):"
go test -run '^$' -bench 'Read(Plane)?(Painting|Noise)|ReadChanged|ReadLarge|ReduceChanged|ReduceAndPaint|ReadSpot11|Paper|Finder|Squint|SmallGaps|Meter|Distance|Families|Forms|Edges|Find$|Light|Shade|Palette|Change' -benchmem -count 5 ./analysis/... | scripts/medians.sh
go test -run '^$' -bench . -benchmem -count 5 ./gui/live ./gui/stills/... | scripts/medians.sh
go test -run '^$' -bench 'X11|Follow|WatcherTick' -benchmem -count 5 -timeout 20m ./capture | scripts/medians.sh
go test -run '^$' -bench ReadMany -count 5 -timeout 20m ./cmd/desk/command | scripts/medians.sh
echo "The window (measured | to reach):"
TONEDESK_FIGURES="${TONEDESK_FIGURES:-300}" go test -v -count 1 -timeout 30m -run TestFigures ./cmd/desk | grep -E '^FIGURE|FAIL'
