package live

import (
	"errors"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/setup"
)

func TestPairAndBase(t *testing.T) {
	spot := func(v uint8) Reading { return Reading{Spot: analysis.SpotOf(colour.RGB{R: v, G: v, B: v})} }
	lost := Reading{Err: errors.New("outside")}
	typed := &colour.RGB{R: 9}
	for _, tt := range []struct {
		name     string
		typed    *colour.RGB
		spots    []Reading
		selected int
		pair     string // "" for none
		base     string
	}{
		{"nothing", nil, nil, -1, "", ""},
		{"A alone", nil, []Reading{spot(1)}, -1, "", "spot A"},
		{"A and B", nil, []Reading{spot(1), spot(2)}, -1, "AB", "spot B"},
		{"three", nil, []Reading{spot(1), spot(2), spot(3)}, -1, "AB", "spot B"},
		{"A selected", nil, []Reading{spot(1), spot(2), spot(3)}, 0, "AB", "spot A"},
		{"C selected", nil, []Reading{spot(1), spot(2), spot(3)}, 2, "AC", "spot C"},
		{"A lost", nil, []Reading{lost, spot(2)}, -1, "", "spot B"},
		{"B lost", nil, []Reading{spot(1), lost}, -1, "", ""},
		{"not read yet", nil, []Reading{spot(1), spot(2)}, 2, "", ""},
		{"typed", typed, []Reading{spot(1), spot(2)}, 0, "AB", "the colour chosen"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			pair := ""
			if a, b, ok := PairOf(tt.spots, tt.selected); ok {
				pair = setup.SpotName(a) + setup.SpotName(b)
			}
			if pair != tt.pair {
				t.Errorf("compared are %q, want %q", pair, tt.pair)
			}
			base, name, ok := BaseOf(setup.Setup{}.WithTyped(tt.typed), tt.spots, tt.selected)
			if name != tt.base || ok != (tt.base != "") {
				t.Errorf("begins from %q (%v), want %q", name, ok, tt.base)
			}
			if ok && tt.typed != nil && base.Colour != *tt.typed {
				t.Errorf("begins from %s", base.Colour.Hex())
			}
		})
	}
}
