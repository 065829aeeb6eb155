package growth

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest"
)

var nan = math.NaN()

// halfTone is the rule that the tables below are made for.
var halfTone = rule{0.5, 0.1}

// Where a line turned is known since it was drawn so.
func TestTurn(t *testing.T) {
	for name, tt := range map[string]struct {
		values []float64
		want   *Turn
	}{
		"nothing":                          {nil, nil},
		"one figure":                       {[]float64{2}, nil},
		"level":                            {[]float64{2, 2.1, 2, 1.9, 2}, nil},
		"less than the rule asks for":      {[]float64{2, 2.2, 2.4}, nil},
		"as much as it asks for, printed":  {[]float64{2, 2.2, 2.46}, &Turn{0, 2, 2.46, 0.46, true}},
		"one way throughout":               {[]float64{3, 2.5, 2}, &Turn{0, 3, 2, -1, true}},
		"level, then falling":              {[]float64{2.8, 2.85, 2.8, 2.4, 2}, &Turn{2, 2.8, 2, -0.8, false}},
		"rising, then falling":             {[]float64{2, 2.5, 2.8, 2.4, 2}, &Turn{2, 2.8, 2, -0.8, false}},
		"there and back, and there":        {[]float64{2, 3, 2, 3}, &Turn{2, 2, 3, 1, false}},
		"back by less than it asks for":    {[]float64{3, 2, 2.4}, &Turn{0, 3, 2.4, -0.6, true}},
		"back until too little is left":    {[]float64{2.6, 2, 2.4}, nil},
		"gaps between":                     {[]float64{nan, 2, nan, 2.8, nan, 2.2, nan}, &Turn{3, 2.8, 2.2, -0.6, false}},
		"a single high one on the way":     {[]float64{3, 2.6, 2.8, 2.2, 1.8}, &Turn{0, 3, 1.8, -1.2, true}},
		"a dip too small to be a turn":     {[]float64{2, 2.6, 2.3, 3}, &Turn{0, 2, 3, 1, true}},
		"the last of two tops that are as": {[]float64{2, 3, 2.7, 3, 2.4}, &Turn{3, 3, 2.4, -0.6, false}},
	} {
		t.Run(name, func(t *testing.T) {
			got := turnOf(tt.values, halfTone)
			switch {
			case got == nil && tt.want == nil:
			case got == nil || tt.want == nil || got.At != tt.want.At || got.Throughout != tt.want.Throughout ||
				math.Abs(got.From-tt.want.From)+math.Abs(got.To-tt.want.To)+math.Abs(got.Change-tt.want.Change) > 1e-9:
				t.Errorf("%v turned at %+v, want %+v", tt.values, got, tt.want)
			}
		})
	}
}

// A line of legs, each of at least the rule and each the other way than the one before, turned where
// the last one begins, however its figures jitter within a fifth of what counts as level.
func TestTurnOfLegs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		way, v, last := rapid.SampledFrom([]float64{1, -1}).Draw(t, "way"), 5.0, 0
		values := []float64{v}
		legs := rapid.IntRange(1, 5).Draw(t, "legs")
		for range legs {
			last = len(values) - 1
			for range rapid.IntRange(2, 5).Draw(t, "steps") {
				v += way * rapid.Float64Range(0.35, 1).Draw(t, "step")
				values = append(values, v)
			}
			way = -way
		}
		for i := range values {
			values[i] += rapid.Float64Range(-0.02, 0.02).Draw(t, "jitter")
		}
		got := turnOf(values, halfTone)
		if got == nil || got.At != last || got.Throughout != (legs == 1) {
			t.Fatalf("%v turned at %+v, want %d", values, got, last)
		}
	})
}

// Figures are multiples of a quarter, and the rule is one: what is said of a line holds whatever is
// done to it that changes nothing.
func TestTurnLaws(t *testing.T) {
	by := rule{0.75, 0.25}
	rapid.Check(t, func(t *rapid.T) {
		var values []float64
		for range rapid.IntRange(0, 12).Draw(t, "count") {
			values = append(values, float64(rapid.IntRange(0, 12).Draw(t, "quarters"))/4)
		}
		got := turnOf(values, by)
		checkTurn(t, values, got, by)
		mapped := func(f func(float64) float64) []float64 {
			all := make([]float64, len(values))
			for i, v := range values {
				all[i] = f(v)
			}
			return all
		}
		if up := turnOf(mapped(func(v float64) float64 { return v + 3 }), by); !likeTurn(got, up, 0, 1) {
			t.Errorf("moved up, %v turned at %+v, before at %+v", values, up, got)
		}
		if down := turnOf(mapped(func(v float64) float64 { return -v }), by); !likeTurn(got, down, 0, -1) {
			t.Errorf("upside down, %v turned at %+v, before at %+v", values, down, got)
		}
		at := rapid.IntRange(0, len(values)).Draw(t, "gap")
		later := 0
		if got != nil && at <= got.At {
			later = 1
		}
		if gap := turnOf(slices.Insert(slices.Clone(values), at, nan), by); !likeTurn(got, gap, later, 1) {
			t.Errorf("%v with a gap at %d turned at %+v, before at %+v", values, at, gap, got)
		}
		if n := len(values); n > 0 {
			if longer := turnOf(append(slices.Clone(values), values[n-1]), by); !likeTurn(got, longer, 0, 1) {
				t.Errorf("%v with its end once more turned at %+v, before at %+v", values, longer, got)
			}
		}
	})
}

// checkTurn holds a turn against what it means.
func checkTurn(t *rapid.T, values []float64, got *Turn, by rule) {
	if got == nil {
		return
	}
	way := math.Copysign(1, got.Change)
	if got.From != values[got.At] || got.To != values[len(values)-1] || got.Change != got.To-got.From || math.Abs(got.Change) < by.least {
		t.Errorf("%v: %+v", values, got)
	}
	for i := got.At; i < len(values); i++ {
		for k := i + 1; k < len(values); k++ {
			if way*(values[i]-values[k]) >= by.least {
				t.Errorf("%v turned at %+v, but goes back from %d to %d", values, got, i, k)
			}
		}
	}
	if got.Throughout != (got.At == 0) {
		t.Errorf("%v: %+v", values, got)
	}
}

// likeTurn reports whether b is a, so many moments later and the other way or not.
func likeTurn(a, b *Turn, later int, way float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	through := later != 0 && b.At == later // the first figure, behind a gap
	return b.At == a.At+later && b.Change == way*a.Change && (b.Throughout == a.Throughout || through)
}
