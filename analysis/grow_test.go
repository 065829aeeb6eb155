package analysis

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// labFar returns the distance of two colours in L*a*b*, by the plain formula (CIE15).
func labFar(a, b colour.RGB) float64 {
	lab := func(c colour.RGB) colour.Lab {
		return colour.LabOf(colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B))
	}
	p, q := lab(a), lab(b)
	return math.Sqrt((p.L-q.L)*(p.L-q.L) + (p.A-q.A)*(p.A-q.A) + (p.B-q.B)*(p.B-q.B))
}

// slowGrow walks from the border and the seeds from pixel to pixel. unsure: a distance is too
// near to the limit for whole numbers to say the same.
func slowGrow(p Pixels, areas []image.Rectangle, seeds []Seed) (grown []bool, unsure bool) {
	grown = make([]bool, p.Width*p.Height)
	like := func(x, y int) bool {
		for _, a := range areas {
			if image.Pt(x, y).In(a.Canon()) {
				return true
			}
		}
		r, g, b, seen := p.At(x, y)
		for _, s := range seeds {
			if !seen {
				break
			}
			far := labFar(colour.RGB{R: r, G: g, B: b}, s.Colour)
			unsure = unsure || math.Abs(far-s.Within) < 0.05
			if far <= s.Within {
				return true
			}
		}
		return false
	}
	var walk []image.Point
	step := func(x, y int) {
		if image.Pt(x, y).In(p.Bounds()) && !grown[y*p.Width+x] && like(x, y) {
			grown[y*p.Width+x] = true
			walk = append(walk, image.Pt(x, y))
		}
	}
	for y := range p.Height {
		for x := range p.Width {
			if x == 0 || y == 0 || x == p.Width-1 || y == p.Height-1 {
				step(x, y)
			}
		}
	}
	for _, s := range seeds {
		step(s.At.X, s.At.Y)
	}
	for len(walk) > 0 {
		at := walk[len(walk)-1]
		walk = walk[:len(walk)-1]
		step(at.X+1, at.Y)
		step(at.X-1, at.Y)
		step(at.X, at.Y+1)
		step(at.X, at.Y-1)
	}
	return grown, unsure
}

// plainOf returns what is grown pixel by pixel.
func plainOf(g *Grown) []bool {
	plain := make([]bool, g.Width*g.Height)
	g.Each(func(y, from, to int) {
		for x := from; x < to; x++ {
			plain[y*g.Width+x] = true
		}
	})
	return plain
}

func randomSeeds(rng *rand.Rand, p Pixels) (seeds []Seed) {
	for range 1 + rng.IntN(3) {
		s := Seed{At: image.Pt(rng.IntN(p.Width+2)-1, rng.IntN(p.Height+2)-1), Within: 12 * rng.Float64()}
		s.Colour = colour.RGB{R: uint8(rng.Uint32()), G: uint8(rng.Uint32()), B: uint8(rng.Uint32())}
		if s.At.In(p.Bounds()) {
			s.Colour = p.Pixel(s.At.X, s.At.Y)
		}
		seeds = append(seeds, s)
	}
	return seeds
}

// What is grown is what a walk from pixel to pixel reaches, in every picture, layout and
// order of frames; and a Reader counts all the rest.
func TestGrowAgainstAWalk(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	g := NewGrower()
	defer g.Close()
	compared := 0
	for i := range 400 {
		p, areas := randomPixels(rng, 90), []image.Rectangle(nil)
		if i%2 == 1 {
			areas, _ = testkit.RandomMask(rng, p.Width, p.Height)
		}
		seeds := randomSeeds(rng, p)
		want, unsure := slowGrow(p, areas, seeds)
		if unsure {
			continue
		}
		compared++
		got := g.Grow(p, areas, seeds)
		counted := 0
		for at, grown := range plainOf(got) {
			if grown != want[at] {
				t.Fatalf("picture %d, %d x %d, pixel %d: grown %v", i, p.Width, p.Height, at, grown)
			}
			if _, _, _, seen := p.At(at%p.Width, at/p.Width); seen && !grown {
				counted++
			}
		}
		out := &Mask{Areas: areas, Grown: got}
		for _, a := range areas { // those that meet nothing grown are left out all the same
			a = a.Canon().Intersect(p.Bounds())
			for y := a.Min.Y; y < a.Max.Y; y++ {
				for x := a.Min.X; x < a.Max.X; x++ {
					if _, _, _, seen := p.At(x, y); seen && !want[y*p.Width+x] {
						counted--
						want[y*p.Width+x] = true
					}
				}
			}
		}
		if r := Read(p, Options{Mask: out}); r.Counted != counted {
			t.Fatalf("picture %d: %d pixels are counted, want %d", i, r.Counted, counted)
		}
	}
	if compared < 300 {
		t.Errorf("only %d pictures were compared", compared)
	}
}

// The laws: mirrored pictures grow mirrored parts, a wider distance grows no less, and what
// is painted where nothing was grown and nothing like a seed is, changes nothing.
func TestGrowLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 33))
		p := randomPixels(rng, 40)
		seeds := randomSeeds(rng, p)
		before := plainOf(Grow(p, nil, seeds))

		mirrored, turned := p, append([]Seed(nil), seeds...)
		mirrored.Pix = append([]byte(nil), p.Pix...)
		for y := range p.Height {
			for x := range p.Width {
				copy(mirrored.Row(y)[PixelBytes*x:][:PixelBytes], p.Row(y)[PixelBytes*(p.Width-1-x):])
			}
		}
		for i := range turned {
			turned[i].At.X = p.Width - 1 - turned[i].At.X
		}
		other := plainOf(Grow(mirrored, nil, turned))
		wider := append([]Seed(nil), seeds...)
		for i := range wider {
			wider[i].Within += rapid.Float64Range(0, 20).Draw(t, "more")
		}
		more := plainOf(Grow(p, nil, wider))
		for at, grown := range before {
			if grown != other[at/p.Width*p.Width+p.Width-1-at%p.Width] {
				t.Fatal("the mirrored picture grows another part")
			}
			if grown && !more[at] {
				t.Fatal("a wider distance grows less")
			}
		}
	})
}

