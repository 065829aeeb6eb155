package analysis

import (
	"errors"
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// nearLightness is as near as it says, at and between its steps, most of all at the dark
// end, where L* bends.
func TestNearLightness(t *testing.T) {
	worst := 0.0
	const fine = 1 << 20
	for i := range fine + 1 {
		y := float64(i) / fine
		worst = max(worst, math.Abs(nearLightness(y)-colour.Lightness(y)))
	}
	if !(worst < 0.001) {
		t.Errorf("off by %g L*", worst)
	}
	// White's luminance, summed up from the channels, may be a hair over 1.
	if got := nearLightness(1 + 1e-12); got != 100 {
		t.Errorf("a hair over white is %g", got)
	}
}

// plainArea reads an area a pixel at a time, by the definitions: means in linear light,
// standard deviation, least and greatest of L*.
func plainArea(p Pixels, area image.Rectangle) (linear [3]float64, spread, low, high float64, count int) {
	var lights []float64
	low, high = math.Inf(1), math.Inf(-1)
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			r, g, b, counted := p.At(x, y)
			if !counted {
				continue
			}
			for i, code := range [3]uint8{r, g, b} {
				linear[i] += colour.Linear(code)
			}
			l := colour.Lightness(colour.Luminance(colour.Linear(r), colour.Linear(g), colour.Linear(b)))
			lights = append(lights, l)
			low, high = min(low, l), max(high, l)
		}
	}
	mean, square, n := 0.0, 0.0, float64(len(lights))
	for i := range linear {
		linear[i] /= n
	}
	for _, l := range lights {
		mean += l / n
	}
	for _, l := range lights {
		square += (l - mean) * (l - mean) / n
	}
	return linear, math.Sqrt(square), low, high, len(lights)
}

// drawPicture draws a small picture of either layout with odd strides, runs of few colours
// and holes.
func drawPicture(t *rapid.T) Pixels {
	width, height := rapid.IntRange(1, 14).Draw(t, "width"), rapid.IntRange(1, 14).Draw(t, "height")
	stride := 4*width + rapid.IntRange(0, 5).Draw(t, "gap")
	p := Pixels{Pix: make([]byte, stride*height), Stride: stride, Width: width, Height: height}
	p.Layout = rapid.SampledFrom([]Layout{RGBA, BGRX}).Draw(t, "layout")
	palette := []colour.RGB{drawColour(t, "a"), drawColour(t, "b"), drawColour(t, "c")}
	for y := range height {
		for x := range width {
			c := rapid.SampledFrom(palette).Draw(t, "colour")
			set(p, x, y, c, rapid.SampledFrom([]uint8{255, 255, 255, 0, 3}).Draw(t, "alpha"))
		}
	}
	return p
}

// Any area of any picture reads as the plain definitions say.
func TestReadAreaPlainly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPicture(t)
		at := func(name string) int { return rapid.IntRange(-3, 17).Draw(t, name) }
		area := image.Rect(at("x0"), at("y0"), at("x1"), at("y1"))
		checkArea(t, p, area)
		// The same area dragged from the other corner.
		checkArea(t, p, image.Rectangle{Min: area.Max, Max: area.Min})
	})
}

func checkArea(t *rapid.T, p Pixels, area image.Rectangle) {
	s, err := ReadArea(p, area)
	linear, spread, low, high, count := plainArea(p, area.Canon())
	if count == 0 {
		if !errors.Is(err, ErrOutside) {
			t.Fatalf("nothing is counted, yet %+v, %v", s, err)
		}
		return
	}
	if err != nil || s.Pixels != count {
		t.Fatalf("%d pixels, want %d; %v", s.Pixels, count, err)
	}
	want := SpotOfLight(linear[0], linear[1], linear[2])
	for _, f := range []struct {
		name           string
		got, want, tol float64
	}{
		{"lightness", s.Lightness, want.Lightness, 1e-9},
		{"value", s.Value, want.Value, 1e-9},
		{"layer grey", s.LayerGrey, want.LayerGrey, 1e-4}, // an even area keeps its codes; the two pieces of SRGB meet within 1e-7 of 255
		{"chroma", s.Chroma, want.Chroma, 1e-6},
		{"Oklab L", s.OKLightness, want.OKLightness, 1e-7},
		{"low", s.Low, low, 1e-9}, {"high", s.High, high, 1e-9},
		{"spread", s.Spread, spread, 0.001},
	} {
		if !(math.Abs(f.got-f.want) <= f.tol) {
			t.Fatalf("%s is %.12g, want %.12g", f.name, f.got, f.want)
		}
	}
	if s.OnEdge != (AsPrinted(high-low) > 5) {
		t.Fatalf("on an edge: %v, from L* %g to %g", s.OnEdge, low, high)
	}
	if !(low-1e-9 <= s.Lightness && s.Lightness <= high+1e-9) {
		t.Fatalf("the mean, %g, lies outside %g to %g", s.Lightness, low, high)
	}
}

