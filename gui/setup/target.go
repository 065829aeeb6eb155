package setup

import "app.tonedesk/analysis"

// Target is a picture as the plan to paint toward. It never changes.
type Target struct {
	Name  string // for the window
	Path  string // of its file; empty for what was in the mirror, or a still
	Still string // its ID; empty for what is no still
	Plan  *analysis.Target
}

// Origin is the file or the still that a target can be read from again; both are empty for
// another, and for none.
func (t *Target) Origin() (path, still string) {
	if t == nil {
		return "", ""
	}
	return t.Path, t.Still
}
