package light

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	_ "app.tonedesk/analysis/lawtest"
)

// lightsTried are light sides of painted things, linear light: no channel is near black, nor under
// half of that.
var lightsTried = [][3]float64{{0.75, 0.4, 0.24}, {0.3, 0.55, 0.2}, {0.25, 0.3, 0.7}, {0.8, 0.78, 0.7}, {0.5, 0.12, 0.2}}

// bluish leaves about a quarter of the light, and more of the blue.
var bluish = Ratio{0.2, 0.25, 0.4}

// painted is a local colour of linear light and its shadow.
func painted(light, shadow [3]float64) families.Family {
	f := families.Of(analysis.SpotOfLight(light[0], light[1], light[2]), analysis.SpotOfLight(shadow[0], shadow[1], shadow[2]), families.DefaultRules())
	f.Share = new(0.1)
	return f
}

// inOneLight paints what is tried in the light of a ratio.
func inOneLight(r Ratio) (list []families.Family) {
	for _, l := range lightsTried {
		list = append(list, painted(l, r.under(l)))
	}
	return list
}

func read(list []families.Family) *Light {
	return Of(&families.Found{List: list}, nil, DefaultOptions())
}

func sameRatio(a, b Ratio, within float64) bool {
	p, q := a.channels(), b.channels()
	for c := range p {
		if !(math.Abs(p[c]/q[c]-1) <= within) {
			return false
		}
	}
	return true
}

// What is painted in one light has its ratio, and all agree (KRIES: the definition).
func TestOneLightAgrees(t *testing.T) {
	l := read(inOneLight(bluish))
	if l.Ratio == nil || !sameRatio(*l.Ratio, bluish, 1e-9) || *l.Agreement != 1 || !*l.OneLight {
		t.Fatalf("%+v", l)
	}
	for _, c := range l.LocalColours {
		if !c.Agrees() || math.Abs(c.TonesOff) > 1e-6 || c.CIEDE2000 > 1e-4 || c.HueOff != nil && math.Abs(*c.HueOff) > 1e-4 {
			t.Errorf("%+v", c)
		}
	}
	white := l.WhiteInShadow
	if r, g, b := white.Lab.Light(); max(math.Abs(r-0.2), math.Abs(g-0.25), math.Abs(b-0.4)) > 1e-9 {
		t.Errorf("white in shadow is %g, %g, %g", r, g, b)
	}
}

// One that is painted otherwise is named, with its figure, and no other.
func TestOneThatDisagrees(t *testing.T) {
	shadowAt := func(light [3]float64, tones float64) [3]float64 { // the same colour, so many tones deeper
		s := bluish.under(light)
		y := colour.Luminance(s[0], s[1], s[2])
		by := colour.YOfValue(colour.ValueOfY(y)-tones) / y
		return [3]float64{by * s[0], by * s[1], by * s[2]}
	}
	straight := func(light [3]float64) [3]float64 { // as light as the shadow, of the light's own colour
		s := bluish.under(light)
		by := colour.Luminance(s[0], s[1], s[2]) / colour.Luminance(light[0], light[1], light[2])
		return [3]float64{by * light[0], by * light[1], by * light[2]}
	}
	skin := lightsTried[0]
	green := [3]float64{0.06, 0.2, 0.06}
	for _, tt := range []struct {
		source string
		shadow [3]float64
		want   []Remark
		off    float64 // tones
	}{
		{"as the light makes it", bluish.under(skin), []Remark{}, 0},
		{"0.4 tones deeper, under the limit", shadowAt(skin, 0.4), []Remark{}, 0.4},
		{"0.8 tones deeper", shadowAt(skin, 0.8), []Remark{TooDeep}, 0.8},
		{"0.8 tones lighter", shadowAt(skin, -0.8), []Remark{TooShallow}, -0.8},
		{"as light, straight toward black", straight(skin), []Remark{TowardBlack}, 0},
		{"green", green, []Remark{WrongHue}, math.NaN()},
	} {
		list := inOneLight(bluish)
		list[0] = painted(skin, tt.shadow)
		l := read(list)
		got := l.LocalColours[0]
		if tt.off == tt.off && math.Abs(got.TonesOff-tt.off) > 1e-6 {
			t.Errorf("%s: off by %g tones, want %g", tt.source, got.TonesOff, tt.off)
		}
		remarks := slices.DeleteFunc(slices.Clone(got.Remarks), func(r Remark) bool {
			return tt.off != tt.off && (r == TooShallow || r == TooDeep) // its depth is as it comes
		})
		if !slices.Equal(remarks, tt.want) {
			t.Errorf("%s: %v, want %v: %+v", tt.source, got.Remarks, tt.want, got)
		}
		if want := 0.8; len(tt.want) > 0 && math.Abs(*l.Agreement-want) > 1e-9 { // four of five that weigh the same
			t.Errorf("%s: agreement %g", tt.source, *l.Agreement)
		}
	}
}

