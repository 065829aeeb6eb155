package wording

import (
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
)

// slabs are level slabs of two colours in turns, each so many pixels high.
func slabs(a, b [3]byte, count int) analysis.Pixels {
	const w, high = 200, 24
	p := analysis.Pixels{Pix: make([]byte, 4*w*high*count), Stride: 4 * w, Width: w, Height: high * count}
	for i := range w * high * count {
		c := a
		if i/w/high%2 == 1 {
			c = b
		}
		copy(p.Pix[4*i:], []byte{c[0], c[1], c[2], 255})
	}
	return p
}

func TestSayEdges(t *testing.T) {
	rose, moss, grey := [3]byte{0xc8, 0x7c, 0x80}, [3]byte{0x81, 0x97, 0x5d}, [3]byte{70, 70, 70}
	say := func(p analysis.Pixels) EdgesText {
		return SayEdges(edges.Find(p, nil, edges.DefaultOptions()), analysis.Read(p, analysis.Options{}).Chosen().Groups())
	}
	if got := say(analysis.Pixels{}); got.Title != "no edge is lost in grey" || len(got.Lines) != 0 {
		t.Errorf("of nothing: %+v", got)
	}
	two := say(slabs(rose, moss, 2))
	if !strings.HasPrefix(two.Title, "1\u00a0lost edge, carried by colour alone, 100\u00a0% of the width") || len(two.Lines) != 1 ||
		!strings.Contains(two.Lines[0], " melts into #") || !strings.Contains(two.Lines[0], "0.1\u00a0tones, 100\u00a0% long, ") || !strings.Contains(two.Lines[0], " and 50\u00a0% down, both ") {
		t.Errorf("of two: %+v", two)
	}
	many := say(slabs(rose, moss, 9))
	if !strings.HasPrefix(many.Title, "8\u00a0lost edges") || len(many.Lines) != mostEdges+1 || !strings.HasPrefix(many.Lines[mostEdges], "2\u00a0shorter ones") {
		t.Errorf("of many: %+v", many)
	}
	if got := say(slabs(grey, [3]byte{160, 160, 160}, 2)); got.Title != "no edge is lost in grey" || len(got.Lines) != 1 || got.Lines[0] != "1\u00a0edge carried by lightness alone, 100\u00a0%" {
		t.Errorf("of greys: %+v", got)
	}
}
