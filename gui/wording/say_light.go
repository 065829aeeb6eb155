package wording

import (
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/gui/language"
)

// LightText is what is said of a picture's light, sentences without their stops.
type LightText struct {
	Title string   // whether the shadows agree
	Lines []string // what the light is, what disagrees, and from where it comes
}

// NoOneLight says that the shadows don't agree.
const NoOneLight language.Words = "no one light: the shadows don't agree"

// SayLight says what the local colours of a picture, which are listed, say of its light.
func SayLight(l *light.Light, list []families.Family) LightText {
	if l.Ratio == nil {
		return LightText{Title: language.Say("no local colour tells of the light")}
	}
	text := LightText{Title: SayAgreement(l.Agreement, l.OneLight), Lines: []string{sayDepths(l, list)}}
	one := l.OneLight == nil || *l.OneLight
	if one {
		text.Lines = append(text.Lines, sayWhite(l))
	}
	if l.OneLight != nil && one {
		for _, c := range l.LocalColours {
			if !c.Agrees() {
				text.Lines = append(text.Lines, language.Say("%s disagrees: %s", list[c.Family].Light.Colour.Hex(), sayDisagrees(&c, list[c.Family].Shadow.Oklab.Hue())))
			}
		}
	}
	text.Lines = append(text.Lines, sayDirection(l)...)
	for _, f := range l.Forms {
		if f.Verdict == light.Elsewhere {
			text.Lines = append(text.Lines, language.Say("a form of %s, %s, seems lit %s", nameIn(f.Family, l, list), sayWhere(f.X, f.Y), sayFrom(f.Degrees)))
		}
	}
	for _, f := range l.Others {
		if f.Verdict == light.Elsewhere {
			text.Lines = append(text.Lines, language.Say("a form of %s, %s, seems lit %s", f.Light.Colour.Hex(), sayWhere(f.X, f.Y), sayFrom(f.Degrees)))
		}
	}
	return text
}

// SayAgreement says whether one light falls on a picture, in which the share of the local colours
// that agree is known, or of one local colour alone nil.
func SayAgreement(agreement *float64, one *bool) string {
	switch {
	case agreement == nil || one == nil:
		return language.Say("one local colour alone, beside which none can disagree")
	case !*one:
		return NoOneLight.String()
	case *agreement == 1:
		return language.Say("one light: all shadows agree")
	}
	return language.Say("one light: %s of the local colours, by size, agree", Percent(*agreement))
}

// sayDepths says how deep the shadows are, from the shallowest to the deepest.
func sayDepths(l *light.Light, list []families.Family) string {
	least, most := math.Inf(1), math.Inf(-1)
	for _, c := range l.LocalColours {
		tones := list[c.Family].Tones
		least, most = min(least, tones), max(most, tones)
	}
	if Tenth(least) == Tenth(most) {
		return language.Say("shadows %s deep", SayTones(most))
	}
	return language.Say("shadows %s to %s deep", Tenth(least), SayTones(most))
}

// sayWhite says what white would be in the shadow of a picture's light.
func sayWhite(l *light.Light) string {
	code := l.WhiteInShadow.Colour.Hex()
	if families.DefaultRules().Neutral(*l.WhiteInShadow) {
		return language.Say("white would be %s in the shadow, neutral beside the light", code)
	}
	return language.Say("white would be %s in the shadow, %s beside the light", code, language.Name(colour.HueName(l.WhiteInShadow.Oklab.Hue())))
}

// sayDisagrees says in what a local colour disagrees whose shadow has an Oklch hue, each with its
// figure.
func sayDisagrees(c *light.LocalColour, hue float64) (said string) {
	for _, r := range c.Remarks {
		switch r {
		case light.TooDeep:
			said = joined(said, language.Say("%s deeper than the others", SayTones(c.TonesOff)))
		case light.TooShallow:
			said = joined(said, language.Say("%s shallower than the others", SayTones(-c.TonesOff)))
		case light.TowardBlack:
			said = joined(said, language.Say("straight toward black (colour difference %s)", Tenth(c.ColourOff)))
		case light.WrongHue:
			if c.HueOff == nil {
				said = joined(said, language.Say("another hue (colour difference %s)", Tenth(c.ColourOff)))
				continue
			}
			said = joined(said, language.Say("a hue %s° off, toward %s", Whole(math.Abs(*c.HueOff)), language.Name(colour.HueToward(c.Expected.Oklab.Hue(), hue, *c.HueOff > 0))))
		}
	}
	return said
}

// sayDirection says from where the light seems to come; nothing where no form tells.
func sayDirection(l *light.Light) []string {
	d := l.Direction
	if d == nil {
		return nil
	}
	return []string{language.Count(d.Forms, "lit %[2]s, as one form shows: %[3]s° from the right upwards, give or take %[4]s°",
		"lit %[2]s, as %[1]d forms show: %[3]s° from the right upwards, give or take %[4]s°", sayFrom(d.Degrees), Whole(d.Degrees), Whole(d.Uncertainty))}
}

// sayFrom says where light comes from: 0 degrees from the right, 90 from above.
func sayFrom(degrees float64) string {
	return [8]language.Words{
		"from the right", "from the upper right", "from above", "from the upper left",
		"from the left", "from the lower left", "from below", "from the lower right",
	}[int(math.Round(degrees/45))%8].String()
}

// SayWarmer names a number of mired by which a light is warmer.
func SayWarmer(mired float64) string {
	if mired < 0 {
		return language.Say("Cooler")
	}
	return language.Say("Warmer")
}

// SayMired is the number without its sign.
func SayMired(mired float64) string { return language.Say("%s\u00a0mired", Whole(math.Abs(mired))) }

// SayDeeper names a number of tones by which shadows lie deeper.
func SayDeeper(tones float64) string {
	if tones < 0 {
		return language.Say("Shallower")
	}
	return language.Say("Deeper")
}

// SayRelight says what light was chosen.
func SayRelight(c light.Change) string {
	warmer, deeper := Whole(math.Abs(c.Warmer)), SayTones(math.Abs(c.Deeper))
	said := ""
	switch {
	case c.Warmer > 0:
		said = language.Say("%s\u00a0mired warmer", warmer)
	case c.Warmer < 0:
		said = language.Say("%s\u00a0mired cooler", warmer)
	}
	switch {
	case c.Deeper > 0:
		said = joined(said, language.Say("shadows %s deeper", deeper))
	case c.Deeper < 0:
		said = joined(said, language.Say("shadows %s shallower", deeper))
	}
	if said == "" {
		return language.Say("the picture's own")
	}
	return said
}
