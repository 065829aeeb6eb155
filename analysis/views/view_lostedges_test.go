package views

import (
	"bytes"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
)

// twoAreas meet upright in the middle.
func twoAreas(width, height int, a, b colour.RGB) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	for i := range width * height {
		c := a
		if 2*(i%width) >= width {
			c = b
		}
		analysistest.Set(p, i%width, i/width, c, 255)
	}
	return p
}

// A lost edge is a white line with a black rim where the colours meet, and grey is left everywhere
// else; where no edge is lost the view is the greys.
func TestLostEdgesView(t *testing.T) {
	rose, moss := colour.RGB{R: 200, G: 124, B: 128}, colour.RGB{R: 129, G: 151, B: 93} // L* 60.1 and 59.5
	for _, size := range [][2]int{{90, 60}, {300, 200}, {1000, 600}} {
		w, h := size[0], size[1]
		p := twoAreas(w, h, rose, moss)
		got, grey := paintOf(t, p, "lost-edges", Look{}), paintOf(t, p, "grey", Look{})
		row := func(pix []byte) (greys []byte) {
			for x := range w {
				greys = append(greys, pix[4*(h/2*w+x)])
			}
			return greys
		}
		line := row(got)
		white, left, right := 0, bytes.IndexByte(line, 0), bytes.LastIndexByte(line, 0)
		for _, g := range line {
			if g == 255 {
				white++
			}
		}
		// It lies a cell off at most, which is three pixels where the picture is 1000 wide.
		if line[w/2] != 255 || line[w/2-1] != 255 || white < 2 || white > max(4, w/100) || left < 0 || left >= w/2 || right <= w/2 || max(w-1-right-left, left-w+1+right) > 3 {
			t.Errorf("%d wide: across the edge it is %v", w, line[max(0, w/2-20):w/2+20])
		}
		if was := row(grey); !bytes.Equal(line[:left], was[:left]) || !bytes.Equal(line[right+1:], was[right+1:]) || right-left > max(8, w/50) {
			t.Errorf("%d wide: beside the line it is not the greys", w)
		}
		for name, q := range map[string]analysis.Pixels{"one colour": twoAreas(w, h, rose, rose), "greys": twoAreas(w, h, colour.RGB{R: 90, G: 90, B: 90}, colour.RGB{R: 180, G: 180, B: 180})} {
			if !bytes.Equal(paintOf(t, q, "lost-edges", Look{}), paintOf(t, q, "grey", Look{})) {
				t.Errorf("%d wide: %s has a lost edge", w, name)
			}
		}
	}
}

// The knob says within how many tones an edge is lost. How far the paints are apart
// is computed from the published formula of the value.
func TestLostEdgesKnob(t *testing.T) {
	a, b := colour.RGB{R: 200, G: 124, B: 128}, colour.RGB{R: 122, G: 143, B: 86}
	apart := colour.Value(analysis.SpotOf(a).Lightness) - colour.Value(analysis.SpotOf(b).Lightness)
	if apart < 0.25 || apart > 0.45 {
		t.Fatalf("painted %g tones apart", apart)
	}
	p := twoAreas(300, 200, a, b)
	grey := paintOf(t, p, "grey", Look{})
	for knob, lost := range map[float64]bool{0: true, 0.1: false, 0.2: false, 0.5: true, 1: true} {
		if got := !bytes.Equal(paintOf(t, p, "lost-edges", Look{Knob: knob}), grey); got != lost {
			t.Errorf("within %g tones: lost %v, want %v", knob, got, lost)
		}
	}
	c := colour.RGB{R: 112, G: 133, B: 76}
	apart = colour.Value(analysis.SpotOf(a).Lightness) - colour.Value(analysis.SpotOf(c).Lightness)
	p = twoAreas(300, 200, a, c)
	grey = paintOf(t, p, "grey", Look{})
	for knob, lost := range map[float64]bool{0.5: false, 1: true} {
		if got := !bytes.Equal(paintOf(t, p, "lost-edges", Look{Knob: knob}), grey); apart < 0.6 || apart > 0.9 || got != lost {
			t.Errorf("%g apart, within %g tones: lost %v, want %v", apart, knob, got, lost)
		}
	}
}

// The painter's limits say what an edge is beside its tones: from which colours, and how long.
func TestLostEdgesLimits(t *testing.T) {
	a, b := colour.RGB{R: 200, G: 124, B: 128}, colour.RGB{R: 129, G: 151, B: 93}
	p := twoAreas(300, 200, a, b) // the edge is two thirds of the width long
	apart := colour.CIEDE2000(analysis.SpotOf(a).Lab, analysis.SpotOf(b).Lab)
	grey := paintOf(t, p, "grey", Look{})
	for _, tt := range []struct {
		what string
		set  func(o *edges.Options)
		lost bool
	}{
		{"as at first", func(*edges.Options) {}, true},
		{"of colours as far apart", func(o *edges.Options) { o.LeastCIEDE2000 = apart - 1 }, true},
		{"of colours further apart", func(o *edges.Options) { o.LeastCIEDE2000 = apart + 1 }, false},
		{"as long", func(o *edges.Options) { o.LeastLength = 0.6 }, true},
		{"longer", func(o *edges.Options) { o.LeastLength = 0.7 }, false},
	} {
		o := edges.DefaultOptions()
		tt.set(&o)
		if got := !bytes.Equal(paintOf(t, p, "lost-edges", Look{Edges: o}), grey); got != tt.lost {
			t.Errorf("%s: lost %v, want %v", tt.what, got, tt.lost)
		}
	}
}
