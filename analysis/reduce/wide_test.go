package reduce

import (
	"bytes"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/internal/fixed"
)

// Columns wider than a word of sums bears, and rows without transparent pixels, are summed in ways of
// their own, to the same light as pixel by pixel.
func TestReduceWide(t *testing.T) {
	const wide = 1 << 16
	for _, layout := range []analysis.Layout{analysis.RGBA, analysis.BGRX} {
		p := analysistest.Noise(wide, 1, layout)
		if layout == analysis.RGBA {
			for x := range wide {
				p.Pix[analysis.PixelBytes*x+3] = 1
			}
		}
		light := newRowLight(fixed.ReduceTables, layout)
		sums := make([]uint64, wide+1)
		if light.sumUp(sums, p.Pix) {
			t.Fatal("an opaque row is said to be transparent")
		}
		for _, width := range []int{1, 7, 1000, wide / 33, wide / 32, wide / 16, wide - 1, wide} {
			boxes := Equal(wide, width)
			columns := setColumns(nil, &boxes)
			quick, slow := make([][4]uint64, width), make([][4]uint64, width)
			sumRow(quick, columns, uint64(width), sums, 0)
			sumClearRow(slow, columns, uint64(width), p.Pix, &light)
			for i := range quick {
				if quick[i] != slow[i] {
					t.Fatalf("layout %d, to %d: column %d is %v by sums, %v pixel by pixel", layout, width, i, quick[i], slow[i])
				}
			}
		}
		for _, at := range []int{0, 1, 99, wide - 1} {
			q := bytes.Clone(p.Pix)
			clear(q[4*at:][:4])
			if light.sumUp(sums, q) != (layout == analysis.RGBA) || light.sumUp(sums[:4], make([]byte, 12)) != (layout == analysis.RGBA) {
				t.Errorf("layout %d: whether pixel %d is transparent isn't seen", layout, at)
			}
		}
	}
	white := analysis.Pixels{Width: 300_000, Height: 2, Stride: 1_200_000, Pix: make([]byte, 2_400_000), Layout: analysis.BGRX}
	for i := range white.Pix {
		white.Pix[i] = 255
	}
	reducer := New()
	defer reducer.Close()
	for _, width := range []int{1, 3, 70_001} {
		for _, v := range reducer.Reduce(white, width, 1, nil).Linear {
			if v != fixed.LinearWhite {
				t.Fatalf("white reduced to %d pixels is %d", width, v)
			}
		}
	}
}
