package workspace

import (
	"image"
	"image/color"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

var (
	dark   = color.NRGBA{83, 83, 83, 255}
	bluish = color.NRGBA{58, 61, 66, 255}
	pale   = color.NRGBA{228, 228, 228, 255}
)

// usual is a view that holds the whole canvas.
func usual() view {
	return view{size: image.Pt(900, 700), grey: dark, canvas: image.Rect(150, 90, 790, 570), content: painted}
}

// The views in which a canvas is to be found, how surely, and how where they were saved as JPEG
// of quality 80, with its grain.
func TestFind(t *testing.T) {
	for _, tt := range []struct {
		name       string
		change     func(*view)
		want, jpeg Certainty
	}{
		{"whole", func(*view) {}, Certain, Certain},
		{"a sketch on white paper", func(v *view) { v.content = sketch }, Certain, Certain},
		{"a bluish workspace", func(v *view) { v.grey = bluish }, Certain, Certain},
		{"a pale one", func(v *view) { v.grey = pale }, Certain, Certain},
		{"rulers", func(v *view) { v.rulers = 22 }, Certain, Certain},
		{"scroll bars", func(v *view) { v.scroll = 16 }, Certain, Certain},
		{"rulers and scroll bars", func(v *view) { v.rulers, v.scroll = 24, 14 }, Certain, Certain},
		{"a dark line around the canvas", func(v *view) { v.line, v.lineWide = color.NRGBA{20, 20, 20, 255}, 1 }, Certain, Likely},
		{"three sides", func(v *view) { v.canvas = image.Rect(150, -40, 790, 570) }, Certain, Certain},
		{"left and right", func(v *view) { v.canvas = image.Rect(150, -40, 790, 770) }, Likely, Likely},
		{"right and foot", func(v *view) { v.canvas = image.Rect(-100, -40, 790, 570) }, Likely, Likely},
		{"one side", func(v *view) { v.canvas = image.Rect(-100, -40, 790, 770) }, Likely, Likely},
		{"a narrow gap", func(v *view) { v.canvas = image.Rect(8, 12, 890, 690) }, Certain, none},
		{"black around", func(v *view) { v.grey = color.NRGBA{0, 0, 0, 255} }, Likely, Likely},
		{"white around", func(v *view) { v.grey = color.NRGBA{255, 255, 255, 255} }, Likely, Likely},
		{"colour around", func(v *view) { v.grey = color.NRGBA{60, 90, 150, 255} }, Likely, none},
		{"an empty canvas", func(v *view) {
			v.content = func(size image.Point) *image.NRGBA { return filled(size, color.White) }
		}, Likely, Likely},
	} {
		v := usual()
		tt.change(&v)
		img := v.paint()
		want := v.canvas.Inset(-v.lineWide).Intersect(img.Rect) // the line is a part of the canvas
		if got := Find(pixelsOf(img)); got.Certainty != tt.want || got.Canvas != want {
			t.Errorf("%s: %v, %v, want %v, %v", tt.name, got.Certainty, got.Canvas, tt.want, want)
		}
		switch got := Find(pixelsOf(saved(t, img, 80))); {
		case tt.jpeg == none && got.Certainty == Certain,
			tt.jpeg != none && (got.Certainty != tt.jpeg || got.Canvas != want):
			t.Errorf("%s, as JPEG: %v, %v, want %v, %v", tt.name, got.Certainty, got.Canvas, tt.jpeg, want)
		}
	}
}

// none is anything that isn't certain: JPEG may leave too little of a surround.
const none = Certainty(255)

// Pictures whose ground reaches the frame, and what else is no canvas for certain. Those that
// have a straight rectangle in a plain ground may be asked about.
func TestNoCanvas(t *testing.T) {
	size := image.Pt(900, 700)
	grey := color.NRGBA{128, 128, 128, 255}
	for _, tt := range []struct {
		name  string
		paint func() *image.NRGBA
		asked bool
	}{
		{"nothing but grey", func() *image.NRGBA { return filled(size, grey) }, false},
		{"a figure on white paper", func() *image.NRGBA { return sketch(size) }, false},
		{"a figure on grey paper", func() *image.NRGBA {
			img := filled(size, grey)
			figure(img, image.Pt(450, 350), 280, color.NRGBA{220, 160, 120, 255})
			return img
		}, false},
		{"a painting", func() *image.NRGBA { return painted(size) }, false},
		{"hills under a flat sky", func() *image.NRGBA {
			return each(size, func(x, y float64) color.NRGBA {
				if y < 350+60*math.Sin(x/90) {
					return color.NRGBA{170, 172, 175, 255}
				}
				return color.NRGBA{60, uint8(90 + y/20), 50, 255}
			})
		}, false},
		{"the sea under a blue sky", func() *image.NRGBA {
			return each(size, func(x, y float64) color.NRGBA {
				if y < 300 {
					return color.NRGBA{120, 160, 210, 255}
				}
				return color.NRGBA{20, uint8(60 + y/10), 120, 255}
			})
		}, false},
		{"the sea under a grey sky", func() *image.NRGBA {
			return each(size, func(x, y float64) color.NRGBA {
				if y < 300 {
					return grey
				}
				return color.NRGBA{20, uint8(60 + y/10), 120, 255}
			})
		}, true},
		{"a sky that gets lighter", func() *image.NRGBA {
			return each(size, func(x, y float64) color.NRGBA {
				if x > 100 && x < 800 && y > 100 && y < 600 {
					return color.NRGBA{uint8(x / 4), 90, uint8(y / 4), 255}
				}
				c := uint8(120 + y/10)
				return color.NRGBA{c, c, c, 255}
			})
		}, false},
		{"a picture on a grey wall, drawn to any size", func() *image.NRGBA { return scaledRect(size, grey, 0) }, true},
		{"a turned canvas", func() *image.NRGBA { return scaledRect(size, dark, 4) }, false},
		{"a hardly turned canvas", func() *image.NRGBA { return scaledRect(size, dark, 0.5) }, false},
		{"letterbox", func() *image.NRGBA {
			v := view{size: size, grey: color.NRGBA{0, 0, 0, 255}, canvas: image.Rect(0, 120, 900, 580), content: painted}
			return v.paint()
		}, true},
		{"a small picture on much ground", func() *image.NRGBA {
			v := view{size: size, grey: grey, canvas: image.Rect(300, 250, 600, 400), content: painted}
			return v.paint()
		}, false},
		{"two pictures", func() *image.NRGBA {
			v := view{size: size, grey: grey, canvas: image.Rect(60, 60, 430, 640), content: painted}
			img := v.paint()
			for y := 60; y < 600; y++ {
				copy(img.Pix[img.PixOffset(470, y):img.PixOffset(840, y)], img.Pix[img.PixOffset(60, y):])
			}
			return img
		}, false},
		{"a frame with round corners", func() *image.NRGBA {
			return each(size, func(x, y float64) color.NRGBA {
				if dx, dy := math.Max(math.Abs(x-450)-260, 0), math.Max(math.Abs(y-350)-170, 0); math.Hypot(dx, dy) < 110 {
					return color.NRGBA{uint8(x / 4), 200, uint8(y / 4), 255}
				}
				return grey
			})
		}, false},
		{"noise", func() *image.NRGBA {
			p := analysistest.Noise(size.X, size.Y, analysis.RGBA)
			return &image.NRGBA{Pix: p.Pix, Stride: p.Stride, Rect: image.Rectangle{Max: size}}
		}, false},
	} {
		img := tt.paint()
		for how, p := range map[string]analysis.Pixels{"": pixelsOf(img), "as JPEG": pixelsOf(saved(t, img, 80))} {
			if got := Find(p); got.Certainty == Certain || got.Certainty == Likely && !tt.asked {
				t.Errorf("%s %s: %v, %v", tt.name, how, got.Certainty, got.Canvas)
			}
		}
	}
}

// each paints a picture from the colour at each pixel's centre.
func each(size image.Point, at func(x, y float64) color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			img.SetNRGBA(x, y, at(float64(x)+0.5, float64(y)+0.5))
		}
	}
	return img
}

