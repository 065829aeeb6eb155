package gui

import "app.tonedesk/analysis"

// target is a picture as the plan to paint toward. It never changes.
type target struct {
	name  string // for the window
	path  string // of its file; empty for what was in the mirror, or a still
	still string // its ID; empty for what is no still
	plan  *analysis.Target
}
