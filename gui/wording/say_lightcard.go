package wording

import (
	"math"
	"reflect"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/gui/language"
)

// LightCardText is what the card of a picture's light shows, ready to be drawn.
type LightCardText struct {
	Lines   []string      // how deep the shadows lie, and whether they agree; a sentence each
	Quiet   []string      // from where the light comes
	Shadows []LightShadow // of the local colours that count
	Rule    [2]float64    // how many tones deep a shadow is that reads
}

// LightShadow is a shadow in the card's diagram.
type LightShadow struct {
	Colour   colour.RGB
	Tones    float64  // it lies below its light
	HueShift *float64 // degrees from light to shadow, (-180, 180]; nil beside a neutral
	Deep     bool     // its depth disagrees with the others'
	Hue      bool     // its colour does
}

// Equal reports whether a card of either shows the same.
func (t LightCardText) Equal(o LightCardText) bool { return reflect.DeepEqual(t, o) }

// mostNamed is how many lines there are at most on what disagrees (our choice).
const mostNamed = 3

// SayLightCard is the card of a light, nil for none that is known, and the local colours that it
// was read from. One that disagrees is told apart only where the others make one light. Left and
// right are exchanged where the picture is shown flipped: words and mirror say the same.
func SayLightCard(l *light.Light, list []families.Family, rules families.Rules, flipped bool) LightCardText {
	t := LightCardText{Rule: [2]float64{rules.LeastTones, rules.MostTones}}
	if l == nil || l.Ratio == nil {
		t.Lines = []string{language.Say("No local colour tells of the light.")}
		return t
	}
	t.Lines = []string{sayLie(l, list)}
	named := l.OneLight != nil && *l.OneLight
	var odd []string
	for i := range l.LocalColours {
		c, f := &l.LocalColours[i], &list[l.LocalColours[i].Family]
		t.Shadows = append(t.Shadows, lightShadow(c, f, named))
		if named && !c.Agrees() {
			odd = append(odd, language.Say("%s disagrees: %s.", Capitalised(nameIn(c.Family, l, list)), sayOdd(c, f)))
		}
	}
	if n := len(odd); n > mostNamed {
		odd = append(odd[:mostNamed-1], language.Say("%s more disagree.", Capitalised(countWord(n-mostNamed+1))))
	}
	if len(odd) == 0 {
		odd = []string{Stopped(Capitalised(SayAgreement(l.Agreement, l.OneLight)))}
	}
	if l.OneLight != nil && !*l.OneLight {
		odd = []string{language.Say("No one light: %s of the local colours, by size, agree.", Percent(*l.Agreement))}
	}
	t.Lines, t.Quiet = append(t.Lines, odd...), sayLit(l, list, flipped)
	return t
}

// lightShadow is a shadow in the diagram; named says that it stands out where it disagrees.
func lightShadow(c *light.LocalColour, f *families.Family, named bool) LightShadow {
	s := LightShadow{Colour: f.Shadow.Colour, Tones: f.Tones, HueShift: f.HueTurn}
	if named {
		s.Deep = slices.Contains(c.Remarks, light.TooDeep) || slices.Contains(c.Remarks, light.TooShallow)
		s.Hue = slices.Contains(c.Remarks, light.WrongHue) || slices.Contains(c.Remarks, light.TowardBlack)
	}
	return s
}

// sayLie says how many tones the shadows lie below their lights.
func sayLie(l *light.Light, list []families.Family) string {
	least, most := math.Inf(1), math.Inf(-1)
	for _, c := range l.LocalColours {
		least, most = min(least, list[c.Family].Tones), max(most, list[c.Family].Tones)
	}
	tones := SayTones(most)
	if Tenth(least) != Tenth(most) {
		tones = language.Say("%s to %s", Tenth(least), SayTones(most))
	}
	switch n := len(l.LocalColours); n {
	case 1:
		return language.Say("The shadow lies %s below its light.", tones)
	case 2:
		return language.Say("Both shadows lie %s below their lights.", tones)
	default:
		return language.Say("All %s lie %s below their lights.", countWord(n), tones)
	}
}

