package setup

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	_ "app.tonedesk/analysis/lawtest" // how many cases
)

// foundOf is a map with a strip for each side of families of these codes and confidences.
func foundOf(lights []colour.RGB, confidence []float64) *families.Found {
	f := &families.Found{Width: 4 * len(lights), Height: 1, Map: make([]uint8, 4*len(lights))}
	for i, c := range lights {
		family := families.Of(analysis.SpotOf(c), analysis.SpotOf(darker(c)), families.DefaultRules())
		family.Confidence = &confidence[i]
		f.List = append(f.List, family)
		for role := range 4 {
			f.Map[4*i+role] = uint8(4*i + role + 1)
		}
	}
	return f
}

func darker(c colour.RGB) colour.RGB { return colour.RGB{R: c.R / 2, G: c.G / 2, B: c.B / 3} }

// judgedOf is the last word on a local colour of a code.
func judgedOf(c colour.RGB, kept bool) Judged {
	return Judged{Track: int(c.R) + 1, Kept: kept, Light: Side{Colour: c}, Shadow: Side{Colour: darker(c)}}
}

// What is refused is not listed, what is kept is, and of the rest what is sure; the map says the
// same, and what was found stays as it is.
func TestListed(t *testing.T) {
	lights := []colour.RGB{{R: 220, G: 60, B: 50}, {R: 60, G: 200, B: 90}, {R: 70, G: 110, B: 230}, {R: 230, G: 220, B: 90}, {R: 150, G: 150, B: 150}}
	found := foundOf(lights, []float64{0.9, 0.2, 0.5, 0.49, 0.9})
	before := slices.Clone(found.Map)
	list := Listed(found, []Judged{judgedOf(lights[0], false), judgedOf(lights[1], true)})
	var got []colour.RGB
	for _, f := range list.List {
		got = append(got, f.Light.Colour)
	}
	if want := []colour.RGB{lights[1], lights[2], lights[4]}; !slices.Equal(got, want) { // SureFrom is 0.5
		t.Errorf("listed are %v, want %v", got, want)
	}
	if want := []uint8{0, 0, 0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 0, 0, 0, 0, 9, 10, 11, 12}; !slices.Equal(list.Map, want) {
		t.Errorf("the map is %v, want %v", list.Map, want)
	}
	if len(found.List) != 5 || !slices.Equal(found.Map, before) {
		t.Error("what was found is another now")
	}
}

// Each judged one is the family that is nearest in colour; none is two, and what is far is none.
func TestMeant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := []colour.RGB{{R: 220, G: 60, B: 50}, {R: 216, G: 64, B: 52}, {R: 60, G: 200, B: 90}, {R: 70, G: 110, B: 230}} // the first two are nearly one
		list := rapid.Permutation(all).Draw(t, "found")
		found := foundOf(list, make([]float64, len(list)))
		judged := rapid.Permutation(all).Draw(t, "judged")[:rapid.IntRange(0, len(all)).Draw(t, "n")]
		var words []Judged
		for _, c := range judged {
			words = append(words, judgedOf(c, true))
		}
		words = append(words, judgedOf(colour.RGB{R: 10, G: 10, B: 10}, true))
		meant := Meant(words, found.List)
		for i, c := range judged {
			if meant[i] < 0 || list[meant[i]] != c {
				t.Fatalf("%v is taken for %d of %v", c, meant[i], list)
			}
		}
		if meant[len(meant)-1] != -1 {
			t.Fatal("what is not there is found")
		}
	})
}

// A word takes the place of the one before it, and no setup from before is written to.
func TestWithJudged(t *testing.T) {
	c := colour.RGB{R: 220, G: 60, B: 50}
	one := Setup{}.WithJudged(judgedOf(c, true)).WithJudged(judgedOf(colour.RGB{R: 1}, false))
	two := one.WithJudged(judgedOf(c, false))
	if j, ok := one.JudgedAs(221); !ok || !j.Kept {
		t.Errorf("the setup before says %+v", one.Judged)
	}
	if j, ok := two.JudgedAs(221); !ok || j.Kept || len(two.Judged) != 2 {
		t.Errorf("the setup after says %+v", two.Judged)
	}
	if left := two.WithoutJudged(221); len(left.Judged) != 1 || len(two.Judged) != 2 {
		t.Errorf("%+v is left of %+v", left.Judged, two.Judged)
	}
}
