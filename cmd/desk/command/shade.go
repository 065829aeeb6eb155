package command

import (
	"fmt"
	"io"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// shadeOptions are the options of desk shade.
var shadeOptions = []option{
	{name: "json"}, {"shadow", "cool|warm"}, {"shadow-hue", "H"}, {"hue-shift", "S"}, {"gain", "G"},
	{"chroma", "C"}, {"equal", "lightness|layer-grey|seen-lightness"}, {"judge", "SHADOW"},
	{"as", "PICTURE"},
}

// shadeReport is what desk shade says of a colour.
type shadeReport struct {
	*propose.Shades
	Judged    *propose.Judged `json:"judged,omitempty"`     // of a shadow given by --judge
	AsPicture *asPicture      `json:"as_picture,omitempty"` // of a picture given by --as
}

// asPicture is what the light of a picture would make of a colour.
type asPicture struct {
	File      string       `json:"file"`
	Ratio     light.Ratio  `json:"ratio"`
	Agreement *float64     `json:"agreement"`
	OneLight  *bool        `json:"one_light"`
	Shadow    propose.Step `json:"shadow"` // were the colour in the light
	Light     propose.Step `json:"light"`  // were it in the shadow
}

// asIn returns what the light of a picture would make of a colour; nil where none was given.
func (p *litPicture) asIn(base analysis.Spot) *asPicture {
	if p == nil {
		return nil
	}
	l := p.light
	return &asPicture{p.File, *l.Ratio, l.Agreement, l.OneLight, l.Ratio.Shadow(base), l.Ratio.Light(base)}
}

// pictureGiven reads the light of the picture given by --as; nil where none was. Its errors are
// usageErrors or sentences.
func (c *call) pictureGiven() (*litPicture, error) {
	var path string
	if err := c.file("as", &path, "name a picture file", "", "-"); err != nil || path == "" {
		return nil, err
	}
	p, err := readLight(path, analysis.White)
	if err == nil && p.light.Ratio == nil {
		err = unlit("take the light of %s", path)
	}
	return &p, err
}

// runShade proposes colours to paint next.
func runShade(c *call) error {
	options, err := shadeOptionsOf(c.arguments)
	if err != nil {
		return err
	}
	var chosen colour.RGB
	if err := c.colour("judge", &chosen); err != nil {
		return err
	}
	picture, err := c.pictureGiven()
	if err != nil {
		return err
	}
	return colourCommand{deed: "shade a colour", on: "shade %s", of: func(colours []analysis.Spot) error {
		base, shadow := colours[0], analysis.SpotOf(chosen)
		r := shadeReport{Shades: propose.Shade(base, options), AsPicture: picture.asIn(base)}
		if c.given("judge") {
			if shadow.Lightness > base.Lightness {
				return usageError{wording.Part("judge %s as the shadow of %s", wording.Quote(chosen.Hex()), wording.Quote(base.Colour.Hex())), "it is the lighter of the two", "give the local colour first"}
			}
			judged := propose.JudgeShadow(base, shadow, families.DefaultRules(), r.Options.ShadowHue)
			r.Judged = &judged
		}
		c.report(r, r.write)
		return nil
	}}.run(c)
}

// shadeOptionsOf reads how colours are made. Errors are usageErrors.
func shadeOptionsOf(a arguments) (propose.Options, error) {
	o := propose.DefaultOptions()
	shadows := map[string]float64{"cool": propose.WarmLightShadow, "warm": propose.CoolLightShadow} // as the light is, the shadow is not
	if err := oneOf(a, "shadow", &o.ShadowHue, shadows, "it is not a shadow on offer", "choose cool or warm, or set --shadow-hue"); err != nil {
		return o, err
	}
	for _, n := range []number{
		{name: "shadow-hue", value: &o.ShadowHue, from: 0, to: 360, why: "it is not a hue from 0 to 360 degrees"},
		{name: "hue-shift", value: &o.Turn, from: 0, to: 1, why: "it is not a hue shift from 0 to 1"},
		{name: "gain", value: &o.Gain, from: -0.5, to: 2, why: "it is not a gain from -0.5 to 2"},
		{name: "chroma", value: &o.AccentChroma, from: 0, to: 0.4, why: "it is not an Oklch chroma from 0 to 0.4"},
	} {
		n.act = wording.On("write a number such as %s", strconv.FormatFloat(*n.value, 'g', -1, 64))
		if err := a.number(n); err != nil {
			return o, err
		}
	}
	kept := map[string]propose.EqualBy{"lightness": propose.ByLightness, "layer-grey": propose.ByLayerGrey, "seen-lightness": propose.BySeenLightness}
	return o, oneOf(a, "equal", &o.EqualBy, kept, "accents can't be equal by that", "choose lightness, layer-grey or seen-lightness")
}

// nameWidth is the first column of the reports on proposed colours.
const nameWidth = 18

// write prints the proposals for a colour.
func (s shadeReport) write(w io.Writer) {
	o := s.Options
	writeSpotHead(w, fmt.Sprintf("%*s", nameWidth, ""))
	writeSpot(w, padded(language.Say("local colour"), nameWidth), s.Base)
	headed(w, language.Say("Shadows, hue shift toward %.0f, of skin by %.0f degrees at the first tone, saturation gain %s %% per tone",
		o.ShadowHue, propose.SkinShift(o.Turn), signed(100*o.Gain, 0)))
	writeSteps(w, s.Base, s.Ramp[:])
	headed(w, language.Say("Lights"))
	writeSteps(w, s.Base, s.Lights[:])
	headed(w, language.Say("Straight toward black, for comparison"))
	writeSteps(w, s.Base, s.BlackRamp[:])
	headed(w, language.Say("Lines"))
	for _, line := range s.Lines {
		writeProposed(w, wording.SayStepTones(line.Tones), line.Spot, wording.SayLine(s.Base, line))
	}
	s.writeAccents(w)
	if p := s.AsPicture; p != nil {
		headed(w, language.Say("As in %s: %s", bare(p.File), wording.SayAgreement(p.Agreement, p.OneLight)))
		writeProposed(w, language.Say("its shadow"), p.Shadow.Spot, wording.SayStep(s.Base, p.Shadow))
		writeProposed(w, language.Say("the light of it"), p.Light.Spot, wording.SayStep(s.Base, p.Light))
	}
	if s.Judged != nil {
		headed(w, language.Say("The chosen shadow"))
		writeProposed(w, "", &s.Judged.Family.Shadow, "")
		for _, sentence := range wording.SayJudgement(*s.Judged) {
			fmt.Fprintf(w, "  %s\n", plain(sentence))
		}
	}
}

func writeSteps(w io.Writer, base analysis.Spot, steps []propose.Step) {
	for _, step := range steps {
		writeProposed(w, wording.SayStepTones(step.Tones), step.Spot, wording.SayStep(base, step))
	}
}

// writeProposed prints a proposed colour, or the word that there is none.
func writeProposed(w io.Writer, name string, s *analysis.Spot, said string) {
	name = "  " + padded(plain(name), nameWidth-2)
	if s == nil {
		fmt.Fprintf(w, "%s%s\n", name, plain(said))
		return
	}
	writeSpotSaid(w, name, *s, plain(said))
}

// writeAccents prints both rows of accents side by side, and the suggested ones.
func (s shadeReport) writeAccents(w io.Writer) {
	by := wording.SayEqualBy(s.Options.EqualBy)
	headed(w, language.Say("Suggested accents, %s", by))
	for _, a := range s.Suggested {
		writeProposed(w, language.Say("hue %.0f", turned(a.Hue)), a.Spot, wording.SayOutcome(a.Note))
	}
	headed(w, language.Say("Accents, %s: at chroma %.2f (* less: the display has no more), and at the gamut's limit", by, s.Options.AccentChroma))
	for i, a := range s.Accents {
		fmt.Fprintf(w, "  %s%s   %s\n", padded(language.Say("hue %.0f", a.Hue), nameWidth-2), accentFigures(a), accentFigures(s.FullAccents[i]))
	}
}

// accentFigures returns a colour with its chroma; an accent that doesn't reach the chroma
// asked for has an asterisk.
func accentFigures(a propose.Accent) string {
	if a.Spot == nil {
		return padded(wording.SayOutcome(a.Note), 16)
	}
	mark := " "
	if !a.InGamut {
		mark = "*"
	}
	return language.Say("%s  %.3f %s", a.Spot.Colour.Hex(), a.Spot.Oklab.Chroma(), mark)
}

// headed prints what heads a part of a report, below a line left free.
func headed(w io.Writer, head string) { fmt.Fprintf(w, "\n%s\n", plain(head)) }
