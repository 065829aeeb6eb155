package analysis

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis/internal/testkit"
)

// slowRead is Read, a pixel at a time by the plain formula.
func slowRead(p Pixels, out *Mask) (grey []uint8, histogram [256]int) {
	linear := testkit.PlainLinear()
	for y := range p.Height {
		for x := range p.Width {
			r, g, b, counted := p.At(x, y)
			bin := uint8(math.Round(2.55 * testkit.PlainLightness(linear, int(r), int(g), int(b))))
			grey = append(grey, bin)
			for _, a := range out.Areas {
				counted = counted && !image.Pt(x, y).In(a.Canon())
			}
			if counted && !out.Lightness[bin] {
				histogram[bin]++
			}
		}
	}
	return grey, histogram
}

func TestReadAgainstSlow(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	reader := NewReader()
	defer reader.Close()
	for i := range 400 {
		p := randomPixels(rng, 90)
		out := randomOut(rng, p)
		grey, histogram := slowRead(p, out)
		r := reader.Read(p, Options{Mask: out})
		if string(r.Grey) != string(grey) {
			t.Fatalf("picture %d, %d x %d: the planes differ", i, p.Width, p.Height)
		}
		if r.Histogram != histogram {
			t.Fatalf("picture %d, %d x %d, out %v: the histograms differ", i, p.Width, p.Height, out.Areas)
		}
	}
}

// The layouts say the same of the same colours.
func TestReadLayoutsAgree(t *testing.T) {
	for name, paint := range map[string]func(int, int, Layout) Pixels{"painting": painting, "noise": noise} {
		a, b := Read(paint(333, 77, RGBA), Options{}), Read(paint(333, 77, BGRX), Options{})
		if a.Histogram != b.Histogram || string(a.Grey) != string(b.Grey) || a.Counted != 333*77 {
			t.Errorf("%s: RGBA and BGRX are read differently", name)
		}
	}
}

// Where pixels stand changes no figure: neither shuffled nor mirrored, nor by whichever
// worker takes which rows.
func TestReadIsBlindToPlace(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	p := painting(301, 203, RGBA)
	want := *Read(p, Options{})
	for i := range 6 {
		q := p
		q.Pix = append([]byte(nil), p.Pix...)
		if i%2 == 0 {
			for y := range q.Height {
				row := q.Pix[4*q.Width*y:][:4*q.Width]
				for x := range q.Width / 2 {
					a, b := (*[4]byte)(row[4*x:]), (*[4]byte)(row[4*(q.Width-1-x):])
					*a, *b = *b, *a
				}
			}
		} else {
			rng.Shuffle(q.Width*q.Height, func(a, b int) {
				pa, pb := (*[4]byte)(q.Pix[4*a:]), (*[4]byte)(q.Pix[4*b:])
				*pa, *pb = *pb, *pa
			})
		}
		got := *Read(q, Options{})
		got.Grey, want.Grey = nil, nil
		if !sameFigures(&got, &want) {
			t.Errorf("figures differ:\n%+v\n%+v", got, want)
		}
	}
}

func sameFigures(a, b *Reading) bool {
	return a.Histogram == b.Histogram && a.Counted == b.Counted && a.Mean == b.Mean && a.P1 == b.P1 &&
		a.P50 == b.P50 && a.P99 == b.P99 && a.Key == b.Key && a.splits == b.splits && a.chosen == b.chosen
}

func TestReadNothing(t *testing.T) {
	all := image.Rect(-9, -9, 99, 99)
	clearPixels := Pixels{Pix: make([]byte, 64), Stride: 16, Width: 4, Height: 4}
	var white Mask
	white.Lightness[255] = true
	opaque := Pixels{Pix: make([]byte, 64), Stride: 16, Width: 4, Height: 4, Layout: BGRX}
	for i := range opaque.Pix {
		opaque.Pix[i] = 255
	}
	tests := []struct {
		name string
		p    Pixels
		out  *Mask
	}{
		{"no picture", Pixels{}, nil},
		{"no height", Pixels{Width: 5}, nil},
		{"sizes that lie", Pixels{Pix: make([]byte, 3), Stride: 400, Width: 100, Height: 100}, nil},
		{"transparent", clearPixels, nil},
		{"all left out", opaque, &Mask{Areas: []image.Rectangle{all}}},
		{"its one lightness left out", opaque, &white},
	}
	for _, steady := range []bool{false, true} {
		reader := NewReader()
		defer reader.Close()
		reader.Steady = steady
		for _, tt := range tests {
			t.Run(tt.name, func(t *testing.T) {
				r := reader.Read(tt.p, Options{Mask: tt.out})
				if r.Counted != 0 || r.Key != "" {
					t.Errorf("counted %d, key %q", r.Counted, r.Key)
				}
				for _, v := range []float64{r.Mean, r.P1, r.P50, r.P99, r.Chosen().Separability, r.Chosen().Murk} {
					if !math.IsNaN(v) {
						t.Errorf("a figure of nothing is %g, want NaN", v)
					}
				}
				for k := 2; k <= 4; k++ {
					if s := r.Split(k); len(s.Groups())+len(s.Gaps())+len(s.Thresholds()) != 0 {
						t.Errorf("split into %d: %v", k, s.Groups())
					}
				}
			})
		}
	}
}