// Workspace of the paper's lightness but another hue is told from it, and a pocket of the
// paper inside the figure, which meets neither place nor border, is counted.
func TestGrowTellsColourAndConnection(t *testing.T) {
	paper, ring, workspace := colour.RGB{R: 240, G: 236, B: 225}, colour.RGB{R: 90, G: 60, B: 70}, colour.RGB{R: 236, G: 236, B: 236}
	p := Pixels{Pix: make([]byte, 4*60*60), Stride: 4 * 60, Width: 60, Height: 60}
	for y := range 60 {
		for x := range 60 {
			c := workspace
			if x >= 10 && x < 50 && y >= 10 && y < 50 {
				c = paper
				if far := math.Hypot(float64(x-30), float64(y-30)); far >= 8 && far < 12 {
					c = ring
				}
			}
			set(p, x, y, c, 255)
		}
	}
	if math.Abs(testLightness(paper)-testLightness(workspace)) > 1 {
		t.Fatal("the two are not of one lightness")
	}
	for _, tt := range []struct {
		name             string
		seed             Seed
		paper, workspace bool // grown
	}{
		{"workspace", Seed{image.Pt(2, 2), workspace, 2}, false, true},
		{"paper", Seed{image.Pt(12, 12), paper, 2}, true, false},
		{"workspace whose place has since been painted over", Seed{image.Pt(30, 20), workspace, 2}, false, true},
		{"both, being as like as the distance says", Seed{image.Pt(12, 12), paper, 8}, true, true},
	} {
		g := plainOf(Grow(p, nil, []Seed{tt.seed}))
		if g[12*60+12] != tt.paper || g[2*60+2] != tt.workspace || g[30*60+30] || g[30*60+20] {
			t.Errorf("%s: paper %v, workspace %v, pocket %v, ring %v", tt.name, g[12*60+12], g[2*60+2], g[30*60+30], g[30*60+20])
		}
	}
}

func testLightness(c colour.RGB) float64 {
	return testkit.PlainLightness(testkit.PlainLinear(), int(c.R), int(c.G), int(c.B))
}

// Brought to its own size a part is the same; to half, each pixel is as its centre.
func TestGrownScaled(t *testing.T) {
	p := painting(90, 60, RGBA)
	g := Grow(p, nil, []Seed{{image.Pt(40, 2), p.Pixel(40, 2), 6}})
	if g.Pixels() == 0 || g.Pixels() == 90*60 {
		t.Fatalf("%d pixels are grown", g.Pixels())
	}
	whole := plainOf(g)
	for _, size := range []image.Point{{90, 60}, {45, 20}, {31, 17}} {
		s := g.Scaled(size.X, size.Y)
		for at, grown := range plainOf(s) {
			x, y := (2*(at%size.X)+1)*90/(2*size.X), (2*(at/size.X)+1)*60/(2*size.Y)
			if grown != whole[y*90+x] {
				t.Fatalf("%v: pixel %d is grown: %v", size, at, grown)
			}
		}
	}
	if (*Grown)(nil).Scaled(3, 3) != nil || (*Grown)(nil).Clone() != nil || (*Grown)(nil).Pixels() != 0 {
		t.Error("nothing becomes something")
	}
}

func TestGrowAllocatesNothing(t *testing.T) {
	p := painting(640, 360, BGRX)
	g := NewGrower()
	defer g.Close()
	seeds, areas := []Seed{{image.Pt(300, 2), p.Pixel(300, 2), 3}}, []image.Rectangle{image.Rect(5, 5, 90, 90)}
	g.Grow(p, areas, seeds)
	if n := testkit.LeastAllocs(5, func() { g.Grow(p, areas, seeds) }); n > 0 {
		t.Errorf("%g allocations", n)
	}
}

// Whatever the bytes say, nothing is read beyond them, and what is grown lies inside.
func FuzzGrow(f *testing.F) {
	f.Add([]byte("a few bytes of a picture"), uint8(3), 1, 1, 5.0, 0, 0, 2, 2)
	f.Add([]byte{}, uint8(0), -1, 7, math.NaN(), 9, 9, -9, -9)
	f.Fuzz(func(t *testing.T, pix []byte, width uint8, x, y int, within float64, x0, y0, x1, y1 int) {
		p := Pixels{Pix: pix, Stride: PixelBytes * int(width), Width: int(width)}
		if width > 0 {
			p.Height = len(pix) / p.Stride
		}
		areas := []image.Rectangle{{Min: image.Pt(x0, y0), Max: image.Pt(x1, y1)}}
		g := Grow(p, areas, []Seed{{image.Pt(x, y), colour.RGB{R: uint8(x), G: uint8(y)}, within}})
		n, last := 0, image.Pt(0, -1)
		g.Each(func(y, from, to int) {
			if from >= to || from < 0 || to > p.Width || y < 0 || y >= p.Height || y == last.Y && from <= last.X {
				t.Fatalf("row %d, columns %d to %d", y, from, to)
			}
			n, last = n+to-from, image.Pt(to, y)
		})
		if n != g.Pixels() {
			t.Fatalf("%d pixels of %d", g.Pixels(), n)
		}
	})
}
