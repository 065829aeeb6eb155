package analysis

import (
	"errors"
	"image"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// bars is a picture of upright bars of neutral greys, so many pixels of each.
func bars(height int, widths []int, greys []uint8) Pixels {
	w := 0
	for _, n := range widths {
		w += n
	}
	p := Pixels{Pix: make([]byte, 4*w*height), Stride: 4 * w, Width: w, Height: height}
	for y := range height {
		x := 0
		for i, n := range widths {
			for range n {
				set(p, x, y, colour.RGB{R: greys[i], G: greys[i], B: greys[i]}, 255)
				x++
			}
		}
	}
	return p
}

// valueOfGrey is the value of a neutral grey, by the formulas alone, of the grey's bin.
func valueOfGrey(grey uint8) float64 {
	return colour.Value(float64(colour.BinOf(colour.Lightness(colour.Linear(grey)))) / colour.BinsPerLightness)
}

// A picture of three bars whose dark bar goes darker, and of whose middle bar a part goes as
// dark: every figure by hand, from the definitions.
func TestChangeByHand(t *testing.T) {
	before := bars(10, []int{30, 40, 30}, []uint8{60, 120, 220})
	after := bars(10, []int{30, 11, 29, 30}, []uint8{40, 40, 120, 220})
	c, err := ChangeOf(before, after, nil, nil, 3)
	if err != nil {
		t.Fatal(err)
	}
	near := func(name string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) < 1e-9) {
			t.Errorf("%s is %g, want %g", name, got, want)
		}
	}
	v40, v60, v120, v220 := valueOfGrey(40), valueOfGrey(60), valueOfGrey(120), valueOfGrey(220)
	if len(c.Groups) != 3 || len(c.Gaps) != 2 || len(c.Moves) != 1 || c.Counted != 1000 {
		t.Fatalf("%+v", c)
	}
	near("dark's change", c.Groups[0].Tones, v40-v60)
	near("middle's change", c.Groups[1].Tones, 0) // what went to dark belongs to dark
	near("light's change", c.Groups[2].Tones, 0)
	near("dark to middle before", c.Gaps[0].Before, v120-v60)
	near("dark to middle after", c.Gaps[0].After, v120-v40)
	near("middle to light after", c.Gaps[1].After, v220-v120)
	if m := c.Moves[0]; m.From != "middle" || m.To != "dark" || m.Share != 0.11 {
		t.Errorf("moved: %+v, want 11 %% from middle to dark", m)
	}
	near("altered", c.Altered, 0.41)
	// Each pixel's own way, since all ways go down: 30 % by v60-v40, 11 % by v120-v40.
	near("distance", c.Distance, 0.30*(v60-v40)+0.11*(v120-v40))
	if tones, ok := c.At(0, 0); !ok || math.Abs(tones-(v40-v60)) > 0.011 {
		t.Errorf("the first pixel changed by %g, want %g", tones, v40-v60)
	}
}

// What is said of two groups and what is said of the gap between them is one change.
func TestChangeAgreesWithItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		picture := func(name string) Pixels {
			var greys []uint8
			for i := range 4 {
				for range 40 {
					greys = append(greys, uint8(rapid.IntRange(60*i, 60*i+75).Draw(t, name)))
				}
			}
			return bars(1, slices.Repeat([]int{1}, len(greys)), greys)
		}
		c, err := ChangeOf(picture("before"), picture("after"), nil, nil, rapid.IntRange(2, MaxGroups).Draw(t, "groups"))
		if err != nil {
			t.Fatal(err)
		}
		for i, gap := range c.Gaps {
			wider := c.Groups[i+1].Tones - c.Groups[i].Tones
			if !(math.Abs(gap.After-gap.Before-wider) < 1e-9) {
				t.Fatalf("%+v, but the groups move apart by %g", gap, wider)
			}
		}
	})
}

