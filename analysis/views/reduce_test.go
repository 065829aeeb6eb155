package views

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/testkit"
	"app.tonedesk/analysis/reduce"
)

// slowReduce averages in float64 by each pixel's overlap with each box, straight from the
// definition. light is red, green, blue in [0, 1]; area is the box's share in colour.
func slowReduce(p analysis.Pixels, width, height int) (light [][3]float64, area []float64) {
	linear := testkit.PlainLinear()
	overlap := func(pixel, box, source, boxes int) float64 { // of the box's length
		begin, end := float64(box)*float64(source)/float64(boxes), float64(box+1)*float64(source)/float64(boxes)
		return max(0, min(end, float64(pixel+1))-max(begin, float64(pixel))) * float64(boxes) / float64(source)
	}
	for j := range height {
		for i := range width {
			var sum [3]float64
			whole := 0.0
			for y := range p.Height {
				for x := range p.Width {
					part := overlap(y, j, p.Height, height) * overlap(x, i, p.Width, width)
					r, g, b, counted := p.At(x, y)
					if part == 0 || !counted {
						continue
					}
					whole += part
					for c, code := range [3]uint8{r, g, b} {
						sum[c] += part * linear[code]
					}
				}
			}
			for c := range sum {
				sum[c] /= whole // NaN where nothing is in colour
			}
			light, area = append(light, sum), append(area, whole)
		}
	}
	return light, area
}

// Half a unit for the rounding of each code's light, half for that of the average.
const reduceTolerance = 1.0 / fixed.LinearWhite

func TestReduceAgainstSlow(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	reducer := reduce.New()
	defer reducer.Close()
	for range 120 {
		p := analysistest.RandomPixels(rng, 40)
		width, height := 1+rng.IntN(p.Width), 1+rng.IntN(p.Height)
		got := reducer.Reduce(p, width, height, nil)
		light, area := slowReduce(p, width, height)
		for i, want := range light {
			if area[i] < 1e-9 {
				want = [3]float64{0.18418651, 0.18418651, 0.18418651} // L* 50: (66/116)³ (CIE 15:2004)
			}
			for c := range want {
				if d := float64(got.Linear[3*i+c])/fixed.LinearWhite - want[c]; !(math.Abs(d) <= reduceTolerance+1e-9) {
					t.Fatalf("%d x %d to %d x %d, pixel %d: light %g off", p.Width, p.Height, width, height, i, d)
				}
			}
			if math.Abs(area[i]-0.5) > 1e-9 && (area[i] < 0.5) != (got.Left[i] == 1) {
				t.Errorf("%g of the box in colour, left out: %d", area[i], got.Left[i])
			}
		}
	}
}

// A reduction to the picture's own size, or to more, changes nothing; nor does one by whole
// pixels in a picture enlarged before.
func TestReduceToItself(t *testing.T) {
	p := analysistest.Noise(64, 48, analysis.RGBA)
	for _, size := range []image.Point{{64, 48}, {1000, 48}, {65, 7000}} {
		reducer := reduce.New()
		defer reducer.Close()
		got := reducer.Reduce(p, size.X, size.Y, nil)
		dst := make([]byte, len(p.Pix))
		PaintColour(dst, got, Look{})
		if got.Width != 64 || got.Height != 48 || string(dst) != string(p.Pix) {
			t.Errorf("to %v: %d x %d, other colours", size, got.Width, got.Height)
		}
	}
}

func TestReduceNothing(t *testing.T) {
	reducer := reduce.New()
	defer reducer.Close()
	p := analysistest.Noise(9, 9, analysis.RGBA)
	for name, got := range map[string]*reduce.Picture{
		"no width":        reducer.Reduce(p, 0, 5, nil),
		"height below 0":  reducer.Reduce(p, 5, -1, nil),
		"no picture":      reducer.Reduce(analysis.Pixels{}, 5, 5, nil),
		"sizes that lie":  reducer.Reduce(analysis.Pixels{Width: 9, Height: 9, Stride: 36}, 5, 5, nil),
		"nothing at once": reduceOnce(analysis.Pixels{}),
	} {
		if len(got.Linear)+len(got.Left)+got.Width+got.Height != 0 {
			t.Errorf("%s: %d x %d", name, got.Width, got.Height)
		}
		for _, v := range All() {
			v.Paint(nil, got, Look{})
		}
		HatchMask(nil, got)
	}
}

