package wording

import (
	"fmt"
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
)

// LightText is what is said of a picture's light, sentences without their stops.
type LightText struct {
	Title string   // whether the shadows agree
	Lines []string // what the light is, what disagrees, and from where it comes
}

// NoOneLight says that the shadows don't agree.
const NoOneLight = "no one light: the shadows don't agree"

// SayLight says what the local colours of a picture, which are listed, say of its light.
func SayLight(l *light.Light, list []families.Family) LightText {
	if l.Ratio == nil {
		return LightText{Title: "no local colour tells of the light"}
	}
	text := LightText{Title: SayAgreement(l.Agreement, l.OneLight), Lines: []string{sayDepths(l, list)}}
	one := l.OneLight == nil || *l.OneLight
	if one {
		text.Lines = append(text.Lines, sayWhite(l))
	}
	if l.OneLight != nil && one {
		for _, c := range l.LocalColours {
			if !c.Agrees() {
				text.Lines = append(text.Lines, list[c.Family].Light.Colour.Hex()+" disagrees: "+sayDisagrees(&c, list[c.Family].Shadow.Oklab.Hue()))
			}
		}
	}
	text.Lines = append(text.Lines, sayDirection(l)...)
	for _, f := range l.Forms {
		if f.Verdict == light.Elsewhere {
			text.Lines = append(text.Lines, fmt.Sprintf("a form of %s, %s, seems to be lit %s", nameIn(f.Family, l, list), sayWhere(f.X, f.Y), sayFrom(f.Degrees)))
		}
	}
	return text
}

// SayAgreement says whether one light falls on a picture, in which the share of the local colours
// that agree is known, or of one local colour alone nil.
func SayAgreement(agreement *float64, one *bool) string {
	switch {
	case agreement == nil || one == nil:
		return "one local colour alone, beside which none can disagree"
	case !*one:
		return NoOneLight
	case *agreement == 1:
		return "one light: all shadows agree"
	}
	return "one light: " + Percent(*agreement) + " of the local colours, by size, agree"
}

// sayDepths says how deep the shadows are, from the shallowest to the deepest.
func sayDepths(l *light.Light, list []families.Family) string {
	least, most := math.Inf(1), math.Inf(-1)
	for _, c := range l.LocalColours {
		tones := list[c.Family].Tones
		least, most = min(least, tones), max(most, tones)
	}
	if Tenth(least) == Tenth(most) {
		return "shadows " + SayTones(most) + " deep"
	}
	return "shadows " + Tenth(least) + " to " + SayTones(most) + " deep"
}

// sayWhite says what white would be in the shadow of a picture's light.
func sayWhite(l *light.Light) string {
	said := "white would be " + l.WhiteInShadow.Colour.Hex() + " in the shadow"
	if families.DefaultRules().Neutral(*l.WhiteInShadow) {
		return said + ", neutral beside the light"
	}
	return said + ", " + colour.HueName(l.WhiteInShadow.Oklab.Hue()) + " beside the light"
}

// sayDisagrees says in what a local colour disagrees whose shadow has an Oklch hue, each with its
// figure.
func sayDisagrees(c *light.LocalColour, hue float64) (said string) {
	for _, r := range c.Remarks {
		switch r {
		case light.TooDeep:
			said = joined(said, SayTones(c.TonesOff)+" deeper than the others")
		case light.TooShallow:
			said = joined(said, SayTones(-c.TonesOff)+" shallower than the others")
		case light.TowardBlack:
			said = joined(said, fmt.Sprintf("straight toward black (colour difference %s)", Tenth(c.ColourOff)))
		case light.WrongHue:
			if c.HueOff == nil {
				said = joined(said, fmt.Sprintf("another hue (colour difference %s)", Tenth(c.ColourOff)))
				continue
			}
			said = joined(said, fmt.Sprintf("a hue %s° off, toward %s", Whole(math.Abs(*c.HueOff)), colour.HueToward(c.Expected.Oklab.Hue(), hue, *c.HueOff > 0)))
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
	forms := "one form shows"
	if d.Forms > 1 {
		forms = fmt.Sprintf("%d forms show", d.Forms)
	}
	return []string{fmt.Sprintf("lit %s, as %s: %s° from the right upwards, give or take %s°", sayFrom(d.Degrees), forms, Whole(d.Degrees), Whole(d.Uncertainty))}
}

// sayFrom says where light comes from: 0 degrees from the right, 90 from above.
func sayFrom(degrees float64) string {
	return [8]string{
		"from the right", "from the upper right", "from above", "from the upper left",
		"from the left", "from the lower left", "from below", "from the lower right",
	}[int(math.Round(degrees/45))%8]
}

// SayRelight says what light was chosen.
func SayRelight(c light.Change) string {
	said := ""
	if c.Warmer != 0 {
		way := "warmer"
		if c.Warmer < 0 {
			way = "cooler"
		}
		said = Whole(math.Abs(c.Warmer)) + Nbsp + "mired " + way
	}
	if c.Deeper != 0 {
		way := "deeper"
		if c.Deeper < 0 {
			way = "shallower"
		}
		said = joined(said, "shadows "+SayTones(math.Abs(c.Deeper))+" "+way)
	}
	if said == "" {
		return "the picture's own"
	}
	return said
}
