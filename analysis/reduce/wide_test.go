package reduce

import (
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/internal/fixed"
)

// Pictures wider than the packed sums bear are summed in another way, to the same light.
func TestReduceWide(t *testing.T) {
	for _, layout := range []analysis.Layout{analysis.RGBA, analysis.BGRX} {
		p := analysistest.Noise(packedWidth, 1, layout)
		if layout == analysis.RGBA {
			for x := 5; x < p.Width; x += 7 {
				p.Pix[analysis.PixelBytes*x+3] = 0
			}
		}
		for _, width := range []int{1, 7, 1000, packedWidth - 1} {
			columns := setColumns(nil, p.Width, width)
			packed, wide := make([][4]uint64, width), make([][4]uint64, width)
			sumRow(packed, columns, uint64(width), p.Pix, newRowLight(fixed.ReduceTables, layout))
			sumWideRow(wide, columns, uint64(width), p.Pix, newRowLight(fixed.ReduceTables, layout))
			for i := range packed {
				if packed[i] != wide[i] {
					t.Fatalf("layout %d, to %d: column %d is %v packed, %v wide", layout, width, i, packed[i], wide[i])
				}
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