// Where each has a light of its own there is no one light; of one alone nothing is said.
func TestNoOneLight(t *testing.T) {
	ratios := []Ratio{{0.2, 0.25, 0.4}, {0.6, 0.5, 0.4}, {0.1, 0.05, 0.02}, {0.3, 0.7, 0.3}, {0.05, 0.1, 0.5}}
	var list []families.Family
	for i, light := range lightsTried {
		list = append(list, painted(light, ratios[i].under(light)))
	}
	for n, want := range []*bool{nil, nil, new(false), new(false), new(false), new(false)} {
		l := read(list[:n])
		if (l.OneLight == nil) != (want == nil) || want != nil && *l.OneLight != *want {
			t.Errorf("of %d: %+v", n, l)
		}
		if (l.Ratio == nil) != (n == 0) || len(l.LocalColours) != n {
			t.Errorf("of %d: ratio %v", n, l.Ratio)
		}
	}
}

// Only sure ones count, unless it is said which do: those that the painter kept too, or not those refused.
func TestUnsureDoesNotCount(t *testing.T) {
	list := inOneLight(bluish)
	list[1] = painted(lightsTried[1], lightsTried[1])
	list[1].Confidence = new(0.4)
	if l := read(list); len(l.LocalColours) != 4 || *l.Agreement != 1 {
		t.Errorf("%+v", l)
	}
	l := Of(&families.Found{List: list}, func(int) bool { return true }, DefaultOptions())
	if len(l.LocalColours) != 5 || l.LocalColours[1].Agrees() {
		t.Errorf("%+v", l)
	}
	l = Of(&families.Found{List: list}, func(i int) bool { return i == 3 }, DefaultOptions())
	if len(l.LocalColours) != 1 || l.LocalColours[0].Family != 3 || l.Agreement != nil {
		t.Errorf("%+v", l)
	}
}

// A channel that is near black everywhere is told by none: it is taken to be as the others.
func TestUnknownChannel(t *testing.T) {
	yellow := [3]float64{0.8, 0.6, 0}
	l := read([]families.Family{painted(yellow, Ratio{0.25, 0.25, 1}.under(yellow))})
	if !slices.Equal(l.Untold, []string{"blue"}) || !sameRatio(*l.Ratio, Ratio{0.25, 0.25, 0.25}, 1e-9) {
		t.Errorf("%+v, %v", l.Ratio, l.Untold)
	}
	if l = read([]families.Family{painted([3]float64{}, [3]float64{})}); l.Ratio != nil {
		t.Errorf("black has the ratio %+v", l.Ratio)
	}
}

// The order of the local colours changes nothing, and one factor on all light no ratio, as long as
// no channel gets near black.
func TestLawsOfAgreement(t *testing.T) {
	light := rapid.Float64Range(0.1, 0.9)
	left := rapid.Float64Range(0.1, 0.9)
	rapid.Check(t, func(t *rapid.T) {
		by := rapid.Float64Range(0.5, 1.1).Draw(t, "factor")
		var list, scaled []families.Family
		for range rapid.IntRange(1, 7).Draw(t, "local colours") {
			l := [3]float64{light.Draw(t, "red"), light.Draw(t, "green"), light.Draw(t, "blue")}
			s := Ratio{left.Draw(t, "r"), left.Draw(t, "g"), left.Draw(t, "b")}.under(l)
			share := rapid.Float64Range(0.001, 0.5).Draw(t, "share")
			f := painted(l, s)
			g := painted(Ratio{by, by, by}.under(l), Ratio{by, by, by}.under(s))
			f.Share, g.Share = &share, &share
			list, scaled = append(list, f), append(scaled, g)
		}
		l, o := read(list), read(scaled)
		if !sameRatio(*l.Ratio, *o.Ratio, 1e-6) {
			t.Fatalf("%+v, and times %g %+v", l.Ratio, by, o.Ratio)
		}
		order := rand.New(rand.NewPCG(1, 2)).Perm(len(list))
		mixed := make([]families.Family, len(list))
		for i, k := range order {
			mixed[i] = list[k]
		}
		o = read(mixed)
		if *o.Ratio != *l.Ratio || (l.Agreement == nil) != (o.Agreement == nil) || l.Agreement != nil && *l.Agreement != *o.Agreement {
			t.Fatalf("in another order %+v, %+v", l, o)
		}
		for i, k := range order {
			if !slices.Equal(o.LocalColours[i].Remarks, l.LocalColours[k].Remarks) {
				t.Fatalf("in another order %v, %v", o.LocalColours[i], l.LocalColours[k])
			}
		}
	})
}

// Weighted medians by hand.
func TestMedian(t *testing.T) {
	for _, tt := range []struct {
		source string
		of     []weighed
		want   float64
	}{
		{"none", nil, 0},
		{"one", []weighed{{3, 2}}, 3},
		{"the middle of three", []weighed{{5, 1}, {1, 1}, {2, 1}}, 2},
		{"between two", []weighed{{1, 1}, {2, 1}}, 1.5},
		{"the heavier of two", []weighed{{1, 1}, {2, 1.1}}, 2},
		{"halves of several", []weighed{{4, 3}, {1, 1}, {2, 2}}, 3},
	} {
		if got := median(tt.of); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%s: %g, want %g", tt.source, got, tt.want)
		}
	}
}