// countWord is a small number in words.
func countWord(n int) string {
	words := [...]language.Words{2: "two¦number", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine", 10: "ten", 11: "eleven", 12: "twelve"}
	if n < 2 || n >= len(words) {
		return Whole(float64(n))
	}
	return words[n].String()
}

// nameIn names a local colour by its hue: "the yellow"; with its code too where another one that
// counts has the same name.
func nameIn(family int, l *light.Light, list []families.Family) string {
	name, same := hueWord(list[family].Light), 0
	for _, c := range l.LocalColours {
		if hueWord(list[c.Family].Light) == name {
			same++
		}
	}
	if same > 1 {
		name += Nbsp + list[family].Light.Colour.Hex()
	}
	return language.Say("the %s", name)
}

// theColour is a local colour by its hue.
func theColour(hue string) string { return language.Say("the\u00a0%s", hue) }

func hueWord(s analysis.Spot) string {
	if families.DefaultRules().Neutral(s) {
		return language.Say("grey")
	}
	return language.Name(colour.HueName(s.Oklab.Hue()))
}

// sayOdd says in what a local colour disagrees, short.
func sayOdd(c *light.LocalColour, f *families.Family) (said string) {
	for _, r := range c.Remarks {
		switch r {
		case light.TooDeep:
			said = joined(said, language.Say("%s deeper than the others", SayTones(c.TonesOff)))
		case light.TooShallow:
			said = joined(said, language.Say("%s shallower than the others", SayTones(-c.TonesOff)))
		case light.TowardBlack:
			said = joined(said, language.Say("it keeps its hue, straight toward black"))
		case light.WrongHue:
			if c.HueOff == nil {
				said = joined(said, language.Say("another hue"))
				continue
			}
			said = joined(said, language.Say("its hue is %s°"+Nbsp+"off, toward"+Nbsp+"%s", Whole(math.Abs(*c.HueOff)),
				language.Name(colour.HueToward(c.Expected.Oklab.Hue(), f.Shadow.Oklab.Hue(), *c.HueOff > 0))))
		}
	}
	return said
}

// sayLit says from where the light comes, and which forms seem to be lit from elsewhere.
func sayLit(l *light.Light, list []families.Family, flipped bool) (said []string) {
	from := func(degrees float64) string {
		if flipped {
			degrees = math.Mod(540-degrees, 360)
		}
		return sayFrom(degrees)
	}
	if d := l.Direction; d != nil {
		said = append(said, language.Count(d.Forms, "Lit %[2]s, as one form shows.", "Lit %[2]s, as %[1]d"+Nbsp+"forms show.", from(d.Degrees)))
	}
	odd := func(name string, f light.Lighting) {
		if f.Verdict == light.Elsewhere {
			if flipped {
				f.X = 1 - f.X
			}
			said = append(said, language.Say("%s form %s seems lit %s.", Capitalised(name), sayWhere(f.X, f.Y), from(f.Degrees)))
		}
	}
	for _, f := range l.Forms {
		odd(nameIn(f.Family, l, list), f.Lighting)
	}
	for _, f := range l.Others {
		odd(language.Say("the %s", hueWord(f.Light)+Nbsp+f.Light.Colour.Hex()), f.Lighting)
	}
	return said
}

// sayWhere says in which third of the picture a place lies, in parts of its width and height.
func sayWhere(x, y float64) string {
	third := func(v float64) int { return min(max(int(3*v), 0), 2) }
	return places[third(y)][third(x)].String()
}

// places are the thirds of a picture, from above and from the left.
var places = [3][3]language.Words{
	{"at the upper left", "at the top", "at the upper right"},
	{"at the left", "in the middle", "at the right"},
	{"at the lower left", "at the foot", "at the lower right"},
}

// NoLightHere says why no shadows are proposed by a picture's own light; "" where they can be.
func NoLightHere(l *light.Light) string {
	switch {
	case l == nil || l.Ratio == nil:
		return language.Say("No local colour is sure enough to tell of this picture's light")
	case l.OneLight != nil && !*l.OneLight:
		return language.Say("No one light falls on this picture: its shadows don't agree")
	}
	return ""
}

// SayDepthTick is the figure of a number of tones on a scale; the first has its unit.
func SayDepthTick(tones float64, first bool) string {
	if first {
		return language.Count(int(math.Round(tones)), "%d"+Nbsp+"tone", "%d"+Nbsp+"tones")
	}
	return Whole(tones)
}

// SayHueTick is the figure of a hue shift in degrees on a scale.
func SayHueTick(degrees float64, _ bool) string {
	switch {
	case degrees == 0:
		return "0"
	case degrees > 0:
		return "+" + Whole(degrees) + "°"
	}
	return Whole(degrees) + "°"
}
