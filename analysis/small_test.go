package analysis

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"
)

// slowSmall averages the light of src over boxes, straight from the definition.
func slowSmall(src *Reduced, width, height int) (light, left []float64) {
	overlap := func(pixel, box, source, boxes int) float64 { // of the box's length
		begin, end := float64(box)*float64(source)/float64(boxes), float64(box+1)*float64(source)/float64(boxes)
		return max(0, min(end, float64(pixel+1))-max(begin, float64(pixel))) * float64(boxes) / float64(source)
	}
	for j := range height {
		for i := range width {
			sum, out := 0.0, 0.0
			for at := range src.Left {
				part := overlap(at/src.Width, j, src.Height, height) * overlap(at%src.Width, i, src.Width, width)
				p := src.Linear[3*at:]
				sum += part * Luminance(float64(p[0])/linearWhite, float64(p[1])/linearWhite, float64(p[2])/linearWhite)
				out += part * float64(src.Left[at])
			}
			light, left = append(light, sum), append(left, out)
		}
	}
	return light, left
}

func TestSmallAgainstSlow(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 62))
	s, r := new(small), NewReducer()
	defer r.Close()
	for range 60 {
		p := randomPixels(rng, 40)
		src := r.Reduce(p, p.Width, p.Height, nil)
		for i := range src.Left {
			src.Left[i] = uint8(rng.IntN(2))
		}
		longer := 1 + rng.IntN(max(src.Width, src.Height))
		s.take(src, longer)
		if max(s.width, s.height) != longer {
			t.Fatalf("%d x %d became %d x %d, not %d", src.Width, src.Height, s.width, s.height, longer)
		}
		light, left := slowSmall(src, s.width, s.height)
		for i, want := range light {
			if got := float64(s.light[i]) / lightWhite; !(math.Abs(got-want) < 1e-6) {
				t.Fatalf("pixel %d: light %g, want %g", i, got, want)
			}
			if math.Abs(left[i]-0.5) > 1e-9 && (left[i] > 0.5) != (s.left[i] == 1) {
				t.Fatalf("pixel %d: left out %d of %g", i, s.left[i], left[i])
			}
		}
	}
}

func TestSmallSize(t *testing.T) {
	for _, tt := range [][5]int{ // width, height, longer side, and what they become
		{760, 590, 128, 128, 99}, {590, 760, 64, 50, 64}, {100, 50, 128, 100, 50}, {128, 3, 128, 128, 3}, {1000, 2, 64, 64, 1}, {0, 0, 64, 0, 0},
	} {
		if width, height := smallSize(tt[0], tt[1], tt[2]); width != tt[3] || height != tt[4] {
			t.Errorf("%v: %d x %d", tt, width, height)
		}
	}
}

// In the corner stands the picture made small, around it the mat and the line, and the greys
// everywhere else.
func TestSmallView(t *testing.T) {
	p := painting(300, 200, BGRX)
	got, greys := paintOf(t, p, "small", Look{Knob: 96}), paintOf(t, p, "grey", Look{})
	r := NewReducer()
	defer r.Close()
	s := new(small)
	s.take(r.Reduce(p, 300, 200, nil), 96)
	if s.width != 96 || s.height != 64 {
		t.Fatalf("%d x %d", s.width, s.height)
	}
	for y := range 200 {
		for x := range 300 {
			q, want := got[4*(y*300+x):][:4], greys[4*(y*300+x):][:4]
			switch {
			case x >= 96+14 || y >= 64+14:
			case x == 0 || y == 0 || x == 96+13 || y == 64+13:
				want = []byte{0x1b, 0x1b, 0x1b, 255} // L* 10
			case x < 7 || y < 7 || x >= 96+7 || y >= 64+7:
				want = []byte{119, 119, 119, 255} // L* 50
			default:
				l := Lightness(float64(s.light[(y-7)*96+x-7]) / lightWhite)
				if d := SpotOf(RGB{q[0], q[1], q[2]}).Lightness - l; !(math.Abs(d) < 0.27) || q[3] != 255 {
					t.Fatalf("%d, %d of L* %g is painted %v", x, y, l, q)
				}
				continue
			}
			if !bytes.Equal(q, want) {
				t.Fatalf("%d, %d is painted %v, want %v", x, y, q, want)
			}
		}
	}
}

