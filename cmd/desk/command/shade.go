package command

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/wording"
)

// shadeOptions are the options of desk shade.
var shadeOptions = []option{
	{name: "json"}, {"light", "warm|cool"}, {"shadow-hue", "H"}, {"turn", "T"}, {"gain", "G"},
	{"chroma", "C"}, {"equal", "lightness|layer-grey|seen-lightness"}, {"judge", "SHADOW"},
}

// runShade proposes colours to paint next. It returns the exit code.
func runShade(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, shadeOptions)
	if err != nil {
		return s.WrongUse(err)
	}
	r, err := planShade(a)
	switch {
	case err != nil:
		return s.WrongUse(err)
	case len(a.operands) == 0:
		return s.WrongUse(usageError{"shade a colour", "none was given", "write it as #rgb, #rrggbb or rgb(r g b), or - for a list"})
	case slices.Contains(a.operands, "-") && !isList(a.operands):
		return s.WrongUse(usageError{"read a list beside colours", "- takes the place of all of them", "give either colours or -"})
	case isList(a.operands):
		return readList(s, r.colour)
	}
	out := bufio.NewWriter(s.Out)
	code := ExitDone
	for _, text := range a.operands {
		if err := r.colour(out, text); err != nil {
			s.wrongColour("shade", text, err)
			code = exitWrongUse
		}
	}
	if err := out.Flush(); err != nil {
		return s.unwritten(err)
	}
	return code
}

// wrongColour says why a colour could not be used.
func (s Streams) wrongColour(verb, text string, err error) {
	if u, ok := err.(usageError); ok {
		s.Say(wording.Sentence(u.what, u.why, u.act))
		return
	}
	s.Say(wording.Explain(verb+" "+wording.Quote(text), err))
}

// shadeReport prints proposals.
type shadeReport struct {
	json    bool
	options propose.Options
	chosen  *colour.RGB // the shadow to judge; nil for none
	begun   bool
}

// planShade turns the options into a report. Errors are usageErrors.
func planShade(a arguments) (*shadeReport, error) {
	r := &shadeReport{json: a.given("json"), options: propose.DefaultOptions()}
	o := &r.options
	if a.given("light") {
		switch light := a.values["light"]; light {
		case "warm":
			o.ShadowHue = propose.WarmLightShadow
		case "cool":
			o.ShadowHue = propose.CoolLightShadow
		default:
			return nil, badValue("light", light, "it is not a light on offer", "choose warm or cool, or set --shadow-hue")
		}
	}
	for _, number := range []struct {
		name     string
		value    *float64
		from, to float64
		why      string
	}{
		{"shadow-hue", &o.ShadowHue, 0, 360, "it is not a hue from 0 to 360 degrees"},
		{"turn", &o.Turn, 0, 1, "it is not a share of the way from 0 to 1"},
		{"gain", &o.Gain, -0.5, 2, "it is not a gain from -0.5 to 2"},
		{"chroma", &o.AccentChroma, 0, 0.4, "it is not an Oklch chroma from 0 to 0.4"},
	} {
		if err := a.number(number.name, number.value, number.from, number.to, number.why); err != nil {
			return nil, err
		}
	}
	if err := r.equal(a); err != nil {
		return nil, err
	}
	return r, r.judge(a)
}

// equal reads --equal.
func (r *shadeReport) equal(a arguments) error {
	if !a.given("equal") {
		return nil
	}
	switch by := a.values["equal"]; by {
	case "lightness":
		r.options.EqualBy = propose.ByLightness
	case "layer-grey":
		r.options.EqualBy = propose.ByLayerGrey
	case "seen-lightness":
		r.options.EqualBy = propose.BySeenLightness
	default:
		return badValue("equal", by, "accents can't be equal by that", "choose lightness, layer-grey or seen-lightness")
	}
	return nil
}

// judge reads --judge.
func (r *shadeReport) judge(a arguments) error {
	if !a.given("judge") {
		return nil
	}
	c, err := colour.Parse(a.values["judge"])
	if err != nil {
		return badValue("judge", a.values["judge"], "it is not a colour", "write it as #rgb, #rrggbb or rgb(r g b)")
	}
	r.chosen = &c
	return nil
}

// number reads the option's value into v, if it was given.
func (a arguments) number(name string, v *float64, from, to float64, why string) error {
	if !a.given(name) {
		return nil
	}
	text := a.values[name]
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(n) || n < from || n > to {
		return badValue(name, text, why, fmt.Sprintf("write a number such as %g", *v))
	}
	*v = n
	return nil
}

// colour proposes colours for the one written in text and prints them. Failures to write
// show when out is flushed.
func (r *shadeReport) colour(out io.Writer, text string) error {
	c, err := colour.Parse(text)
	if err != nil {
		return err
	}
	base := analysis.SpotOf(c)
	said := shadeSaid{Shades: propose.Shade(base, r.options)}
	if r.chosen != nil {
		shadow := analysis.SpotOf(*r.chosen)
		if shadow.Lightness > base.Lightness {
			return usageError{"judge " + r.chosen.Hex() + " as the shadow of " + c.Hex(), "it is the lighter of the two", "give the local colour first"}
		}
		judged := propose.JudgeShadow(base, shadow, families.DefaultRules(), said.Options.ShadowHue)
		said.Judged = &judged
	}
	if r.json {
		_ = jsonLine(out, said)
		return nil
	}
	if r.begun {
		_, _ = io.WriteString(out, "\n")
	}
	r.begun = true
	writeShades(out, said)
	return nil
}

// shadeSaid is what desk shade says of a colour.
type shadeSaid struct {
	*propose.Shades
	Judged *propose.Judged `json:"judged,omitempty"` // of a shadow given by --judge
}
