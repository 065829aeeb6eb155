package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// Nothing changed is the picture's own light, its shadows but for rounding to 8 bits; a warmer
// light has bluer shadows, a cooler one redder; so many tones deeper lie so much deeper.
func TestRelight(t *testing.T) {
	list := inOneLight(bluish)
	l := read(list)
	own, ok := l.Relight(list, Change{})
	if !ok || own.Ratio != *l.Ratio || len(own.Relit) != len(list) {
		t.Fatalf("%+v", own)
	}
	for _, r := range own.Relit {
		if d := colour.CIEDE2000(r.Shadow.Spot.Lab, list[r.Family].Shadow.Lab); d > 1 {
			t.Errorf("%s is off by %g", r.Shadow.Spot.Colour.Hex(), d)
		}
	}
	warm, _ := l.Relight(list, Change{Warmer: 50})
	cool, _ := l.Relight(list, Change{Warmer: -50})
	bias := func(u Under) float64 { return u.Ratio.Blue / u.Ratio.Red }
	if !(bias(cool) < bias(own) && bias(own) < bias(warm)) {
		t.Errorf("blue over red: cooler %g, own %g, warmer %g", bias(cool), bias(own), bias(warm))
	}
	for _, tones := range []float64{-1, 0.5, 1} {
		u, _ := l.Relight(list, Change{Deeper: tones})
		var was, is []weighed
		for _, r := range u.Relit {
			was, is = append(was, weighed{list[r.Family].Tones, 1}), append(is, weighed{r.Shadow.Tones, 1})
		}
		if got := median(is) - median(was); math.Abs(got-tones) > 0.05 { // 8 bits: see promiseWithin in propose
			t.Errorf("%g tones deeper: %g", tones, got)
		}
	}
	if _, ok := read(nil).Relight(nil, Change{}); ok {
		t.Error("nothing is relit")
	}
}

// Whatever is asked for, there are colours, no shadow is lighter than its light by more than
// rounding, unless the picture's own is, and the change is inside of its ranges.
func TestRelightLaws(t *testing.T) {
	list := inOneLight(bluish)
	l := read(list)
	rapid.Check(t, func(t *rapid.T) {
		any := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-150, 150), rapid.Just(math.NaN()))
		u, ok := l.Relight(list, Change{any.Draw(t, "warmer"), any.Draw(t, "deeper")})
		if !ok || u.Change != u.Change.Valid() {
			t.Fatalf("%+v", u)
		}
		for _, r := range u.Relit {
			if r.Shadow.Spot == nil || r.Shadow.Tones < -0.05 {
				t.Fatalf("%+v", r)
			}
		}
	})
}