// smallGapsOf paints a picture of 256 x 256 pixels and makes it small.
func smallGapsOf(longer int, o Options, at func(x, y int) uint8) []GapChange {
	const side = 256
	p := Pixels{Pix: make([]byte, 4*side*side), Stride: 4 * side, Width: side, Height: side}
	for i := range side * side {
		v := at(i%side, i/side)
		p.set(i%side, i/side, RGB{v, v, v}, 255)
	}
	r := NewReducer()
	defer r.Close()
	return SmallGaps(nil, r.Reduce(p, side, side, o.Out), longer, Read(p, o))
}

// Masses keep their gap; a pattern finer than the small picture's pixels loses it.
func TestSmallGaps(t *testing.T) {
	masses := func(x, _ int) uint8 { return uint8(60 + 140*(x/128)) }
	for _, g := range smallGapsOf(64, Options{Groups: 2}, masses) {
		if !(math.Abs(g.Change) < 1e-9) || g.Small != g.Whole+g.Change || !(g.Whole > 4) {
			t.Errorf("two masses: %+v", g)
		}
	}
	chequers := func(x, y int) uint8 { return uint8(60 + 140*((x+y)%2)) }
	got := smallGapsOf(128, Options{Groups: 2}, chequers)
	if len(got) != 1 || !math.IsNaN(got[0].Small) || !math.IsNaN(got[0].Change) || !(got[0].Whole > 4) {
		t.Errorf("chequers that melt: %+v", got)
	}
	// By hand: hatching of black, one pixel in four, in light of 1 becomes light of 3/4; the
	// other half stays black.
	hatched := func(x, y int) uint8 {
		if x < 128 || y%4 == 0 {
			return 0
		}
		return 255
	}
	for _, o := range []Options{{Groups: 2}, {Edges: []float64{50}}} {
		got := smallGapsOf(64, o, hatched)
		if want := ValueOfY(0.75) - 10; len(got) != 1 || math.Abs(got[0].Whole-10) > 1e-9 || !(math.Abs(got[0].Change-want) < 0.03) { // a bin is 0.04
			t.Errorf("hatched light: %+v, want a change of %g", got, want)
		}
	}
	// Edges set by hand stay: with one at L* 95 the small picture has nothing above it.
	if got := smallGapsOf(64, Options{Edges: []float64{95}}, hatched); len(got) != 1 || !math.IsNaN(got[0].Small) {
		t.Errorf("an edge above all that is left: %+v", got)
	}
	// At its own size nothing changes.
	for _, g := range smallGapsOf(256, Options{Groups: 4}, func(x, y int) uint8 { return uint8(x) }) {
		if !(math.Abs(g.Change) < 1e-9) {
			t.Errorf("at its own size: %+v", g)
		}
	}
	if got := smallGapsOf(64, Options{Out: &Out{Lightness: [256]bool{0: true}}, Groups: 2}, func(int, int) uint8 { return 0 }); len(got) != 0 {
		t.Errorf("of nothing: %+v", got)
	}
}

func TestSmallGapsAllocateNothing(t *testing.T) {
	p := painting(300, 200, BGRX)
	r := NewReducer()
	defer r.Close()
	src, reading := r.Reduce(p, 300, 200, nil), Read(p, Options{})
	gaps := SmallGaps(nil, src, 64, reading)
	if n := testing.AllocsPerRun(10, func() { gaps = SmallGaps(gaps[:0], src, 64, reading) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// Budget: beside a view, at most twice a second, 4 ms; 0 allocs/op.
func BenchmarkSmallGaps(b *testing.B) {
	p := painting(1920, 1080, BGRX)
	r := NewReducer()
	defer r.Close()
	src, reading := r.Reduce(p, 760, 590, nil), Read(p, Options{})
	gaps := SmallGaps(nil, src, 128, reading)
	b.ReportAllocs()
	for b.Loop() {
		gaps = SmallGaps(gaps[:0], src, 128, reading)
	}
}