// A picture compared with itself has not changed, whatever it is.
func TestNoChange(t *testing.T) {
	for _, p := range []Pixels{noise(60, 50, RGBA), noise(60, 50, BGRX), bars(3, []int{9}, []uint8{77})} {
		c, err := ChangeOf(p, p, nil, nil, 0)
		if err != nil || c.Distance != 0 || c.Tones != 0 || c.Altered != 0 || len(c.Moves) != 0 {
			t.Errorf("%+v, %v", c, err)
		}
		for _, g := range c.Groups {
			if g.Tones != 0 {
				t.Errorf("group %+v", g)
			}
		}
		for _, g := range c.Gaps {
			if g.Before != g.After {
				t.Errorf("gap %+v", g)
			}
		}
		if c.Span() != 1 {
			t.Errorf("the map's scale is %g", c.Span())
		}
		if got := c.Map(1).GreyAt(0, 0); got != colour.GreyOf(50) {
			t.Errorf("no change is painted %d", got)
		}
	}
}

// What either picture leaves out, by area, by lightness or for want of colour, isn't counted.
func TestChangeLeavesOut(t *testing.T) {
	before := bars(10, []int{10, 10, 10, 10}, []uint8{0, 100, 200, 255})
	after := bars(10, []int{10, 10, 10, 10}, []uint8{0, 90, 200, 0})
	for i := 3; i < 4*40*5; i += 4 { // the upper half of the first bar is clear
		if i/4%40 < 10 {
			after.Pix[i] = 0
		}
	}
	white := &Mask{}
	white.Lightness[255] = true
	right := &Mask{Areas: []image.Rectangle{image.Rect(20, 0, 30, 10)}}
	c, err := ChangeOf(before, after, white, right, 2)
	if err != nil || c.Counted != 150 {
		t.Fatalf("%d pixels count, want 150 (%v)", c.Counted, err)
	}
	for _, at := range []image.Point{{5, 2}, {25, 5}, {35, 5}, {40, 0}, {-1, 0}} {
		if _, counted := c.At(at.X, at.Y); counted {
			t.Errorf("%v counts", at)
		}
	}
	if c, err := ChangeOf(before, after, white, &Mask{Areas: []image.Rectangle{before.Bounds()}}, 0); err != nil || c.Counted != 0 || !math.IsNaN(c.Tones) || len(c.Groups) != 0 {
		t.Errorf("nothing counts: %+v, %v", c, err)
	}
	if _, err := ChangeOf(before, before.Crop(image.Rect(0, 0, 5, 5)), nil, nil, 0); !errors.Is(err, ErrPixels) {
		t.Errorf("other sizes give %v", err)
	}
}

// The map: black is darker by the scale, white lighter, in even steps between; more than the
// scale is cut to it.
func TestChangeMap(t *testing.T) {
	before := bars(1, []int{1, 1, 1, 1}, []uint8{255, 0, 128, 60})
	after := bars(1, []int{1, 1, 1, 1}, []uint8{0, 255, 128, 80})
	c, err := ChangeOf(before, after, nil, nil, 2)
	if err != nil || c.Span() != 10 {
		t.Fatalf("scale %g, %v, want 10", c.Span(), err)
	}
	m := c.Map(2)
	up := math.Round(100*valueOfGrey(80)) - math.Round(100*valueOfGrey(60))
	for i, want := range []uint8{0, 255, colour.GreyOf(50), colour.GreyOf(50 + 50*up/200)} {
		if got := m.GreyAt(i, 0); got != want {
			t.Errorf("pixel %d is %d, want %d", i, got, want)
		}
	}
}

// Two frames of 1920x1080. Budget: 100 ms, since a still is compared with the live picture.
func BenchmarkChange(b *testing.B) {
	before, after := noise(1920, 1080, BGRX), noise(1920, 1080, RGBA)
	for b.Loop() {
		if _, err := ChangeOf(before, after, nil, nil, 0); err != nil {
			b.Fatal(err)
		}
	}
}
