package analysis

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// A patch of a whole picture reads as the area does, but for the steps it counts in.
func TestPatchReadsLikeAnArea(t *testing.T) {
	for _, layout := range []Layout{RGBA, BGRX} {
		p := noise(40, 30, layout)
		var a Patch
		for y := range p.Height {
			for x := range p.Width {
				a.Add(p, x, y)
			}
		}
		want, err := ReadArea(p, p.Bounds())
		got, ok := a.Spot()
		if err != nil || !ok || got.Colour != want.Colour || got.Pixels != want.Pixels {
			t.Fatalf("%+v, %v, want %+v, %v", got, ok, want, err)
		}
		near := func(name string, got, want, tol float64) {
			if !(math.Abs(got-want) <= tol) {
				t.Errorf("%s is %g, want %g", name, got, want)
			}
		}
		near("lightness", got.Lightness, want.Lightness, 1e-6)
		near("value", got.Value, want.Value, 1e-6)
		near("spread", got.Spread, want.Spread, 0.001)
		near("low", got.Low, want.Low, 0.5/colour.BinsPerLightness)
		near("high", got.High, want.High, 0.5/colour.BinsPerLightness)
		near("hue", *got.Hue, *want.Hue, 1e-3)
	}
}

// What is added and taken off again leaves no trace, in whatever order.
func TestPatchForgets(t *testing.T) {
	p := noise(20, 20, RGBA)
	rapid.Check(t, func(t *rapid.T) {
		var a, b Patch
		place := rapid.Custom(func(t *rapid.T) [2]int {
			return [2]int{rapid.IntRange(-1, 20).Draw(t, "x"), rapid.IntRange(-1, 20).Draw(t, "y")}
		})
		stay := rapid.SliceOf(place).Draw(t, "stay")
		pass := rapid.SliceOf(place).Draw(t, "pass")
		for _, at := range pass {
			a.Add(p, at[0], at[1])
		}
		for i, at := range stay {
			a.Add(p, at[0], at[1])
			last := stay[len(stay)-1-i]
			b.Add(p, last[0], last[1])
		}
		for _, at := range pass {
			a.Take(p, at[0], at[1])
		}
		if a != b {
			t.Fatal("a trace is left")
		}
	})
}

// The overlap of two even ramps, by hand: a light from L* 40 to 100 and a shadow from 0 to
// 60 in even steps of bins. A tenth into the light is L* 46, a tenth from the shadow's top
// 54; the overlap is their distance on the value scale.
func TestPatchOverlap(t *testing.T) {
	var light, shadow Patch
	for bin := range 256 {
		l := colour.LightnessOfBins(bin, 1)
		if l >= 40 {
			light.histogram[bin]++
			light.pixels++
		}
		if l <= 60 {
			shadow.histogram[bin]++
			shadow.pixels++
		}
	}
	want := colour.Value(54) - colour.Value(46)
	if got := PatchOverlap(&light, &shadow); math.Abs(got-want) > 0.06 { // a bin at either end
		t.Errorf("overlap %g, want %g", got, want)
	}
	if got := PatchOverlap(&light, new(Patch)); !math.IsNaN(got) {
		t.Errorf("overlap with nothing is %g", got)
	}
}
