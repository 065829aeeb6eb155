package analysis

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

var (
	paperWhite = colour.RGB{R: 250, G: 250, B: 250}
	charcoal   = colour.RGB{R: 40, G: 40, B: 40}
	middleGrey = colour.RGB{R: 128, G: 128, B: 128}
)

// canvas is a picture of one colour.
func canvas(width, height int, layout Layout, c colour.RGB) Pixels {
	p := Pixels{Pix: make([]byte, PixelBytes*width*height), Stride: PixelBytes * width, Width: width, Height: height, Layout: layout}
	fill(p, p.Bounds(), c)
	return p
}

func fill(p Pixels, r image.Rectangle, c colour.RGB) {
	r = r.Intersect(p.Bounds())
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			set(p, x, y, c, 255)
		}
	}
}

// grain makes a picture rough by up to so many codes.
func grain(p Pixels, codes int) {
	rng := rand.New(rand.NewPCG(31, 32))
	for y := range p.Height {
		row := p.Row(y)
		for x := 0; x < len(row); x += PixelBytes {
			d := rng.IntN(2*codes+1) - codes
			for c := range 3 {
				row[x+c] = uint8(min(max(int(row[x+c])+d, 0), 255))
			}
		}
	}
}

// grownOf returns the pixels of which in says that they are grown.
func grownOf(width, height int, in func(x, y int) bool) *Grown {
	g := &Grown{Width: width, Height: height, first: []int32{0}}
	for y := range height {
		for x := range width {
			switch {
			case !in(x, y):
			case x > 0 && in(x-1, y):
				g.runs[len(g.runs)-1].to++
			default:
				g.runs = append(g.runs, run{int32(x), int32(x + 1)})
			}
		}
		g.first = append(g.first, int32(len(g.runs)))
	}
	return g
}

// Shares counted by hand, in pixels of 200 by 160 = 32000.
func TestGround(t *testing.T) {
	figure := func(p Pixels) { // 100 by 80, half of it dark
		fill(p, image.Rect(50, 40, 100, 120), charcoal)
		fill(p, image.Rect(100, 40, 150, 120), middleGrey)
	}
	tests := []struct {
		name   string
		paint  func(p Pixels)
		mask   *Mask
		want   Ground
		ground int // pixels of it
		groups int
	}{
		{"a figure on paper", figure, nil, GroundLeftOut, 32000 - 8000, 2},
		{"on rough paper", func(p Pixels) { figure(p); grain(p, 4) }, nil, GroundLeftOut, 32000 - 8000, 2},
		{"that stands on the foot of the frame", func(p Pixels) { fill(p, image.Rect(50, 40, 100, 160), charcoal) }, nil, GroundLeftOut, 32000 - 6000, 1},
		{"with the border of a window", func(p Pixels) {
			figure(p)
			for i := range 200 {
				fill(p, image.Rect(i, 0, i+1, 1), charcoal)
				fill(p, image.Rect(0, i, 1, i+1), charcoal)
			}
		}, nil, GroundLeftOut, 32000 - 8000 - 200 - 159, 2},
		{"a form with a hole", func(p Pixels) {
			fill(p, image.Rect(40, 40, 120, 120), charcoal)
			fill(p, image.Rect(60, 60, 100, 100), paperWhite)
		}, nil, GroundLeftOut, 32000 - 6400, 2},
		{"areas are left out at the sides", func(p Pixels) {
			figure(p)
			fill(p, image.Rect(0, 0, 20, 160), charcoal)
			fill(p, image.Rect(0, 0, 200, 12), middleGrey)
		},
			&Mask{Areas: []image.Rectangle{{Max: image.Pt(20, 160)}, {Max: image.Pt(200, 12)}}}, GroundLeftOut, 180*148 - 8000, 2},
		{"the workspace is left out by its colour", func(p Pixels) {
			figure(p)
			fill(p, image.Rect(0, 0, 20, 160), charcoal)
			fill(p, image.Rect(0, 0, 200, 12), charcoal)
		}, &Mask{Grown: grownOf(200, 160, func(x, y int) bool { return x < 20 || y < 12 })}, GroundLeftOut, 180*148 - 8000, 2},
		{"forms whose ground is left out by its colour", func(p Pixels) { fill(p, image.Rect(100, 0, 200, 160), charcoal) },
			&Mask{Grown: grownOf(200, 160, func(x, y int) bool { return (x-100)*(x-100)+(y-80)*(y-80) > 60*60 })}, NoGround, 0, 2},
		{"a hidden part is not counted", figure, &Mask{Areas: []image.Rectangle{image.Rect(0, 0, 200, 12)}}, GroundLeftOut, 200*148 - 8000, 2},
		{"less than half of the frame", func(p Pixels) {
			fill(p, image.Rect(0, 60, 200, 160), charcoal)
			fill(p, image.Rect(0, 100, 200, 160), middleGrey)
		}, nil, NoGround, 0, 3},
		{"a picture of halves: the one with more of the frame", func(p Pixels) { fill(p, image.Rect(0, 0, 96, 160), colour.RGB{R: 250, G: 200, B: 150}) }, nil, GroundLeftOut, 104 * 160, 1},
		{"as light, of another colour", func(p Pixels) { fill(p, image.Rect(0, 0, 200, 88), colour.RGB{R: 255, G: 255, B: 150}) }, nil, GroundLeftOut, 17600, 1},
		{"noise", func(p Pixels) { grain(p, 250) }, nil, NoGround, 0, 0},
		{"paper alone", func(p Pixels) {}, nil, OnlyGround, 0, 1},
		{"rough paper alone", func(p Pixels) { grain(p, 4) }, nil, OnlyGround, 0, 1},
		{"its lightness is left out already", figure, &Mask{Lightness: [256]bool{250: true, 251: true, 252: true}}, NoGround, 0, 2},
		{"all is left out", figure, &Mask{Areas: []image.Rectangle{image.Rect(0, 0, 200, 160)}}, NoGround, 0, 0},
	}
	reader := NewReader()
	defer reader.Close()
	for _, tt := range tests {
		for _, layout := range []Layout{RGBA, BGRX} {
			p := canvas(200, 160, layout, paperWhite)
			tt.paint(p)
			r := reader.Read(p, Options{Mask: tt.mask, WithoutGround: true})
			groups := len(r.Chosen().Groups())
			if tt.groups == 0 && tt.want == NoGround {
				groups = 0 // as many as there are
			}
			if r.Ground != tt.want || r.groundCount != tt.ground || groups != tt.groups {
				t.Errorf("%s, layout %d: %d, ground of %d pixels, %d groups; want %d, %d, %d", tt.name, layout, r.Ground, r.groundCount, groups, tt.want, tt.ground, tt.groups)
			}
			if got := r.GroundShare(); !(math.Abs(got-float64(tt.ground)/math.Max(float64(r.Counted), 1)) < 1e-12) {
				t.Errorf("%s: share %g", tt.name, got)
			}
			if whole := Read(p, Options{Mask: tt.mask}); whole.Histogram != r.Histogram || whole.Ground != GroundCounted || whole.groundCount != 0 {
				t.Errorf("%s: what is counted changes with the ground", tt.name)
			}
		}
	}
}

