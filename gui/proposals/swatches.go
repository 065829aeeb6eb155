package proposals

import (
	"math"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// swatchActs are what presses of swatches do: copy the colour, or go on from it.
func swatchActs(h *host.Host) widgets.SwatchActs {
	return widgets.SwatchActs{
		Press: func(s widgets.Swatch) { h.CopyText(s.Colour.Hex()) },
		Take:  func(s widgets.Swatch) { h.Steps.BeginFrom(&s.Colour) },
		Keys:  h.Keys, Tips: h.Tips,
	}
}

// spotSwatch is the swatch of a reading.
func spotSwatch(s analysis.Spot, label string) widgets.Swatch {
	return widgets.Swatch{Colour: s.Colour, Grey: colour.GreyOf(s.Lightness), Label: label, Tip: wording.SaySwatch(s)}
}

// stepSwatch is the swatch of a step, or the words that it is out of range.
func stepSwatch(s propose.Step) widgets.Swatch {
	label := strings.TrimPrefix(wording.Tenth(-s.Tones), "0")
	if s.Tones < 0 {
		label = "+" + label
	}
	label = strings.TrimSuffix(label, language.Point(".0"))
	if s.Spot == nil {
		return widgets.Swatch{None: true, Label: wording.SayOutcome(s.Note), Tip: label + ": " + wording.SayOutcome(s.Note)}
	}
	w := spotSwatch(*s.Spot, label)
	if s.Note != propose.AsMade {
		w.Tip += ", " + wording.SayOutcome(s.Note)
	}
	return w
}

// rampSwatches are lights and shadows around the base, and the shadows that go straight toward
// black. Those that the picture's own light makes say so; lit is nil where none is asked.
func rampSwatches(s *propose.Shades, lit *light.Ratio) (ramp, black []widgets.Swatch) {
	down, up := 0.0, 0.0
	if lit != nil {
		down, up = lit.Tones(s.Base)
	}
	stepSwatch := func(step propose.Step) widgets.Swatch {
		w := stepSwatch(step)
		if own := step.Tones == down || step.Tones == -up; own && lit != nil && step.Spot != nil {
			w.Tip = language.Say("%s, as this picture's light makes it", w.Tip)
		}
		return w
	}
	ramp = []widgets.Swatch{stepSwatch(s.Lights[1]), stepSwatch(s.Lights[0]), spotSwatch(s.Base, language.Say("base"))}
	ramp[2].Marked = true
	for i := range s.Ramp {
		ramp, black = append(ramp, stepSwatch(s.Ramp[i])), append(black, stepSwatch(s.BlackRamp[i]))
	}
	return ramp, black
}

// lineSwatches are the lines around the base.
func lineSwatches(s *propose.Shades) []widgets.Swatch {
	lines := make([]widgets.Swatch, len(s.Lines))
	for i, l := range s.Lines {
		lines[i] = stepSwatch(l.Step)
	}
	return lines
}

// accentSwatches are the accents, hue by hue.
func accentSwatches(s *propose.Shades) []widgets.Swatch {
	accents := make([]widgets.Swatch, len(s.Accents))
	for i, a := range s.Accents {
		accents[i] = accentSwatch(a)
	}
	return accents
}

// suggestedSwatches are the accents to choose first.
func suggestedSwatches(s *propose.Shades) []widgets.Swatch {
	suggested := make([]widgets.Swatch, len(s.Suggested))
	for i, a := range s.Suggested {
		suggested[i] = accentSwatch(a)
	}
	return suggested
}

// accentSwatch is the swatch of an accent.
func accentSwatch(a propose.Accent) widgets.Swatch {
	if a.Spot == nil {
		return widgets.Swatch{None: true, Label: wording.SayOutcome(a.Note)}
	}
	w := spotSwatch(*a.Spot, "")
	if a.Note != propose.AsMade {
		w.Tip += ", " + wording.SayOutcome(a.Note)
	}
	return w
}

// nearestHue is the accent whose hue is the base's, -1 for a base without hue.
func nearestHue(s *propose.Shades) int {
	if s.Base.Colour.Neutral() {
		return -1
	}
	step := 360.0 / propose.AccentHues
	return int(math.Round(s.Base.Oklab.Hue()/step)) % propose.AccentHues
}

// matchSwatches are the pair of spots, each at the other's lightness.
func matchSwatches(spots []live.Reading, selected int) []widgets.Swatch {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		tip := language.Say("Set two spots first: then either can be brought to the other's lightness")
		return []widgets.Swatch{{None: true, Tip: tip, Label: wording.Unknown}, {None: true, Tip: tip, Label: wording.Unknown}}
	}
	matched := func(to, from int) widgets.Swatch {
		name := setup.SpotName(from)
		w := spotSwatch(propose.Bring(spots[to].Spot, spots[from].Spot).Matched, name)
		w.Tip = wording.SayBrings(name, setup.SpotName(to)) + ": " + w.Tip
		return w
	}
	return []widgets.Swatch{matched(b, a), matched(a, b)}
}

// paletteSwatches are the colours of a picture, from dark to light.
func paletteSwatches(p *palette.Palette) []widgets.Swatch {
	all := make([]widgets.Swatch, len(p.Colours))
	for i, c := range p.Colours {
		all[i] = spotSwatch(c.Spot, "")
		all[i].Tip = language.Say("%s, %s of the picture", all[i].Tip, wording.Percent(c.Share))
	}
	return all
}
