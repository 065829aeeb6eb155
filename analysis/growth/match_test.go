package growth

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// form is a local colour over some columns of the picture's upper half.
func form(light, shadow string, from, to int, share float64) local {
	l := local{light: spot(light), shadow: spot(shadow), share: share, sure: true}
	l.tones = l.light.Value - l.shadow.Value
	for y := range side / 2 {
		for x := from; x < to; x++ {
			l.at[y] |= 1 << x
		}
	}
	return l
}

func spot(code string) analysis.Spot {
	c, err := colour.Parse(code)
	if err != nil {
		panic(err)
	}
	return analysis.SpotOf(c)
}

// found returns the moments in which each local colour was found, as a bit each, the largest of the
// first moment first.
func found(moments ...[]local) (in []int) {
	var series []Moment
	for _, list := range moments {
		series = append(series, Moment{locals: list})
	}
	for _, t := range follow(series) {
		bits := 0
		for i, l := range t.in {
			if l != nil {
				bits |= 1 << i
			}
		}
		in = append(in, bits)
	}
	return in
}

// A local colour is known again by its colours or by its place. Colours of skin, coat and scarf are
// invented.
func TestFollow(t *testing.T) {
	skin, coat := form("#e2ab85", "#b26a5c", 0, 20, 0.3), form("#7c8fa0", "#4a5a72", 30, 60, 0.2)
	guess := coat
	guess.sure = false
	for name, tt := range map[string]struct {
		moments [][]local
		want    []int
	}{
		"the same":                          {[][]local{{skin, coat}, {coat, skin}}, []int{3, 3}},
		"its shadow painted over":           {[][]local{{skin}, {form("#e2ab85", "#704a6a", 0, 20, 0.3)}}, []int{3}},
		"its light too, so another one":     {[][]local{{skin}, {form("#7c8fa0", "#303a4a", 0, 20, 0.3)}}, []int{1, 2}},
		"moved":                             {[][]local{{skin}, {form("#e2ab85", "#b26a5c", 40, 60, 0.3)}}, []int{3}},
		"moved and painted over":            {[][]local{{skin}, {form("#e2ab85", "#704a6a", 40, 60, 0.3)}}, []int{1, 2}},
		"missing once":                      {[][]local{{skin}, {}, {skin}}, []int{5}},
		"two of one colour, by their place": {[][]local{{skin, form("#e2ab85", "#b26a5c", 40, 60, 0.2)}, {form("#e2ab85", "#b26a5c", 40, 60, 0.2)}}, []int{1, 3}},
		"a guess begins nothing":            {[][]local{{guess}, {skin}}, []int{2}},
		"and goes on with what was sure":    {[][]local{{coat}, {guess}, {coat}}, []int{7}},
		"painted step by step": {[][]local{{skin}, {form("#e2ab85", "#9c5a5c", 0, 20, 0.3)}, {form("#d9a07c", "#9c5a5c", 0, 18, 0.3)}, {form("#d0a090", "#8c4a62", 0, 18, 0.3)}},
			[]int{15}},
	} {
		t.Run(name, func(t *testing.T) {
			got := found(tt.moments...)
			if len(got) != len(tt.want) {
				t.Fatalf("found in %b, want %b", got, tt.want)
			}
			for i := range got {
				if got[i] != tt.want[i] {
					t.Errorf("found in %b, want %b", got, tt.want)
				}
			}
		})
	}
}

// Whatever order local colours are listed in, and however often a moment is there, the same ones are
// the same; and in no moment is one of them two.
func TestFollowLaws(t *testing.T) {
	codes := []string{"#e2ab85", "#7c8fa0", "#b0392f", "#3f6b4a", "#d8c060", "#6a4a8c"}
	rapid.Check(t, func(t *rapid.T) {
		moments := make([]Moment, rapid.IntRange(1, 4).Draw(t, "moments"))
		for i := range moments {
			for k, code := range codes {
				if rapid.Bool().Draw(t, "there") {
					moments[i].locals = append(moments[i].locals, form(code, "#202024", 10*k, 10*k+rapid.IntRange(6, 10).Draw(t, "wide"), float64(k+1)/100))
				}
			}
		}
		want := follow(moments)
		for _, w := range want {
			for _, l := range w.in {
				if l != nil && colour.CIEDE2000(l.light.Lab, w.last.light.Lab) > 0 {
					t.Errorf("%s becomes %s, which is painted elsewhere", l.light.Colour.Hex(), w.last.light.Colour.Hex())
				}
			}
		}
		for i := range moments {
			moments[i].locals = rapid.Permutation(moments[i].locals).Draw(t, "order")
		}
		got := follow(moments)
		if len(got) != len(want) {
			t.Fatalf("%d local colours in another order, %d before", len(got), len(want))
		}
		for k := range got {
			for i := range moments {
				if (got[k].in[i] == nil) != (want[k].in[i] == nil) || got[k].in[i] != nil && got[k].in[i].light.Colour != want[k].in[i].light.Colour {
					t.Errorf("local colour %d in moment %d depends on the order", k, i)
				}
			}
		}
	})
}

// Overlap is a share: all of itself, none of nothing, the same either way.
func TestOverlap(t *testing.T) {
	draw := rapid.Custom(func(t *rapid.T) (c cells) {
		for y := range c {
			c[y] = rapid.Uint64().Draw(t, "row")
		}
		return c
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := draw.Draw(t, "a"), draw.Draw(t, "b")
		v := a.overlap(&b)
		if v != b.overlap(&a) || !(0 <= v && v <= 1) || a != (cells{}) && a.overlap(&a) != 1 || a.overlap(new(cells)) != 0 {
			t.Errorf("overlap %v", v)
		}
	})
}

// Places rise from 0 to 1, in order of time; a night is drawn as long as four usual steps.
func TestPlaces(t *testing.T) {
	start := time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC)
	for name, tt := range map[string]struct {
		minutes []int
		want    []float64
	}{
		"none":                {nil, nil},
		"one":                 {[]int{0}, []float64{0}},
		"even":                {[]int{0, 10, 20}, []float64{0, 0.5, 1}},
		"by time":             {[]int{0, 10, 40}, []float64{0, 0.25, 1}},
		"a night":             {[]int{0, 10, 20, 820, 830}, []float64{0, 1. / 7, 2. / 7, 6. / 7, 1}},
		"times that fall":     {[]int{0, 30, 20}, []float64{0, 0.5, 1}},
		"times that are same": {[]int{5, 5}, []float64{0, 1}},
	} {
		var moments []Moment
		for _, m := range tt.minutes {
			moments = append(moments, Moment{At: start.Add(time.Duration(m) * time.Minute)})
		}
		got := Places(moments)
		for i, v := range tt.want {
			if len(got) != len(tt.want) || math.Abs(got[i]-v) > 1e-9 {
				t.Errorf("%s: %v, want %v", name, got, tt.want)
				break
			}
		}
	}
}
