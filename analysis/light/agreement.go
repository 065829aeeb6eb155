package light

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// agree fills in all but the direction.
func (l *Light) agree(pairs []pair) {
	r, known, ok := estimate(pairs)
	if !ok {
		return
	}
	depths := make([]weighed, len(pairs))
	for i, p := range pairs {
		depths[i] = weighed{p.depth, p.weight}
	}
	l.Ratio, l.Tones = &r, new(median(depths))
	for c, name := range [3]string{"red", "green", "blue"} {
		if !known[c] {
			l.Untold = append(l.Untold, name)
		}
	}
	l.WhiteInShadow, l.LightColour = new(r.WhiteInShadow()), new(r.LightBesideShadow())
	for _, p := range pairs {
		l.LocalColours = append(l.LocalColours, p.judge(r, l.Options))
	}
	if a, ok := l.agreement(pairs); ok {
		l.Agreement, l.OneLight = &a, new(a >= l.Options.OneLightFrom)
	}
}

// agreement returns how far the local colours agree, 0 to 1: the share, by weight, of those that
// bear the ratio out; 0 where less than two do, since some ratio fits any one. ok is false for
// less than two local colours.
func (l *Light) agreement(pairs []pair) (a float64, ok bool) {
	var all, agree []float64
	for i, p := range pairs {
		all = append(all, p.weight)
		if l.LocalColours[i].Agrees() {
			agree = append(agree, p.weight)
		}
	}
	switch {
	case len(all) < 2:
		return 0, false
	case len(agree) == len(all):
		return 1, true
	case len(agree) < 2:
		return 0, true
	}
	return sumOf(agree) / sumOf(all), true
}

// under returns what a colour's linear light becomes in the shadow.
func (r Ratio) under(light [3]float64) [3]float64 {
	for c, factor := range r.channels() {
		light[c] *= factor
	}
	return light
}

// judge says how a pair stands to a ratio.
func (p *pair) judge(r Ratio, o Options) LocalColour {
	expected, shadow := reading(r.under(p.light)), reading(p.shadow)
	l := LocalColour{
		Family: p.family, Expected: expected,
		TonesOff:  expected.Value - shadow.Value,
		CIEDE2000: colour.CIEDE2000(expected.Lab, shadow.Lab),
		Remarks:   []Remark{},
	}
	wanted := atLightness(r.under(p.light), shadow)
	l.ColourOff = colour.CIEDE2000(wanted, shadow.Lab)
	rules := families.DefaultRules()
	if !rules.Neutral(expected) && !rules.Neutral(shadow) {
		l.HueOff = new(families.TurnBetween(expected.Oklab.Hue(), shadow.Oklab.Hue()))
	}
	switch {
	case l.TonesOff >= o.MostTonesOff:
		l.Remarks = append(l.Remarks, TooDeep)
	case l.TonesOff <= -o.MostTonesOff:
		l.Remarks = append(l.Remarks, TooShallow)
	}
	if l.ColourOff < o.MostColourOff {
		return l
	}
	black := atLightness(p.light, shadow)
	switch {
	case colour.CIEDE2000(black, wanted) >= o.MostColourOff && 2*colour.CIEDE2000(black, shadow.Lab) <= l.ColourOff:
		l.Remarks = append(l.Remarks, TowardBlack)
	case l.HueOff == nil || math.Abs(*l.HueOff) >= o.MostHueOff:
		l.Remarks = append(l.Remarks, WrongHue)
	}
	return l
}

// atLightness returns the same colour of light, as strong as has the lightness of a reading; a
// grey where there is no light.
func atLightness(light [3]float64, s analysis.Spot) colour.Lab {
	y, want := colour.Luminance(light[0], light[1], light[2]), colour.LuminanceOf(s.Lightness)
	if !(y > 0) {
		return colour.Lab{L: s.Lightness}
	}
	by := want / y
	return colour.LabOf(by*light[0], by*light[1], by*light[2])
}
