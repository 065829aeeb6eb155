package wording

import (
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
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
		return SayEdges(edges.Find(p, nil, edges.DefaultOptions()), NamesIn{Groups: analysis.Read(p, analysis.Options{}).Chosen().Groups()})
	}
	if got := say(analysis.Pixels{}); got.Title != "no edge is lost in grey" || len(got.Lines) != 0 {
		t.Errorf("of nothing: %+v", got)
	}
	two := say(slabs(rose, moss, 2))
	if !strings.HasPrefix(two.Title, "1\u00a0lost edge, carried by colour alone, 100\u00a0% of the width") || len(two.Lines) != 1 ||
		!strings.HasPrefix(two.Lines[0], "yellow melts into red: 0.1\u00a0tones, 100\u00a0% long, in the middle, both ") {
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

// Neighbours are named by their local colours where these are known and counted, else by hue;
// where that is the same word for both, with their codes.
func TestSayEdgesNames(t *testing.T) {
	p := slabs([3]byte{0xc8, 0x7c, 0x80}, [3]byte{0x81, 0x97, 0x5d}, 2) // red above yellow, of one lightness
	f := edges.Find(p, nil, edges.DefaultOptions())
	family := func(c colour.RGB) families.Family { return families.Family{Light: analysis.SpotOf(c)} }
	orange, blue := family(colour.RGB{R: 230, G: 140, B: 40}), family(colour.RGB{R: 60, G: 90, B: 200})
	of := func(list ...families.Family) *families.Found { // the one above, the other below
		found := &families.Found{Width: 1, Height: 2, Map: []uint8{1, 0}, List: list}
		if len(list) > 1 {
			found.Map[1] = 6
		}
		return found
	}
	groups := analysis.Read(p, analysis.Options{}).Chosen().Groups()
	all := func(int) bool { return true }
	for _, tt := range []struct {
		in    NamesIn
		names [2]string // in either order: which is darker is a matter of a hundredth
		last  string
	}{
		{NamesIn{Found: of(orange, blue), Counts: all, Groups: groups}, [2]string{"the orange", "the blue"}, ", both middle"},
		{NamesIn{Found: of(orange, orange), Counts: all}, [2]string{"the orange #c87c80", "the orange #81975d"}, ", in the middle"},
		{NamesIn{Found: of(orange), Counts: all, Groups: groups}, [2]string{"the orange", "yellow"}, ", both middle"},
		{NamesIn{Found: of(orange, blue), Counts: func(int) bool { return false }, Groups: groups}, [2]string{"red", "yellow"}, ", both middle"},
		{NamesIn{}, [2]string{"red", "yellow"}, ", in the middle"},
	} {
		said := strings.ReplaceAll(SayEdges(f, tt.in).Lines[0], Nbsp, " ")
		one, other := tt.names[0]+" melts into "+tt.names[1]+": ", tt.names[1]+" melts into "+tt.names[0]+": "
		if !strings.HasPrefix(said, one) && !strings.HasPrefix(said, other) || !strings.HasSuffix(said, tt.last) {
			t.Errorf("%q, want %q and %q", said, one, tt.last)
		}
	}
}

// A lost edge that is pointed at is said in three lengths, by the neighbours' names.
func TestSayMelts(t *testing.T) {
	red, green := colour.RGB{R: 0xc8, G: 0x7c, B: 0x80}, colour.RGB{R: 0x81, G: 0x97, B: 0x5d}
	above, below := []families.At{{X: 0.5, Y: 0.2}}, []families.At{{X: 0.5, Y: 0.8}}
	found := &families.Found{Width: 1, Height: 2, Map: []uint8{1, 0}, List: []families.Family{{Light: analysis.SpotOf(colour.RGB{R: 230, G: 140, B: 40})}}}
	want := [3]string{"The" + Nbsp + "orange melts into yellow: 0.3" + Nbsp + "tones", "The" + Nbsp + "orange, yellow: 0.3", "Melts: 0.3"}
	if got := (NamesIn{Found: found}).SayMelts(red, green, 0.3, above, below); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := (NamesIn{}).SayMelts(red, red, 0, nil, nil)[1]; got != "Red"+Nbsp+"#c87c80, red"+Nbsp+"#c87c80: 0.0" {
		t.Errorf("of one name: %q", got)
	}
}