// A pixel is left out if its centre lies in an area, or by its own lightness.
func TestReduceLeavesOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	reducer := reduce.New()
	defer reducer.Close()
	for range 200 {
		p := analysistest.RandomPixels(rng, 50)
		p.Layout = analysis.BGRX
		out := analysistest.RandomMask(rng, p)
		got := reducer.Reduce(p, 1+rng.IntN(p.Width), 1+rng.IntN(p.Height), out)
		for i, left := range got.Left {
			// Centres are compared in half pixels of the result, in whole numbers.
			x, y := (2*(i%got.Width)+1)*p.Width, (2*(i/got.Width)+1)*p.Height
			want := uint8(0)
			for _, a := range out.Areas {
				a = a.Canon()
				if a.Min.X*2*got.Width <= x && x < a.Max.X*2*got.Width && a.Min.Y*2*got.Height <= y && y < a.Max.Y*2*got.Height {
					want = 1
				}
			}
			q := got.Linear[3*i:][:3]
			l := colour.Lightness((0.21263900587151027*float64(q[0]) + 0.715168678767756*float64(q[1]) + 0.07219231536073371*float64(q[2])) / fixed.LinearWhite)
			if out.Lightness[int(math.Round(2.55*l))] {
				want = 1
			}
			if left != want {
				t.Fatalf("pixel %d of %d x %d: left out %d, want %d", i, got.Width, got.Height, left, want)
			}
		}
	}
}

func TestReduceAllocatesNothing(t *testing.T) {
	p := analysistest.Painting(640, 360, analysis.BGRX)
	out := &analysis.Mask{Areas: []image.Rectangle{image.Rect(5, 5, 90, 90)}}
	out.Lightness[200] = true
	r := reduce.New()
	defer r.Close()
	look := Look{Reading: analysis.Read(p, analysis.Options{})}
	dst := make([]byte, 4*200*150)
	frame := func() {
		small := r.Reduce(p, 200, 150, out)
		for i := range views {
			views[i].Paint(dst, small, look)
		}
		HatchMask(dst, small)
		HatchLimits(dst, small, analysis.DefaultLimits)
		FlipLeftRight(dst, 200, 150)
	}
	frame()
	if n := testkit.LeastAllocs(10, frame); n != 0 {
		t.Errorf("%g allocations a frame", n)
	}
}

// reduceOnce reduces a picture to a half and a third.
func reduceOnce(p analysis.Pixels) *reduce.Picture {
	r := reduce.New()
	defer r.Close()
	return r.Reduce(p, (p.Width+1)/2, (p.Height+2)/3, nil)
}

// What Check lets pass can be reduced.
func FuzzReduce(f *testing.F) {
	f.Add(64, 8, 2, 2, uint8(0))
	f.Add(29, 21, 2, 2, uint8(1))
	f.Fuzz(func(t *testing.T, size, stride, width, height int, layout uint8) {
		p := analysis.Pixels{Pix: make([]byte, max(0, min(size, 1<<16))), Stride: stride, Width: width, Height: height, Layout: analysis.Layout(layout)}
		if p.Check() != nil {
			return
		}
		if d := reduceOnce(p); d.Width > p.Width || d.Height > p.Height {
			t.Errorf("%d x %d became %d x %d", width, height, d.Width, d.Height)
		}
	})
}

// What is grown in a whole picture is left out of a part of it as well, each pixel as its
// centre lies.
func TestReduceLeavesOutGrown(t *testing.T) {
	whole := analysistest.Painting(120, 90, analysis.RGBA)
	grown := analysis.Grow(whole, nil, []analysis.Seed{{At: image.Pt(60, 2), Colour: whole.Pixel(60, 2), Within: 4}})
	inside := map[image.Point]bool{}
	grown.Each(func(y, from, to int) {
		for x := from; x < to; x++ {
			inside[image.Pt(x, y)] = true
		}
	})
	reducer := reduce.New()
	defer reducer.Close()
	for _, part := range []image.Rectangle{whole.Bounds(), image.Rect(31, 7, 110, 80)} {
		got := reducer.Reduce(whole.Crop(part), 40, 30, &analysis.Mask{Grown: grown, At: image.Point{}.Sub(part.Min)})
		left := 0
		for i, l := range got.Left {
			at := part.Min.Add(image.Pt((2*(i%40)+1)*part.Dx()/80, (2*(i/40)+1)*part.Dy()/60))
			if inside[at] != (l == 1) {
				t.Fatalf("%v, pixel %d: left out %d", part, i, l)
			}
			left += int(l)
		}
		if left == 0 || left == len(got.Left) {
			t.Errorf("%v: %d pixels are left out", part, left)
		}
	}
}
