package wording

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
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
		t.Lines = []string{"No local colour tells of the light."}
		return t
	}
	t.Lines = []string{sayLie(l, list)}
	named := l.OneLight != nil && *l.OneLight
	var odd []string
	for i := range l.LocalColours {
		c, f := &l.LocalColours[i], &list[l.LocalColours[i].Family]
		t.Shadows = append(t.Shadows, lightShadow(c, f, named))
		if named && !c.Agrees() {
			odd = append(odd, Capitalised(nameIn(c.Family, l, list))+" disagrees: "+sayOdd(c, f)+".")
		}
	}
	if n := len(odd); n > mostNamed {
		odd = append(odd[:mostNamed-1], Capitalised(countWord(n-mostNamed+1))+" more disagree.")
	}
	if len(odd) == 0 {
		odd = []string{Capitalised(SayAgreement(l.Agreement, l.OneLight)) + "."}
	}
	if l.OneLight != nil && !*l.OneLight {
		odd = []string{fmt.Sprintf("No one light: %s of the local colours, by size, agree.", Percent(*l.Agreement))}
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
		tones = Tenth(least) + " to " + tones
	}
	switch n := len(l.LocalColours); n {
	case 1:
		return "The shadow lies " + tones + " below its light."
	case 2:
		return "Both shadows lie " + tones + " below their lights."
	default:
		return "All " + countWord(n) + " lie " + tones + " below their lights."
	}
}

// countWord is a small number in words.
func countWord(n int) string {
	words := [...]string{2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine", 10: "ten", 11: "eleven", 12: "twelve"}
	if n < 2 || n >= len(words) {
		return Whole(float64(n))
	}
	return words[n]
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
	return "the " + name
}

func hueWord(s analysis.Spot) string {
	if families.DefaultRules().Neutral(s) {
		return "grey"
	}
	return colour.HueName(s.Oklab.Hue())
}

// sayOdd says in what a local colour disagrees, short.
func sayOdd(c *light.LocalColour, f *families.Family) (said string) {
	for _, r := range c.Remarks {
		switch r {
		case light.TooDeep:
			said = joined(said, SayTones(c.TonesOff)+" deeper than the others")
		case light.TooShallow:
			said = joined(said, SayTones(-c.TonesOff)+" shallower than the others")
		case light.TowardBlack:
			said = joined(said, "it keeps its hue, straight toward black")
		case light.WrongHue:
			if c.HueOff == nil {
				said = joined(said, "another hue")
				continue
			}
			said = joined(said, fmt.Sprintf("its hue is %s°%soff, toward%s%s", Whole(math.Abs(*c.HueOff)), Nbsp, Nbsp,
				colour.HueToward(c.Expected.Oklab.Hue(), f.Shadow.Oklab.Hue(), *c.HueOff > 0)))
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
		forms := "one form shows"
		if d.Forms > 1 {
			forms = fmt.Sprintf("%d%sforms show", d.Forms, Nbsp)
		}
		said = append(said, "Lit "+from(d.Degrees)+", as "+forms+".")
	}
	for _, f := range l.Forms {
		if f.Verdict == light.Elsewhere {
			if flipped {
				f.X = 1 - f.X
			}
			said = append(said, Capitalised(nameIn(f.Family, l, list))+" form "+sayWhere(f.X, f.Y)+" seems to be lit "+from(f.Degrees)+".")
		}
	}
	return said
}

// sayWhere says in which third of the picture a place lies, in parts of its width and height.
func sayWhere(x, y float64) string {
	third := func(v float64, words [3]string) string { return words[min(max(int(3*v), 0), 2)] }
	said := strings.TrimSpace(third(y, [3]string{"upper", "", "lower"}) + " " + third(x, [3]string{"left", "", "right"}))
	switch said {
	case "":
		return "in the middle"
	case "upper":
		return "at the top"
	case "lower":
		return "at the foot"
	}
	return "at the " + said
}

// NoLightHere says why no shadows are proposed by a picture's own light; "" where they can be.
func NoLightHere(l *light.Light) string {
	switch {
	case l == nil || l.Ratio == nil:
		return "No local colour is sure enough to tell of this picture's light"
	case l.OneLight != nil && !*l.OneLight:
		return "No one light falls on this picture: its shadows don't agree"
	}
	return ""
}

// SayDepthTick is the figure of a number of tones on a scale; the first has its unit.
func SayDepthTick(tones float64, first bool) string {
	if first {
		return Whole(tones) + Nbsp + oneOrMore(tones, "tone")
	}
	return Whole(tones)
}

// oneOrMore is a word for one of a thing, or for another number of them.
func oneOrMore(n float64, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
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
