package live

import (
	"image"
	"slices"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// Rows keep their places while families grow and shrink a little, and change them when one
// is clearly larger.
func TestOrderOfFamilies(t *testing.T) {
	found := func(shares ...float64) Found {
		f := Found{Found: &families.Found{Width: len(shares), Height: 1, Map: make([]uint8, len(shares))}, Size: image.Pt(10*len(shares), 10)}
		for i := range shares {
			x, y := 10*i+5, 5
			f.List = append(f.List, families.Family{Share: &shares[i], Light: analysis.Spot{X: &x, Y: &y}})
			f.Map[i] = uint8(4*i + 1)
		}
		return f
	}
	first := found(0.2, 0.18, 0.05)
	first.Order = OrderFamilies(Found{}, first)
	for _, tt := range []struct {
		shares []float64
		want   []int
	}{
		{[]float64{0.2, 0.18, 0.05}, []int{0, 1, 2}},
		{[]float64{0.17, 0.2, 0.05}, []int{0, 1, 2}},
		{[]float64{0.1, 0.2, 0.05}, []int{1, 0, 2}},
	} {
		if got := OrderFamilies(first, found(tt.shares...)); !slices.Equal(got, tt.want) {
			t.Errorf("shares %v are listed as %v, want %v", tt.shares, got, tt.want)
		}
	}
}
