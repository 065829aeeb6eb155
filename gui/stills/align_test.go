package stills

import (
	"encoding/json"
	"image"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/files"
)

func side(p analysis.Pixels, kind string, r image.Rectangle, out *analysis.Mask) Side {
	return Side{Picture: p, Source: Source{Kind: kind, Region: files.RectOf(r)}, LeftOut: LeftOutOf(out)}
}

// desktop is a picture to take parts of.
var desktop = noise(5)

func align(t *testing.T, before, after Side) Aligned {
	t.Helper()
	a, err := Align(before, after)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestAlign(t *testing.T) {
	whole := image.Rect(0, 0, 120, 90)
	left, right := image.Rect(0, 0, 80, 90), image.Rect(40, 10, 120, 90)
	far := image.Rect(79, 0, 120, 90)
	screen := func(r image.Rectangle) Side { return side(desktop.Crop(r), FromScreen, r.Add(image.Pt(300, 200)), nil) }
	file := Side{Picture: desktop.Crop(left)}
	tests := []struct {
		name          string
		before, after Side
		how           Alignment
		size          image.Point
		stretched     bool
	}{
		{"the same region", screen(whole), screen(whole), SamePixels, image.Pt(120, 90), false},
		{"parts of one desktop", screen(left), screen(right), ByPosition, image.Pt(40, 80), false},
		{"parts that share next to nothing", screen(left), screen(far), Scaled, image.Pt(41, 90), true},
		{"files of one size", file, file, SamePixels, image.Pt(80, 90), false},
		{"files of two sizes and shapes", file, Side{Picture: desktop}, Scaled, image.Pt(80, 90), true},
		{"files of one shape", Side{Picture: reduced(desktop, 60, 45)}, Side{Picture: desktop}, Scaled, image.Pt(60, 45), false},
		{"a screen and a file", screen(left), Side{Picture: desktop.Crop(left), Source: Source{Kind: FromPicture, Region: files.RectOf(left)}}, SamePixels, image.Pt(80, 90), false},
		{"a picture that isn't its region's size", screen(whole), Side{Picture: desktop, Source: Source{Kind: FromScreen, Region: files.Rect{X: 0, Y: 0, Width: 5, Height: 5}}}, SamePixels, image.Pt(120, 90), false},
	}
	for _, tt := range tests {
		a := align(t, tt.before, tt.after)
		if a.How != tt.how || a.Stretched != tt.stretched ||
			image.Pt(a.Before.Width, a.Before.Height) != tt.size || image.Pt(a.After.Width, a.After.Height) != tt.size {
			t.Errorf("%s: %s, %d x %d and %d x %d, stretched %v", tt.name, a.How, a.Before.Width, a.Before.Height, a.After.Width, a.After.Height, a.Stretched)
		}
	}
	// What both show is the same, so nothing has changed.
	a := align(t, screen(left), screen(right))
	c, err := analysis.ChangeOf(a.Before, a.After, a.MaskBefore, a.MaskAfter, 0)
	if err != nil || c.Distance != 0 || a.Region != (files.Rect{X: 340, Y: 210, Width: 40, Height: 80}) {
		t.Errorf("%+v, %v, region %v", c, err, a.Region)
	}
}

// What was left out stays left out, where it lies after the alignment.
func TestAlignLeavesOut(t *testing.T) {
	out := &analysis.Mask{Areas: []image.Rectangle{image.Rect(40, 10, 60, 30)}} // of the desktop
	left, right := image.Rect(0, 0, 80, 90), image.Rect(40, 10, 120, 90)
	a := align(t, side(desktop.Crop(left), FromScreen, left, out), side(desktop.Crop(right), FromScreen, right, nil))
	c, err := analysis.ChangeOf(a.Before, a.After, a.MaskBefore, a.MaskAfter, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, counted := c.At(0, 0); counted || c.Counted != 40*80-20*20 {
		t.Errorf("%d pixels count, want %d", c.Counted, 40*80-20*20)
	}
	a = align(t, Side{Picture: desktop, LeftOut: LeftOutOf(out)}, Side{Picture: reduced(desktop, 60, 45)})
	if got, want := a.MaskBefore.Areas[0], image.Rect(20, 5, 30, 15); got != want {
		t.Errorf("scaled to %v, want %v", got, want)
	}
}

// What is left out is written down and read again.
func TestLeftOutThereAndBack(t *testing.T) {
	out := &analysis.Mask{Areas: []image.Rectangle{image.Rect(1, 2, 3, 5)}}
	for _, bin := range []int{0, 1, 2, 100, 254, 255} {
		out.Lightness[bin] = true
	}
	l := LeftOutOf(out)
	if len(l.Lightness) != 3 {
		t.Errorf("ranges %v, want three", l.Lightness)
	}
	got := l.Mask(analysis.Pixels{})
	if got.Lightness != out.Lightness || got.Areas[0] != out.Areas[0] {
		t.Errorf("%v becomes %v", out, got)
	}
	if LeftOutOf(nil).Mask(analysis.Pixels{}) != nil {
		t.Error("nothing becomes something")
	}
}

// Colours that are left out are written down by their places, and grow the same part again,
// also of a still that lies elsewhere or is brought to another size.
func TestColoursLeftOutThereAndBack(t *testing.T) {
	p := reduced(noise(5), 60, 45)
	for y := range 45 {
		for x := range 60 {
			if x < 12 || y > 30 {
				copy(p.Pix[y*p.Stride+4*x:], []byte{118, 118, 118, 255})
			}
		}
	}
	seed := analysis.Seed{At: image.Pt(3, 4), Colour: colour.RGB{R: 118, G: 118, B: 118}, Within: 1}
	whole := &analysis.Mask{Grown: analysis.Grow(p, nil, []analysis.Seed{seed})}
	if n := whole.Grown.Pixels(); n < 60*45-48*31 || n > 60*45-48*31+20 {
		t.Fatalf("%d pixels are grown", n)
	}
	text, err := json.Marshal(LeftOutOf(whole))
	if err != nil {
		t.Fatal(err)
	}
	var l LeftOut
	if err := json.Unmarshal(text, &l); err != nil {
		t.Fatal(err)
	}
	if got := l.Mask(p).Grown; got.Pixels() != whole.Grown.Pixels() || l.Parts().Seeds[0] != seed {
		t.Errorf("%s grows %d pixels, want %d", text, got.Pixels(), whole.Grown.Pixels())
	}
	counted := analysis.Read(p, analysis.Options{Mask: whole}).Counted
	place := image.Rect(100, 100, 160, 145)
	of := Side{Picture: p, Source: Source{Kind: FromScreen, Region: files.RectOf(place)}, LeftOut: l}
	part := Side{Picture: p.Crop(image.Rect(6, 0, 60, 45)), Source: Source{Kind: FromScreen, Region: files.RectOf(image.Rect(106, 100, 160, 145))}}
	a, err := Align(of, part)
	if err != nil {
		t.Fatal(err)
	}
	if got := analysis.Read(a.Before, analysis.Options{Mask: a.MaskBefore}).Counted; a.How != ByPosition || got != counted {
		t.Errorf("by position %d pixels are counted, want %d", got, counted)
	}
	a, err = Align(Side{Picture: p, LeftOut: l}, Side{Picture: reduced(p, 30, 15)})
	if err != nil {
		t.Fatal(err)
	}
	if got := analysis.Read(a.Before, analysis.Options{Mask: a.MaskBefore}).Counted; a.How != Scaled || got < counted/6-60 || got > counted/6+60 {
		t.Errorf("scaled, %d of %d pixels are counted", got, counted)
	}
}

// What an older program left out by its lightness is still left out.
func TestLightnessLeftOutOfOldStills(t *testing.T) {
	var l LeftOut
	if err := json.Unmarshal([]byte(`{"areas": [], "lightness": [[250, 255]]}`), &l); err != nil {
		t.Fatal(err)
	}
	m := l.Mask(analysis.Pixels{})
	if !m.LeavesOut(250) || m.LeavesOut(249) || len(l.Parts().Tones) == 0 || m.Grown != nil {
		t.Errorf("left out is %+v", l.Parts())
	}
}