// scaledRect is a picture on a ground as a drawing program scales it: its edges lie anywhere
// between the pixels' borders, turned by some degrees.
func scaledRect(size image.Point, ground color.NRGBA, degrees float64) *image.NRGBA {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	w, h := 300.4, 220.7
	return each(size, func(x, y float64) color.NRGBA {
		u, v := cos*(x-450.3)+sin*(y-350.6), cos*(y-350.6)-sin*(x-450.3)
		part := min(max(w-math.Abs(u)+0.5, 0), 1) * min(max(h-math.Abs(v)+0.5, 0), 1)
		mix := func(a, b float64) uint8 { return uint8(a + part*(b-a) + 0.5) }
		return color.NRGBA{mix(float64(ground.R), 200+u/12), mix(float64(ground.G), 180+v/12), mix(float64(ground.B), 60), 255}
	})
}

// Every view with a whole canvas is found exactly, for certain, whichever way it lies in memory;
// mirrored and turned it is the same.
func TestFindLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.IntRange(330, 700)
		v := view{size: image.Pt(side.Draw(t, "width"), side.Draw(t, "height")), content: painted}
		if rapid.Bool().Draw(t, "sketch") {
			v.content = sketch
		}
		g := uint8(rapid.IntRange(40, 110).Draw(t, "grey"))
		v.grey = color.NRGBA{g, g, g, 255}
		v.rulers, v.scroll = rapid.SampledFrom([]int{0, 18, 30}).Draw(t, "rulers"), rapid.SampledFrom([]int{0, 12, 18}).Draw(t, "scroll")
		gap := rapid.IntRange(8, 50)
		v.canvas = image.Rect(v.rulers+gap.Draw(t, "left"), v.rulers+gap.Draw(t, "top"), v.size.X-v.scroll-gap.Draw(t, "right"), v.size.Y-v.scroll-gap.Draw(t, "foot"))
		img := v.paint()
		got := Find(pixelsOf(img))
		if v.clash(img) { // a part of the canvas' edge that nobody can tell from the workspace
			if got.Certainty == Certain && got.Canvas != v.canvas {
				t.Fatalf("%v for certain, want %v", got.Canvas, v.canvas)
			}
			return
		}
		if got.Certainty != Certain || got.Canvas != v.canvas {
			t.Fatalf("%v, %v, want %v", got.Certainty, got.Canvas, v.canvas)
		}
		if got.Surround != (colour.RGB{R: g, G: g, B: g}) {
			t.Fatalf("the surround is %v", got.Surround)
		}
		bgrx := analysis.Pixels{Stride: 4*v.size.X + 12, Width: v.size.X, Height: v.size.Y, Layout: analysis.BGRX}
		bgrx.Pix = make([]byte, bgrx.Stride*v.size.Y)
		mirrored := image.NewNRGBA(img.Rect)
		turned := image.NewNRGBA(image.Rect(0, 0, v.size.Y, v.size.X))
		for y := range v.size.Y {
			for x := range v.size.X {
				c := img.NRGBAAt(x, y)
				copy(bgrx.Pix[y*bgrx.Stride+4*x:], []byte{c.B, c.G, c.R, uint8(x * y)})
				mirrored.SetNRGBA(v.size.X-1-x, y, c)
				turned.SetNRGBA(y, x, c)
			}
		}
		if other := Find(bgrx); other != got {
			t.Fatalf("in another layout %v", other)
		}
		c := v.canvas
		if other := Find(pixelsOf(mirrored)); other.Certainty != Certain || other.Canvas != image.Rect(v.size.X-c.Max.X, c.Min.Y, v.size.X-c.Min.X, c.Max.Y) {
			t.Fatalf("mirrored it is %v", other)
		}
		if other := Find(pixelsOf(turned)); other.Certainty != Certain || other.Canvas != image.Rect(c.Min.Y, c.Min.X, c.Max.Y, c.Max.X) {
			t.Fatalf("turned it is %v", other)
		}
	})
}

