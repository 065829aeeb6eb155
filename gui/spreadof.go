package gui

import (
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/widgets"
)

// spreadOf takes a reading's part for the spread; nothing of the reading is kept.
func spreadOf(r *analysis.Reading, marks []widgets.SpreadMark) widgets.SpreadState {
	return widgets.SpreadState{Histogram: r.Histogram, Groups: slices.Clone(r.Chosen().Groups()), Marks: marks}
}