// What lies inside a closed line is no ground, but next to the line.
func TestGroundStopsAtALine(t *testing.T) {
	p := canvas(200, 160, BGRX, paperWhite)
	for _, side := range []image.Rectangle{{image.Pt(50, 40), image.Pt(151, 41)}, {image.Pt(50, 120), image.Pt(151, 121)}, {image.Pt(50, 40), image.Pt(51, 121)}, {image.Pt(150, 40), image.Pt(151, 121)}} {
		fill(p, side, charcoal)
	}
	r := Read(p, Options{WithoutGround: true})
	outside, inside := 32000-101*81, 99*79
	if beside := inside - (99-2*cellSide)*(79-2*cellSide); r.groundCount < outside || r.groundCount > outside+beside {
		t.Errorf("a ground of %d pixels: %d lie outside, %d inside next to the line", r.groundCount, outside, beside)
	}
}

// A figure on any ground: what is left is the figure, pixel by pixel, of transparent pixels and of
// what the mask leaves out nothing is taken twice, and a small picture loses the same.
func TestGroundLaws(t *testing.T) {
	reader := NewReader()
	t.Cleanup(reader.Close)
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) colour.RGB {
			v := rapid.Uint32().Draw(t, name)
			return colour.RGB{R: uint8(v), G: uint8(v >> 8), B: uint8(v >> 16)}
		}
		ground, form := draw("ground"), draw("form")
		w, h := rapid.IntRange(48, 120).Draw(t, "width"), rapid.IntRange(48, 120).Draw(t, "height")
		const apart = rimDepth + 2*cellSide // from the frame, so that no passage is too narrow
		x, y := rapid.IntRange(apart, w-apart-16).Draw(t, "x"), rapid.IntRange(apart, h-apart-16).Draw(t, "y")
		at := image.Rect(x, y, rapid.IntRange(x+16, w-apart).Draw(t, "to x"), rapid.IntRange(y+16, h-apart).Draw(t, "to y"))
		layout := rapid.SampledFrom([]Layout{RGBA, BGRX}).Draw(t, "layout")
		p := canvas(w, h, layout, ground)
		fill(p, at, form)
		for range rapid.IntRange(0, 5).Draw(t, "transparent") {
			x, y := rapid.IntRange(0, w-1).Draw(t, "hole x"), rapid.IntRange(0, h-1).Draw(t, "hole y")
			if layout == RGBA {
				set(p, x, y, p.Pixel(x, y), 0)
			}
		}
		if bin := p.Bin(at.Min.X, at.Min.Y); abs(int(bin)-int(p.Bin(0, 0))) <= groundReach {
			t.Skip("as light as the ground")
		}
		r := reader.Read(p, Options{WithoutGround: true})
		want := Read(p.Crop(at), Options{}).Histogram
		if rest := r.lessGround(&r.Histogram); rest != want {
			t.Fatalf("%d pixels are left, the form has %d", countOf(rest[:]), countOf(want[:]))
		}
		twice := r.Histogram
		for bin := range twice {
			twice[bin] *= 2
		}
		for bin, n := range r.lessGround(&twice) {
			if n != 2*want[bin] {
				t.Fatalf("of twice the picture %d are left in bin %d, not %d", n, bin, 2*want[bin])
			}
		}
	})
}