// clash reports whether more than a hundredth of a canvas' edge is of nearly the workspace's
// colour, by a plain count.
func (v view) clash(img *image.NRGBA) bool {
	for _, line := range []image.Rectangle{
		{v.canvas.Min, image.Pt(v.canvas.Max.X, v.canvas.Min.Y+1)}, {image.Pt(v.canvas.Min.X, v.canvas.Max.Y-1), v.canvas.Max},
		{v.canvas.Min, image.Pt(v.canvas.Min.X+1, v.canvas.Max.Y)}, {image.Pt(v.canvas.Max.X-1, v.canvas.Min.Y), v.canvas.Max},
	} {
		like := 0
		for y := line.Min.Y; y < line.Max.Y; y++ {
			for x := line.Min.X; x < line.Max.X; x++ {
				c, g := img.NRGBAAt(x, y), int(v.grey.R)
				off := func(a uint8) int { return max(int(a)-g, g-int(a)) }
				if max(off(c.R), off(c.G), off(c.B)) <= 16 {
					like++
				}
			}
		}
		if 100*like > line.Dx()*line.Dy() {
			return true
		}
	}
	return false
}

// Figures on a plain ground, whatever they are and however many, are no canvas: discs and
// turned rectangles, also where they reach the frame.
func TestFiguresAreNoCanvas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := image.Pt(320, 240)
		g := uint8(rapid.IntRange(30, 225).Draw(t, "ground"))
		img := filled(size, color.NRGBA{g, g, g, 255})
		for range rapid.IntRange(1, 4).Draw(t, "figures") {
			at := func(name string) float64 { return rapid.Float64Range(0, 320).Draw(t, name) }
			c := color.NRGBA{rapid.Byte().Draw(t, "R"), rapid.Byte().Draw(t, "G"), rapid.Byte().Draw(t, "B"), 255}
			cx, cy, a, b := at("x"), at("y"), 10+at("a"), 10+at("b")
			sin, cos := math.Sincos(rapid.Float64Range(0.05, 1.5).Draw(t, "angle"))
			disc := rapid.Bool().Draw(t, "disc")
			for y := range size.Y {
				for x := range size.X {
					u, v := cos*(float64(x)-cx)+sin*(float64(y)-cy), cos*(float64(y)-cy)-sin*(float64(x)-cx)
					if disc && math.Hypot(u/a, v/b) < 1 || !disc && math.Abs(u) < a && math.Abs(v) < b {
						img.SetNRGBA(x, y, c)
					}
				}
			}
		}
		if got := Find(pixelsOf(img)); got.Certainty == Certain {
			t.Fatalf("certain: %v", got.Canvas)
		}
	})
}

