package proposals

import (
	"fmt"
	"math"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
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

// stepSwatch is the swatch of a step, or the word that there is no room.
func stepSwatch(s propose.Step) widgets.Swatch {
	label := strings.TrimPrefix(wording.Tenth(-s.Tones), "0")
	if s.Tones < 0 {
		label = "+" + label
	}
	label = strings.TrimSuffix(label, ".0")
	if s.Spot == nil {
		return widgets.Swatch{None: true, Label: string(s.Note)}
	}
	w := spotSwatch(*s.Spot, label)
	if s.Note != propose.AsMade {
		w.Tip += ", at the " + string(s.Note)
	}
	return w
}

// rampSwatches are lights and shadows around the base, and below them the shadows that go
// straight toward black.
func rampSwatches(s *propose.Shades) (ramp, black []widgets.Swatch) {
	ramp = []widgets.Swatch{stepSwatch(s.Lights[1]), stepSwatch(s.Lights[0]), spotSwatch(s.Base, "base")}
	ramp[2].Marked = true
	black = []widgets.Swatch{{None: true}, {None: true}, spotSwatch(s.Base, "")}
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

// accentSwatches are the accents at the chosen chroma, and below them those at the display's
// most; missing tells how many can't be shown at the chosen chroma.
func accentSwatches(s *propose.Shades) (accents, edge []widgets.Swatch, missing int) {
	near := nearestHue(s)
	for i := range s.Accents {
		w := accentSwatch(s.Accents[i])
		w.Marked = i == near
		if w.Short {
			missing++
		}
		accents, edge = append(accents, w), append(edge, accentSwatch(s.EdgeAccents[i]))
	}
	return accents, edge, missing
}

// suggestedSwatches are the accents to choose first, by the names of their hues.
func suggestedSwatches(s *propose.Shades) []widgets.Swatch {
	suggested := make([]widgets.Swatch, len(s.Suggested))
	for i, a := range s.Suggested {
		suggested[i] = accentSwatch(a)
		suggested[i].Short, suggested[i].Label = false, hueWord(a)
	}
	return suggested
}

// accentSwatch is the swatch of an accent; one that the display can't show at the chroma
// asked for is half as high.
func accentSwatch(a propose.Accent) widgets.Swatch {
	if a.Spot == nil {
		return widgets.Swatch{None: true}
	}
	w := spotSwatch(*a.Spot, "")
	w.Short = !a.InGamut
	return w
}

func hueWord(a propose.Accent) string {
	if a.Spot == nil {
		return string(a.Note)
	}
	if a.Spot.Colour.Neutral() { // beside black and white
		return "neutral"
	}
	return colour.HueName(a.Hue)
}

// nearestHue is the accent whose hue is the base's, -1 for a base without hue.
func nearestHue(s *propose.Shades) int {
	if s.Base.Colour.Neutral() {
		return -1
	}
	step := 360.0 / propose.AccentHues
	return int(math.Round(s.Base.Oklab.Hue()/step)) % propose.AccentHues
}

// matchSwatches are two spots, and between them each at the other's lightness.
func matchSwatches(a, b analysis.Spot, nameA, nameB string) []widgets.Swatch {
	return []widgets.Swatch{
		spotSwatch(a, nameA), spotSwatch(propose.Bring(a, b).Matched, nameB+" as "+nameA),
		spotSwatch(propose.Bring(b, a).Matched, nameA+" as "+nameB), spotSwatch(b, nameB),
	}
}

// paletteSwatches are the colours of a picture, by value or family by family.
func paletteSwatches(p *palette.Palette, byFamily bool) (all []widgets.Swatch) {
	add := func(i int) {
		c := p.Colours[i]
		w := spotSwatch(c.Spot, wording.Percent(c.Share))
		if c.Family != nil {
			w.Tip += fmt.Sprintf(", family %d, %s", *c.Family+1, c.Side)
		}
		all = append(all, w)
	}
	if byFamily {
		for _, g := range p.ByFamily() {
			for _, i := range g.Colours {
				add(i)
			}
		}
		return all
	}
	for i := range p.Colours {
		add(i)
	}
	return all
}

// valueSwatches shows the ten steps of value, those that are empty without a colour.
func valueSwatches(p *palette.Palette) []widgets.Swatch {
	all := make([]widgets.Swatch, len(p.Spread))
	for i, share := range p.Spread {
		v := colour.GreyOf(colour.Lightness(colour.YOfValue(float64(i) + 0.5)))
		all[i] = widgets.Swatch{Colour: colour.RGB{R: v, G: v, B: v}, Grey: v, Label: wording.Percent(share),
			Tip: fmt.Sprintf("value %d to %d: %s of the picture", i, i+1, wording.Percent(share))}
	}
	for _, i := range p.Empty {
		all[i].None, all[i].Label = true, wording.Unknown
	}
	return all
}