// ofGreys is a picture with so many pixels of each neutral grey.
func ofGreys(counts map[uint8]int) Pixels {
	p := Pixels{Height: 1, Layout: BGRX}
	for grey := range 256 {
		for range counts[uint8(grey)] {
			p.Pix = append(p.Pix, uint8(grey), uint8(grey), uint8(grey), 0)
			p.Width++
		}
	}
	p.Stride = len(p.Pix)
	return p
}

// Percentiles, mean and key of pictures counted by hand. L* 2.55 of black is bin 0, of
// white bin 255, of grey 119 (L* 50.03, CIE 15 of IEC 61966-2-1) bin 128.
func TestReadFigures(t *testing.T) {
	const middle = 128 / 2.55
	tests := []struct {
		name         string
		counts       map[uint8]int
		p1, p50, p99 float64
		mean         float64
		key          Key
	}{
		{"black", map[uint8]int{0: 10}, 0, 0, 0, 0, LowKey},
		{"white", map[uint8]int{255: 10}, 100, 100, 100, 100, HighKey},
		{"half black, half white", map[uint8]int{0: 5, 255: 5}, 0, 0, 100, 50, MiddleKey},
		{"a pixel less than half black", map[uint8]int{0: 4, 255: 6}, 0, 100, 100, 60, MiddleKey},
		{"1 in 100 black and 1 white", map[uint8]int{0: 1, 119: 98, 255: 1}, 0, middle, middle, (98*128 + 255) / 255.0, MiddleKey},
		{"under 1 in 100", map[uint8]int{0: 1, 119: 198, 255: 2}, middle, middle, middle, (198*128 + 510) / 2.55 / 201, MiddleKey},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := Read(ofGreys(tt.counts), Options{})
			if math.Abs(r.P1-tt.p1)+math.Abs(r.P50-tt.p50)+math.Abs(r.P99-tt.p99) > 1e-9 {
				t.Errorf("percentiles %g %g %g, want %g %g %g", r.P1, r.P50, r.P99, tt.p1, tt.p50, tt.p99)
			}
			if math.Abs(r.Mean-tt.mean) > 1e-9 || r.Key != tt.key {
				t.Errorf("mean %g, key %q, want %g, %q", r.Mean, r.Key, tt.mean, tt.key)
			}
		})
	}
}

// The key turns at the values 4 and 6 of the mean, which belong to the middle: L* 40.7365
// and 61.0465 (ASTM D1535-08e1 by CIE 15; table testdata/munsell_value_to_y.csv).
func TestKeyLimits(t *testing.T) {
	for _, tt := range []struct {
		mean float64
		want Key
	}{{0, LowKey}, {40.73, LowKey}, {40.74, MiddleKey}, {61.04, MiddleKey}, {61.05, HighKey}, {100, HighKey}, {math.NaN(), ""}} {
		if got := keyOf(tt.mean); got != tt.want {
			t.Errorf("key of L* %g is %q, want %q", tt.mean, got, tt.want)
		}
	}
}

// A frame costs no allocation, whatever is left out.
func TestReadAllocatesNothing(t *testing.T) {
	p := painting(640, 360, BGRX)
	out := &Mask{Areas: []image.Rectangle{image.Rect(5, 5, 90, 90), image.Rect(-5, 50, 9, 700)}}
	out.Lightness[200] = true
	r := NewReader()
	defer r.Close()
	r.Steady = true
	read := func() { r.Read(p, Options{Mask: out}) }
	read()
	if n := testkit.LeastAllocs(20, read); n != 0 {
		t.Errorf("%g allocations a frame", n)
	}
}

// A closed Reader still reads, alone.
func TestReadAfterClose(t *testing.T) {
	r := NewReader()
	r.Close()
	r.Close()
	if got := r.Read(painting(99, 99, RGBA), Options{}).Counted; got != 99*99 {
		t.Errorf("counted %d", got)
	}
}

// Whatever the bytes: every pixel is counted or left out, the plane is whole, shares add up.
func FuzzRead(f *testing.F) {
	f.Add([]byte("some pixels of no great meaning, but of some length"), 3, 2, uint8(1), -1, 0, 2, 2)
	f.Add([]byte{}, 0, 0, uint8(0), 0, 0, 0, 0)
	f.Fuzz(func(t *testing.T, pix []byte, width, rest int, layout uint8, x, y, w, h int) {
		p := Pixels{Pix: pix, Width: width, Stride: PixelBytes*width + rest, Layout: Layout(layout)}
		if p.Stride > 0 {
			p.Height = (len(pix) + p.Stride - 1) / p.Stride
		}
		out := &Mask{Areas: []image.Rectangle{{image.Pt(x, y), image.Pt(w, h)}}}
		r := Read(p, Options{Mask: out})
		if p.Check() != nil {
			p = Pixels{}
		}
		if len(r.Grey) != p.Width*p.Height || r.Counted > len(r.Grey) {
			t.Fatalf("%d of %d counted, plane %d", r.Counted, p.Width*p.Height, len(r.Grey))
		}
		for k := 2; k <= 4; k++ {
			shares := 0.0
			for _, g := range r.Split(k).Groups() {
				shares += g.Share
				if !(g.From <= g.Mean && g.Mean <= g.To && g.Share > 0) {
					t.Errorf("group %+v", g)
				}
			}
			if r.Counted > 0 && math.Abs(shares-1) > 1e-9 {
				t.Errorf("shares add up to %g", shares)
			}
		}
	})
}
