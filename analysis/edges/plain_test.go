package edges

import (
	"image"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// plainCell is a cell of which nothing is packed.
type plainCell struct {
	part [3]int64 // L*, a* and b* in 1/cellLab
	left bool
}

// plainCellOf is a pixel of a reduced picture.
func plainCellOf(src *reduce.Picture, i int) plainCell {
	linear := src.Linear[3*i:][:3]
	r, g, b := uint32(linear[0]), uint32(linear[1]), uint32(linear[2])
	w, lab := &fixed.LabWeights, fixed.LabOf(linear)
	y := int64(fixed.LabRoots.Of(r*w[1][0] + g*w[1][1] + b*w[1][2]))
	rounded := func(v int64) int64 { return (cellLab*v + fixed.LabUnit/2) >> fixed.LabBits }
	return plainCell{[3]int64{rounded(116*y) - 16*cellLab, rounded(500 * int64(lab.A)), rounded(200 * int64(lab.B))}, src.Left[i] != 0}
}

// plainLook says what may carry an edge across a border the plain way, as the comments in across.go
// have it: at(along, beside) is the cell so many cells along the way across, the last one before the
// border being 0, and so many beside it; nil beyond the picture.
func plainLook(at func(along, beside int) *plainCell, g gate) candidate {
	if at(-deepReach, 0) == nil || at(1+deepReach, 0) == nil {
		return none
	}
	p, q := at(-nearReach, 0), at(1+nearReach, 0)
	l, a, b := q.part[0]-p.part[0], q.part[1]-p.part[1], q.part[2]-p.part[2]
	by, channels := candidate(none), []int{}
	switch {
	case max(l, -l) <= g.mostColourL && a*a+b*b >= g.leastColour:
		by, channels = byColour, []int{1, 2}
	case max(l, -l) >= g.leastLightL && a*a+b*b <= g.mostLightHue:
		by, channels = byLightness, []int{0}
	}
	var step, pairs, contrast int64
	for _, c := range channels {
		sides := [2][]int64{}
		for k, first := range [2]int{-nearReach, 1 + nearReach} {
			inside := first + 2*k - 1
			for _, cell := range [...]*plainCell{at(first, 0), at(inside, 0), beside(at, first, -1), beside(at, first, 1)} {
				if cell.left {
					return none
				}
				sides[k] = append(sides[k], cell.part[c])
			}
		}
		d := int64(0)
		for i := range sideCells {
			d += sides[1][i] - sides[0][i]
			for j := range i { // n times the squares less the squared sum is the squared pairs' sum
				for _, s := range sides {
					pairs += (s[i] - s[j]) * (s[i] - s[j])
				}
			}
		}
		rest := plainRest(at, c, d)
		step, contrast = step+d*d, contrast+rest*rest
	}
	if (sideCells-1)*step < leastStep*sideCells*pairs || leastSharp*contrast < step {
		return none
	}
	return by
}

// beside is the cell beside another, that one itself at the picture's frame.
func beside(at func(along, beside int) *plainCell, along, by int) *plainCell {
	if c := at(along, by); c != nil {
		return c
	}
	return at(along, 0)
}

// plainRest is what is left of a step when the sides' own slopes that go the same way are taken away.
func plainRest(at func(along, beside int) *plainCell, c int, d int64) int64 {
	slope := int64(0)
	for row := -1; row <= 1; row++ {
		if at(-slopeReach, 0) != nil {
			slope += beside(at, -nearReach, row).part[c] - beside(at, -slopeReach, row).part[c]
		}
		if at(1+slopeReach, 0) != nil {
			slope += beside(at, 1+slopeReach, row).part[c] - beside(at, 1+nearReach, row).part[c]
		}
	}
	explained := slope * sideCells * apart / (2 * 3 * (slopeReach - nearReach))
	if d < 0 {
		return -max(0, -d-max(0, -explained))
	}
	return max(0, d-max(0, explained))
}

// drawnPicture is a picture of some patches of near or far colours, with slopes and grain, and what is
// left out of it.
func drawnPicture(t *rapid.T) (analysis.Pixels, *analysis.Mask) {
	rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
	p := analysis.Pixels{Width: rapid.IntRange(1, 48).Draw(t, "width"), Height: rapid.IntRange(1, 48).Draw(t, "height")}
	p.Stride = analysis.PixelBytes * p.Width
	p.Pix = make([]byte, p.Stride*p.Height)
	grain, apart := rapid.SampledFrom([]float64{0, 0, 4, 100}).Draw(t, "grain"), rapid.SampledFrom([]float64{40, 255}).Draw(t, "apart")
	level := 255 * rng.Float64()
	for range rapid.IntRange(1, 5).Draw(t, "patches") {
		x, y := rng.IntN(p.Width), rng.IntN(p.Height)
		var code, slope [3]float64
		for c := range code {
			code[c], slope[c] = level+apart*(rng.Float64()-0.5), float64(rng.IntN(2))*6*rng.NormFloat64()
		}
		for v := y; v < min(p.Height, 2*y+8); v++ {
			for u := x; u < min(p.Width, 2*x+8); u++ {
				for c := range code {
					at := code[c] + slope[c]*float64(u-x) + grain*rng.NormFloat64()
					p.Pix[v*p.Stride+analysis.PixelBytes*u+c] = byte(max(0, min(at, 255)))
				}
			}
		}
	}
	for i := 3; i < len(p.Pix); i += analysis.PixelBytes {
		p.Pix[i] = 255
	}
	out := new(analysis.Mask)
	if rapid.Bool().Draw(t, "left out") {
		x, y := rng.IntN(p.Width), rng.IntN(p.Height)
		out.Areas = append(out.Areas, image.Rect(x, y, x+1+rng.IntN(9), y+1+rng.IntN(9)))
	}
	return p, out
}

// The packed sums answer at every border as the plain way does, whatever the picture.
func TestPackedIsPlain(t *testing.T) {
	var seen [3]int
	rapid.Check(t, func(t *rapid.T) {
		p, out := drawnPicture(t)
		o := DefaultOptions().WithTones(rapid.Float64Range(0.1, 1).Draw(t, "tones"))
		reduce.Once(p, out, Longest, func(src *reduce.Picture) {
			var f Finder
			f.Find(src, o)
			cells := make([]plainCell, src.Width*src.Height)
			for i := range cells {
				cells[i] = plainCellOf(src, i)
			}
			cell := func(x, y int) *plainCell {
				if x < 0 || y < 0 || x >= src.Width || y >= src.Height {
					return nil
				}
				return &cells[y*src.Width+x]
			}
			for i := range cells {
				x, y := i%src.Width, i/src.Width
				right := plainLook(func(along, beside int) *plainCell { return cell(x+along, y+beside) }, f.gate)
				below := plainLook(func(along, beside int) *plainCell { return cell(x+beside, y+along) }, f.gate)
				if got := f.across[i]; got != right {
					t.Fatalf("%d, %d, to the right: %d, want %d", x, y, got, right)
				}
				if got := f.below[x*src.Height+y]; got != below {
					t.Fatalf("%d, %d, below: %d, want %d", x, y, got, below)
				}
				seen[right]++
				seen[below]++
			}
		})
	})
	if min(seen[byColour], seen[byLightness]) < 100 {
		t.Errorf("hardly any border carries an edge: %v", seen)
	}
}
