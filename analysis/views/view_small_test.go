package views

import (
	"bytes"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
)

// The view is the greys, and says how long the side of the small picture beside it is.
func TestSmallView(t *testing.T) {
	p := analysistest.Painting(300, 200, analysis.BGRX)
	if !bytes.Equal(paintOf(t, p, "small", Look{Knob: 96}), paintOf(t, p, "grey", Look{})) {
		t.Error("it is not the greys")
	}
	view, _ := ByKey("small")
	for _, tt := range [][2]float64{{96, 96}, {0, 128}, {3, 64}, {1000, 256}} {
		if got := view.Beside(tt[0]); got != tt[1] {
			t.Errorf("the knob at %g makes it %g pixels, want %g", tt[0], got, tt[1])
		}
	}
}
