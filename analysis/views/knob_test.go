package views

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// A knob stands on its steps, inside its range, as near as can be to where it was put.
func TestKnobAt(t *testing.T) {
	tests := []struct {
		name    string
		knob    Knob
		v, want float64
	}{
		{"below", Knob{From: 2, To: 10, Step: 1, Start: 5}, -1, 2},
		{"above", Knob{From: 2, To: 10, Step: 1, Start: 5}, 11, 10},
		{"infinite", Knob{From: 2, To: 10, Step: 1, Start: 5}, math.Inf(1), 10},
		{"between", Knob{From: 2, To: 10, Step: 1, Start: 5}, 6.6, 7},
		{"nothing said", Knob{From: 2, To: 10, Step: 1, Start: 5}, 0, 5},
		{"not a number", Knob{From: 0.1, To: 1, Step: 0.1, Start: 1}, math.NaN(), 1},
		{"tenths", Knob{From: 0.1, To: 1, Step: 0.1, Start: 1}, 0.32, 0.3},
		{"the end is no step", Knob{From: 1, To: 2, Step: 0.4, Start: 1}, 2, 2},
	}
	for _, tt := range tests {
		if got := tt.knob.At(tt.v); !(math.Abs(got-tt.want) < 1e-12) {
			t.Errorf("%s: %g, want %g", tt.name, got, tt.want)
		}
	}
}

// Every view's knob can be set, and At of a position is that position.
func TestKnobsOfViews(t *testing.T) {
	for _, v := range All() {
		k := v.Knob
		if len(v.Name) > 14 {
			t.Errorf("the name %q is long", v.Name)
		}
		if k == nil {
			continue
		}
		if k.Name == "" || !(k.Step > 0) || !(0 < k.From && k.From < k.To) || k.At(k.Start) != k.Start || k.At(0) != k.Start {
			t.Errorf("%s: %+v", v.Key, *k)
		}
		rapid.Check(t, func(t *rapid.T) {
			at := k.At(rapid.Float64().Draw(t, "v"))
			if !(k.From <= at && at <= k.To) || math.Abs(k.At(at)-at) > 1e-12 {
				t.Fatalf("%s: %g, then %g", v.Key, at, k.At(at))
			}
		})
	}
}
