package live

import (
	"image"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
)

// What is painted anew, and what is left, as settings change over an unchanged picture.
func TestMirrorPaints(t *testing.T) {
	r := newRig(t)
	f := frameOf(halves(4, 2, black, white))
	first := r.see(f, false).Img
	r.next.Settings.Flipped = true
	s := r.see(f, true)
	wantGreys(t, "mirrored", s.Img, 1, 255, 255, 0, 0)
	if s.Img == first || !s.Flipped {
		t.Error("the image that is shown was painted over, or is not said to be flipped")
	}
	r.next.Settings.Flipped = false
	wantGreys(t, "not mirrored", r.see(f, true).Img, 1, 0, 0, 255, 255)
	r.next.Lay = func(image.Rectangle) Lay { return Lay{image.Rect(1, 0, 3, 2), image.Pt(2, 2)} }
	s = r.see(f, true)
	wantGreys(t, "a part", s.Img, 1, 0, 255)
	if s.Part != image.Rect(1, 0, 3, 2) {
		t.Errorf("the part is %v", s.Part)
	}
	r.next.Settings.View = "no view of this version"
	r.next.Lay = whole
	if s = r.see(f, true); s.Img.Rect.Size() != image.Pt(4, 2) {
		t.Errorf("in a view that there isn't the picture is %v", s.Img.Rect)
	}
}

// What is left out is dotted where it lies, and what is beyond the limits too.
func TestMirrorDots(t *testing.T) {
	dotted := func(next Wanted) (left, right bool) {
		m := mirror{reducer: reduce.New()}
		defer m.reducer.Close()
		img := m.paint(taskOf(halves(64, 64, white, white), next, image.Pt(10, 10)), nil)
		for y := range 64 {
			for x, v := range greys(img, y) {
				left, right = left || v != 255 && x < 32, right || v != 255 && x >= 32
			}
		}
		return left, right
	}
	next := wantsAll()
	if left, right := dotted(next); left || right {
		t.Error("dots where all is counted")
	}
	next.Setup = next.Setup.LeavingOut(image.Rect(10, 10, 42, 74))
	if left, right := dotted(next); !left || right {
		t.Errorf("the left half is left out, dotted are left %v, right %v", left, right)
	}
	next = wantsAll()
	next.Covered = image.Rect(42, 0, 100, 100)
	if left, right := dotted(next); left || !right {
		t.Errorf("our window covers the right half, dotted are left %v, right %v", left, right)
	}
	next = wantsAll()
	next.Settings.Page = "Structure" // where white is too light
	if left, right := dotted(next); !left || !right {
		t.Errorf("all is too light, dotted are left %v, right %v", left, right)
	}
}

// The small picture is made in the size of its view's knob, unless there is no room for it.
func TestBeside(t *testing.T) {
	b := beside{reducer: reduce.New()}
	defer b.reducer.Close()
	img := halves(256, 128, black, white)
	next := wantsAll()
	next.Settings = next.Settings.WithKnob("small", 64)
	paint := func() (*image.RGBA, []analysis.GapChange) {
		tt := taskOf(img, next, image.Pt(5, 5))
		return b.paint(tt, analysis.Read(tt.pixels, analysis.Options{}))
	}
	if small, gaps := paint(); small != nil || len(gaps) > 0 {
		t.Error("greys have it too")
	}
	next.Settings.View = "small"
	small, gaps := paint()
	if small == nil || small.Rect.Size() != image.Pt(64, 32) {
		t.Fatalf("the small picture is %v, want 64 by 32", small)
	}
	if row := greys(small, 3); row[0] != 0 || row[63] != 255 {
		t.Errorf("its ends are %d and %d", row[0], row[63])
	}
	// black is value 0, white 10 (D1535), and nothing of that is lost
	if len(gaps) != 1 || math.Abs(gaps[0].Whole-10) > 0.1 || math.Abs(gaps[0].Small-gaps[0].Whole) > 0.1 {
		t.Errorf("gaps %+v, want one of 10 tones", gaps)
	}
	next.Settings.Flipped = true
	if small, _ := paint(); greys(small, 3)[0] != 255 {
		t.Error("it is not mirrored")
	}
	tt := taskOf(img, next, image.Point{})
	tt.same.beside = true
	if again, _ := b.paint(tt, nil); again != b.img || again == nil {
		t.Error("one that still holds is made anew")
	}
	next.Halves = true
	if small, gaps := paint(); small != nil || len(gaps) > 0 {
		t.Error("it stands where another picture stands")
	}
}

func TestLoupe(t *testing.T) {
	l := loupe{reducer: reduce.New()}
	defer l.reducer.Close()
	paint := func(at image.Point, change func(*Wanted)) *image.RGBA {
		next := wantsAll()
		next.Looking, next.Look = true, at
		change(&next)
		return l.paint(taskOf(halves(40, 40, black, white), next, image.Pt(100, 100)), nil)
	}
	nothing := func(*Wanted) {}
	if paint(image.Pt(110, 110), func(w *Wanted) { w.Looking = false }) != nil || paint(image.Pt(90, 90), nothing) != nil {
		t.Error("a loupe without a pointer on the picture")
	}
	img := paint(image.Pt(121, 120), nothing) // white begins at 120
	wantGreys(t, "around the edge", img, 7, 0, 0, 0, 0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 255, 255)
	img = paint(image.Pt(121, 120), func(w *Wanted) { w.Settings.Flipped = true })
	wantGreys(t, "mirrored", img, 7, 255, 255, 255, 255, 255, 255, 255, 255, 255, 0, 0, 0, 0, 0, 0)
	img = paint(image.Pt(139, 100), nothing) // the top right corner is the middle cell
	for _, at := range []image.Point{{7, 6}, {8, 7}} {
		if img.RGBAAt(at.X, at.Y).A != 0 {
			t.Errorf("cell %v lies outside and isn't empty", at)
		}
	}
	if got := img.RGBAAt(7, 7); got.R != 255 || got.A != 255 {
		t.Errorf("the middle is %v", got)
	}
	img = paint(image.Pt(121, 120), func(w *Wanted) { w.Settings.View = "edges" }) // needs the pixels around
	wantGreys(t, "instead of edges", img, 7, 0, 0, 0, 0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 255, 255)
}
