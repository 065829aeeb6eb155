package reduce

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
)

// sharesOf returns how much of each pixel of a side lies in a box, by its definition.
func sharesOf(b *Boxes, j int) []float64 {
	shares := make([]float64, b.Pixels)
	begin, end := float64(j*b.Size-b.From)/float64(b.Unit), float64((j+1)*b.Size-b.From)/float64(b.Unit)
	for x := range shares {
		shares[x] = max(0, min(float64(x+1), end)-max(float64(x), begin))
	}
	return shares
}

func drawBoxes(t *rapid.T, pixels int) Boxes {
	b := Boxes{Pixels: pixels, Unit: rapid.IntRange(1, 4096).Draw(t, "unit")}
	b.Size = rapid.IntRange(b.Unit, max(b.Unit, 3*pixels*b.Unit/2)).Draw(t, "size")
	b.From = rapid.IntRange(0, b.Size-1).Draw(t, "from")
	b.Count = (pixels*b.Unit + b.From + b.Size - 1) / b.Size
	return b
}

// Boxes of any size that begin anywhere have the mean of what they cover of the picture, by area, and
// whatever is transparent doesn't count.
func TestBoxesAnywhereHaveTheMeanOfTheirPixels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := analysis.Pixels{Width: rapid.IntRange(1, 40).Draw(t, "width"), Height: rapid.IntRange(1, 12).Draw(t, "height")}
		p.Stride = 4 * p.Width
		p.Pix = rapid.SliceOfN(rapid.Byte(), p.Stride*p.Height, p.Stride*p.Height).Draw(t, "pixels")
		opaque := rapid.Bool().Draw(t, "opaque")
		for i := 3; i < len(p.Pix); i += 4 {
			if p.Pix[i] > 99 || opaque {
				p.Pix[i] = 255
			} else {
				p.Pix[i] = 0
			}
		}
		g := Grid{drawBoxes(t, p.Width), drawBoxes(t, p.Height)}
		r := New()
		defer r.Close()
		got := r.ReduceTo(p, To{Size: g.Count(), Grid: &g})
		for y := range g.Y.Count {
			down := sharesOf(&g.Y, y)
			for x := range g.X.Count {
				across := sharesOf(&g.X, x)
				var sum [3]float64
				area, coloured := 0.0, 0.0
				for v, high := range down {
					for u, wide := range across {
						px := p.Pix[v*p.Stride+4*u:][:4]
						area += high * wide
						if px[3] == 0 {
							continue
						}
						coloured += high * wide
						sum[0] += high * wide * float64(fixed.ReduceTables.Red[px[0]])
						sum[1] += high * wide * float64(fixed.ReduceTables.Red[px[1]])
						sum[2] += high * wide * float64(fixed.ReduceTables.Red[px[2]])
					}
				}
				at := y*got.Width + x
				if left := 2*coloured < area; math.Abs(2*coloured-area) > 1e-9 && left != (got.Left[at] == 1) {
					t.Fatalf("box %d, %d of %+v: left out %v, but %g of %g have a colour", x, y, g, got.Left[at] == 1, coloured, area)
				}
				for c, v := range sum {
					if coloured > 1e-9 && math.Abs(v/coloured-float64(got.Linear[3*at+c])) > 1 {
						t.Fatalf("box %d, %d of %+v: channel %d is %d, want %g", x, y, g, c, got.Linear[3*at+c], v/coloured)
					}
				}
			}
		}
	})
}

// Every pixel lies in a box, every box has its middle in the picture, and of two places that are
// turned into boxes and back neither passes the other.
func TestBoxesAndPixels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBoxes(t, rapid.IntRange(1, 300).Draw(t, "pixels"))
		for x := range b.Pixels {
			j := b.BoxOf(x)
			if j < 0 || j >= b.Count || x > 0 && j < b.BoxOf(x-1) {
				t.Fatalf("pixel %d of %+v lies in box %d", x, b, j)
			}
			least := 0
			for least < b.Count && b.begin(least)+b.end(least) < 2*x*b.Unit {
				least++
			}
			if got := b.CentreAt(x); got != least {
				t.Fatalf("the first centre from %d on of %+v is that of %d, want %d", x, b, got, least)
			}
		}
		for j := range b.Count {
			from, to := b.PixelsOf(j)
			if m := b.Middle(j); m < 0 || m >= b.Pixels || from < 0 || to > b.Pixels || from >= to {
				t.Fatalf("box %d of %+v has its middle at %d, and pixels %d to %d", j, b, m, from, to)
			}
		}
		if first, last := b.Part(0), b.Part(float64(b.Count)); first != 0 || last != 1 {
			t.Fatalf("%+v goes from %g to %g", b, first, last)
		}
	})
}

// Equal boxes are where package analysis has them.
func TestEqualBoxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pixels := rapid.IntRange(1, 5000).Draw(t, "pixels")
		b := Equal(pixels, rapid.IntRange(1, pixels).Draw(t, "boxes"))
		at := rapid.IntRange(0, pixels).Draw(t, "at")
		if got, want := b.CentreAt(at), analysis.CentreAt(at, pixels, b.Count); got != want {
			t.Fatalf("%+v: the first centre from %d on is that of %d, want %d", b, at, got, want)
		}
		g := EqualGrid(image.Pt(pixels, 1), image.Pt(b.Count, 1))
		if g.X != b || g.Count() != image.Pt(b.Count, 1) {
			t.Fatalf("%+v, want %+v", g, b)
		}
	})
}
