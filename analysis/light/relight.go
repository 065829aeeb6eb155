package light

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
)

// Change is how a chosen light differs from the picture's own.
type Change struct {
	// Warmer is by how much the light is warmer beside the surrounding light, in mired
	// (a million over the colour temperature in kelvin) along the daylight locus (DAYLIGHT), taken
	// from the display's white: MostCooler to MostWarmer. So a warmer light has cooler shadows.
	Warmer float64 `json:"warmer"`
	Deeper float64 `json:"deeper"` // by how many tones the shadows are deeper, -3 to 3
}

const white = 6504.0 // kelvin: D65, the display's white (CIE15)

// How far a light may be warmer or cooler, in mired: the daylight locus goes from 4000 to 25000 K,
// 250 to 40 mired, and the display's white has 154 (computed). And by how many tones shadows may
// be deeper (our choice).
const (
	MostWarmer = 96.0
	MostCooler = -113.0
	MostDeeper = 3.0
)

// Valid returns a change inside of its ranges; a NaN is none.
func (c Change) Valid() Change {
	within := func(v, from, to float64) float64 {
		if v != v {
			return 0
		}
		return max(from, min(v, to))
	}
	return Change{within(c.Warmer, MostCooler, MostWarmer), within(c.Deeper, -MostDeeper, MostDeeper)}
}

// Under is what a chosen light makes of a picture's local colours.
type Under struct {
	Change Change  `json:"change"` // as used, inside of its ranges
	Ratio  Ratio   `json:"ratio"`
	Relit  []Relit `json:"local_colours"` // the sure ones, in the families' order
}

// Relit is a local colour in a chosen light: its light side as it is, and the shadow that the
// light would give it.
type Relit struct {
	Family int           `json:"family"` // its index among the families
	Light  analysis.Spot `json:"light"`
	Was    analysis.Spot `json:"was"`    // its shadow in the picture
	Shadow propose.Step  `json:"shadow"` // from the light side
}

// Relight returns the shadows that a chosen light would give to the sure local colours of a
// picture. ok is false where the picture's own light isn't known.
func (l *Light) Relight(list []families.Family, c Change) (u Under, ok bool) {
	u = Under{Change: c.Valid(), Relit: []Relit{}}
	if l.Ratio == nil {
		return u, false
	}
	u.Ratio = l.deeper(l.Ratio.warmer(u.Change.Warmer), list, u.Change.Deeper)
	for _, own := range l.LocalColours {
		f := &list[own.Family]
		u.Relit = append(u.Relit, Relit{own.Family, f.Light, f.Shadow, u.Ratio.Shadow(f.Light)})
	}
	return u, true
}

// warmer returns the ratio in a light that is so many mired warmer, and as strong.
func (r Ratio) warmer(mired float64) Ratio {
	red, green, blue := colour.DaylightOf(1e6 / (1e6/white + mired))
	was := [3]float64{}
	was[0], was[1], was[2] = colour.DaylightOf(white)
	f := r.channels()
	for c, is := range [3]float64{red, green, blue} {
		f[c] *= was[c] / is
	}
	by := colour.Luminance(r.Red, r.Green, r.Blue) / colour.Luminance(f[0], f[1], f[2])
	return ratioOf(f).times(by)
}

// deeper returns the ratio times the one factor by which the shadows lie so many tones deeper: by
// the median of them, since one factor is another step of value on each. Nothing gets darker than
// black, and no shadow lighter than its light.
func (l *Light) deeper(r Ratio, list []families.Family, tones float64) Ratio {
	if tones == 0 {
		return r
	}
	depth := func(r Ratio) float64 {
		var depths []weighed
		for _, own := range l.LocalColours {
			p := pairOf(own.Family, &list[own.Family])
			depths = append(depths, weighed{reading(p.light).Value - reading(r.under(p.light)).Value, p.weight})
		}
		return median(depths)
	}
	want := depth(r) + tones
	least := 1e-3 // of the light: darker than any shadow that is seen
	most := 1 / max(r.Red, r.Green, r.Blue)
	part := colour.Bisect(func(part float64) bool { return depth(r.times(most*math.Pow(least, part))) < want })
	return r.times(most * math.Pow(least, part))
}

// Shadow returns the shadow that the light of a ratio would give to a colour in the light, from 1:
// a colour to paint, in the display's gamut.
func (r Ratio) Shadow(light analysis.Spot) propose.Step {
	return propose.Under(light, r.Red, r.Green, r.Blue)
}

// Light returns the colour in the light of which a colour would be the shadow.
func (r Ratio) Light(shadow analysis.Spot) propose.Step { return r.Inverse().Shadow(shadow) }