// An even square reads as its colour, to the last digit, whatever its size and layout.
func TestEvenSquareIsItsColour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawColour(t, "c")
		p := Pixels{Pix: make([]byte, 4*15*15), Stride: 4 * 15, Width: 15, Height: 15}
		p.Layout = rapid.SampledFrom([]Layout{RGBA, BGRX}).Draw(t, "layout")
		for i := range 15 * 15 {
			set(p, i%15, i/15, c, 255)
		}
		size := rapid.SampledFrom([]int{1, 3, 5, 11}).Draw(t, "size")
		x, y := rapid.IntRange(0, 14).Draw(t, "x"), rapid.IntRange(0, 14).Draw(t, "y")
		s, err := ReadSpot(p, x, y, size)
		if err != nil || *s.X != x || *s.Y != y || *s.Size != size {
			t.Fatalf("%+v, %v", s, err)
		}
		want := SpotOf(c)
		if (s.Hue == nil) != (want.Hue == nil) || s.Hue != nil && *s.Hue != *want.Hue {
			t.Fatalf("hue %v, want %v", s.Hue, want.Hue)
		}
		s.Hue, s.X, s.Y, s.Size, s.Pixels = want.Hue, nil, nil, nil, 0
		if s != want {
			t.Fatalf("%+v, want %+v", s, want)
		}
	})
}

// A soft passage that spans up to half a tone is no edge. Lightness of the greys:
// srgb_grey_ramp_256.csv, 119 is L* 50.03, 131 is 54.76 and 132 is 55.15.
func TestOnEdge(t *testing.T) {
	for second, want := range map[uint8]bool{119: false, 131: false, 132: true, 255: true} {
		p := Pixels{Pix: []byte{119, 119, 119, 0, second, second, second, 0}, Stride: 8, Width: 2, Height: 1, Layout: BGRX}
		if s, err := ReadSpot(p, 0, 0, 3); err != nil || s.OnEdge != want {
			t.Errorf("119 beside %d, L* %.2f to %.2f: on an edge %v, %v", second, s.Low, s.High, s.OnEdge, err)
		}
	}
}

// Spots are read with every frame: one piece of memory each, for what they point at.
func TestReadSpotAllocations(t *testing.T) {
	p := noise(40, 40, BGRX)
	if n := testkit.LeastAllocs(100, func() {
		if _, err := ReadSpot(p, 20, 20, 11); err != nil {
			t.Fatal(err)
		}
	}); n > 1 {
		t.Errorf("%g allocations", n)
	}
}

// Whatever is asked of whatever picture, it answers with a reading or a known error.
func FuzzReadSpot(f *testing.F) {
	f.Add([]byte{1, 2, 3, 255, 4, 5, 6, 0}, 8, 2, 1, 0, 0, 3)
	f.Add([]byte{1, 2, 3, 255}, 4, 1, 1, math.MaxInt, math.MinInt, 11)
	f.Add([]byte{}, 0, 0, 0, 0, 0, 1)
	f.Fuzz(func(t *testing.T, pix []byte, stride, width, height, x, y, size int) {
		p := Pixels{Pix: pix, Stride: stride, Width: width, Height: height}
		s, err := ReadSpot(p, x, y, size)
		switch {
		case errors.Is(err, ErrSize), errors.Is(err, ErrOutside), errors.Is(err, ErrPixels):
		case err != nil:
			t.Errorf("unknown error %v", err)
		case !(0 <= s.Lightness && s.Lightness <= 100 && s.Low <= s.High && 0 <= s.Spread && s.Spread <= 50.01 && 0 < s.Pixels && s.Pixels <= size*size):
			t.Errorf("reads %+v", s)
		}
		_, err = ReadArea(p, image.Rect(x, y, size, size))
		if err != nil && !errors.Is(err, ErrOutside) && !errors.Is(err, ErrPixels) {
			t.Errorf("unknown error %v", err)
		}
	})
}

// Budget for a dragged area over the whole screen, on one core: 5 ms of a painting, 15 ms
// of noise; 1 alloc/op, for the hue.
func BenchmarkReadAreaNoise(b *testing.B)    { benchmarkArea(b, noise(1920, 1080, BGRX)) }
func BenchmarkReadAreaPainting(b *testing.B) { benchmarkArea(b, painting(1920, 1080, BGRX)) }

func benchmarkArea(b *testing.B, p Pixels) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ReadArea(p, p.Bounds()); err != nil {
			b.Fatal(err)
		}
	}
}
