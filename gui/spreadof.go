package gui

import (
	"slices"

	"app.tonedesk/analysis"
)

// spreadOf takes a reading's part for the spread; nothing of the reading is kept.
func spreadOf(r *analysis.Reading, marks []SpreadMark) SpreadState {
	return SpreadState{Histogram: r.Histogram, Groups: slices.Clone(r.Chosen().Groups()), Marks: marks}
}