// A steady Reader keeps leaving out a ground that has less than half of the frame for a while,
// as when a picture pans; another takes none.
func TestGroundIsHeld(t *testing.T) {
	steady := NewReader()
	defer steady.Close()
	steady.Steady = true
	at := func(other int) Pixels { // at the right side: of the frame's 800 pixels 2 other + 200, no half of it one colour
		p := canvas(200, 200, BGRX, paperWhite)
		fill(p, image.Rect(200-other, 0, 200, 200), charcoal)
		fill(p, image.Rect(200-other/2, 0, 200, 200), middleGrey)
		return p
	}
	for _, tt := range []struct {
		dark          int
		alone, steady Ground
	}{{130, NoGround, NoGround}, {60, GroundLeftOut, GroundLeftOut}, {120, NoGround, GroundLeftOut}, {160, NoGround, NoGround}, {120, NoGround, NoGround}} {
		p := at(tt.dark)
		if got := Read(p, Options{WithoutGround: true}).Ground; got != tt.alone {
			t.Errorf("%d dark: %d, want %d", tt.dark, got, tt.alone)
		}
		if got := steady.Read(p, Options{WithoutGround: true}).Ground; got != tt.steady {
			t.Errorf("%d dark, steady: %d, want %d", tt.dark, got, tt.steady)
		}
	}
}

// A picture of which no plane is kept is read again, row by row.
func TestGroundWithoutPlane(t *testing.T) {
	r := NewReader()
	defer r.Close()
	p := painting(77, 9, RGBA)
	r.Read(p, Options{})
	want := append([]uint8{}, r.reading.GreyRow(5)...)
	r.grey, r.pixels, r.rows[0] = nil, p, make([]uint8, p.Width)
	if got := r.binsOf(0, 5); string(got) != string(want) {
		t.Errorf("row %v, want %v", got, want)
	}
}

// A target counts the ground, whatever the groups are of.
func TestTargetCountsTheGround(t *testing.T) {
	p := canvas(200, 160, BGRX, paperWhite)
	fill(p, image.Rect(50, 40, 100, 120), charcoal)
	fill(p, image.Rect(100, 40, 150, 120), middleGrey)
	r := Read(p, Options{WithoutGround: true})
	match := NewTarget(r).Match(r)
	for i, g := range match.Groups() {
		if g.More != 0 {
			t.Errorf("group %d of the picture itself is %g more than its target", i, g.More)
		}
	}
}

func TestGroundAllocatesNothing(t *testing.T) {
	r := NewReader()
	defer r.Close()
	p := canvas(640, 480, BGRX, paperWhite)
	fill(p, image.Rect(200, 100, 400, 300), charcoal)
	grain(p, 3)
	for _, o := range []Options{{}, {WithoutGround: true}} {
		r.Read(p, o)
		if n := testing.AllocsPerRun(10, func() { r.Read(p, o) }); n != 0 {
			t.Errorf("%g allocations a frame, without ground %v", n, o.WithoutGround)
		}
	}
}

// Budget on two cores, 1920x1080: leaving the ground out takes 1 ms more than the Read beside it,
// 0 allocs/op. Rough paper with a figure on it is the worst there is.
func BenchmarkReadFlatPaper(b *testing.B)          { benchmarkGround(b, 0, false) }
func BenchmarkReadFlatPaperNoGround(b *testing.B)  { benchmarkGround(b, 0, true) }
func BenchmarkReadRoughPaper(b *testing.B)         { benchmarkGround(b, 4, false) }
func BenchmarkReadRoughPaperNoGround(b *testing.B) { benchmarkGround(b, 4, true) }

func benchmarkGround(b *testing.B, rough int, without bool) {
	r := NewReader()
	defer r.Close()
	p := canvas(1920, 1080, BGRX, paperWhite)
	fill(p, image.Rect(800, 300, 1100, 900), charcoal)
	if rough > 0 {
		grain(p, rough)
	}
	o := Options{WithoutGround: without}
	if r.Read(p, o); without && r.reading.Ground != GroundLeftOut {
		b.Fatal("no ground is left out")
	}
	b.ReportAllocs()
	for b.Loop() {
		r.Read(p, o)
	}
}
