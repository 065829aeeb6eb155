package live

import (
	"errors"
	"image"
	"math"
	"slices"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/setup"
)

// Black has L* 0, white 100 (CIE15); their light's mean, half of white's, 76.07.
var half = 116*math.Cbrt(0.5) - 16

func TestReadSpots(t *testing.T) {
	next := wantsAll()
	next.Setup.Places = []setup.Place{
		{At: image.Pt(102, 105)}, {At: image.Pt(137, 105)}, {Area: image.Rect(110, 102, 130, 108)}, {At: image.Pt(2, 5)}, {Area: image.Rect(0, 0, 9, 9)},
	}
	got := readSpots(nil, taskOf(halves(40, 10, black, white), next, image.Pt(100, 100)))
	if len(got) != 5 {
		t.Fatalf("%d readings", len(got))
	}
	for i, want := range []float64{0, 100, half} {
		if r := got[i]; r.Err != nil || math.Abs(r.Lightness-want) > 0.1 {
			t.Errorf("spot %d reads %.2f, %v, want %.2f", i, r.Lightness, r.Err, want)
		}
	}
	for _, r := range got[3:] {
		if !errors.Is(r.Err, analysis.ErrOutside) {
			t.Errorf("a spot outside reads %v, %v", r.Spot, r.Err)
		}
	}
}

// What is fixed was read already: the picture says nothing of it, whatever lies there.
func TestReadFixed(t *testing.T) {
	blue := analysis.SpotOf(colour.RGB{B: 255})
	next := wantsAll()
	next.Setup.Places = []setup.Place{{At: image.Pt(102, 105), Fixed: &blue}, {At: image.Pt(-5, 7), Fixed: &blue}, {At: image.Pt(102, 105)}}
	got := readSpots(nil, taskOf(halves(40, 10, black, white), next, image.Pt(100, 100)))
	for i, r := range got[:2] {
		if r.Err != nil || r.Colour != blue.Colour {
			t.Errorf("spot %d reads %v, %v", i, r.Colour, r.Err)
		}
	}
	if a, b, ok := PairOf(got, -1); !ok || a != 0 || b != 1 || got[2].Lightness != 0 {
		t.Errorf("a pair of what is fixed: %d and %d, %v; beside it %v", a, b, ok, got[2].Spot)
	}
}

// Which side is the light one is what the picture says.
func TestReadFamilies(t *testing.T) {
	dark, light, outside := setup.Place{At: image.Pt(3, 5)}, setup.Place{At: image.Pt(30, 5)}, setup.Place{At: image.Pt(70, 5)}
	next := wantsAll()
	next.Setup.Families = []setup.Family{{Light: light, Shadow: dark}, {Light: dark, Shadow: light}, {Light: light, Shadow: outside}, {Light: outside, Shadow: light}}
	got := readFamilies(nil, taskOf(halves(40, 10, black, white), next, image.Point{}))
	for i, turned := range []bool{false, true} {
		// value 10 to value 0 (D1535)
		if f := got[i]; f.Err != nil || f.Turned != turned || math.Abs(f.Tones-10) > 0.01 || f.Light.Lightness < 99.9 {
			t.Errorf("family %d: %+v", i, f)
		}
	}
	for _, f := range got[2:] {
		if !errors.Is(f.Err, analysis.ErrOutside) || f.Turned {
			t.Errorf("a family half outside: %+v", f)
		}
	}
}

func TestPick(t *testing.T) {
	next := wantsAll()
	tt := taskOf(halves(40, 10, black, white), next, image.Pt(100, 100))
	for _, want := range []struct {
		at    *image.Point
		ok    bool
		light bool
	}{{nil, false, false}, {&image.Point{119, 109}, true, false}, {&image.Point{120, 100}, true, true}, {&image.Point{140, 100}, false, false}, {&image.Point{5, 5}, false, false}} {
		tt.Pick = want.at
		at, seen := pick(tt)
		if (at != nil) != want.ok || (seen != nil) != want.ok || want.ok && (at != want.at || (*seen == colour.RGB{R: 255, G: 255, B: 255}) != want.light) {
			t.Errorf("picked at %v: %v, %v, want %v", want.at, at, seen, want.ok)
		}
	}
	tt.pixels.Pix[3] = 0
	tt.Pick = new(image.Pt(100, 100))
	if at, seen := pick(tt); at == nil || seen != nil {
		t.Errorf("a transparent pixel is picked at %v as %v", at, seen)
	}
}

// A picture that lasts is shared, unless it had to be laid over paper: that is another
// picture's next.
func TestCopySharesWhatLasts(t *testing.T) {
	r := newRig(t)
	for i, alpha := range []byte{255, 128} {
		img := halves(4, 2, black, white)
		img.Pix[3] = alpha
		f := frameOf(img)
		f.Lasts = true
		r.next.Copies = i + 1
		if c := r.see(f, false).Copied; (&c.Pixels.Pix[0] == &img.Pix[0]) != (alpha == 255) || img.Pix[3] != alpha {
			t.Errorf("of alpha %d: shared %v", alpha, alpha != 255)
		}
	}
}

// A copy is made once for each time it was asked for, and is nobody else's.
func TestCopy(t *testing.T) {
	r := newRig(t)
	img := halves(4, 2, black, white)
	clear(img.Pix[:4]) // a fully transparent pixel
	f := frameOf(img)
	r.next.Setup = r.next.Setup.LeavingOut(image.Rect(0, 0, 1, 1))
	r.next.Setup.Tones = []float64{50}
	if s := r.see(f, false); s.Copied != nil {
		t.Error("a copy that nobody asked for")
	}
	r.next.Copies = 2
	c := r.see(f, true).Copied
	if c == nil || r.see(f, true).Copied != nil {
		t.Fatal("two wishes make one copy, and one only")
	}
	if !slices.Equal(c.Pixels.Pix, img.Pix) || c.Bounds != image.Rect(0, 0, 4, 2) || !c.At.Equal(f.At) || c.Source != r.next.Setup.Source {
		t.Errorf("the copy is %+v", c)
	}
	if len(c.Mask.Areas) != 1 || !c.Mask.LeavesOut(128) || c.Mask.LeavesOut(0) { // L* 50 is bin 127.5
		t.Errorf("left out of the copy is %v", c.Mask.Areas)
	}
	r.next.Setup = r.next.Setup.CountingAll().LeavingOut(image.Rect(2, 0, 3, 1))
	img.Pix[8] = 99
	r.see(f, false)
	if c.Pixels.Pix[8] == 99 || c.Mask.Areas[0] != image.Rect(0, 0, 1, 1) {
		t.Error("the copy follows the frame")
	}
}