// Whatever the bytes say, nothing is read beyond them, and a canvas lies inside the picture.
func FuzzFind(f *testing.F) {
	v := usual()
	v.size, v.canvas = image.Pt(120, 100), image.Rect(20, 14, 100, 90)
	f.Add(v.paint().Pix, uint16(120), true, uint8(0))
	f.Add([]byte{}, uint16(0), false, uint8(3))
	f.Fuzz(func(t *testing.T, pix []byte, width uint16, bgrx bool, more uint8) {
		p := analysis.Pixels{Pix: pix, Stride: 4*int(width) + int(more), Width: int(width)}
		if p.Stride > 0 {
			p.Height = len(pix) / p.Stride
		}
		if bgrx {
			p.Layout = analysis.BGRX
		}
		got := Find(p)
		if got.Certainty == None != got.Canvas.Empty() || !got.Canvas.In(p.Bounds()) {
			t.Errorf("%v in %v: %v", got.Canvas, p.Bounds(), got.Certainty)
		}
	})
}

func TestFindAllocatesNothing(t *testing.T) {
	p := pixelsOf(usual().paint())
	if n := testing.AllocsPerRun(5, func() { Find(p) }); n > 0 {
		t.Errorf("%g allocations", n)
	}
}

// Budget, 1920x1080: 1 ms, 0 allocs/op: a canvas; a painting that fills the view; a figure on a
// plain ground.
func BenchmarkFindCanvas(b *testing.B) {
	v := view{size: image.Pt(1920, 1080), grey: dark, canvas: image.Rect(300, 100, 1620, 980), content: painted, rulers: 24, scroll: 16}
	benchmark(b, v.paint())
}
func BenchmarkFindPainting(b *testing.B) { benchmark(b, painted(image.Pt(1920, 1080))) }
func BenchmarkFindSketch(b *testing.B)   { benchmark(b, sketch(image.Pt(1920, 1080))) }

func benchmark(b *testing.B, img *image.NRGBA) {
	p := pixelsOf(img)
	b.ReportAllocs()
	for b.Loop() {
		Find(p)
	}
}
