package gui

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// coloursPage proposes colours to paint next, from the selected spot or a typed colour.
type coloursPage struct {
	d    *Desk
	box  *fyne.Container
	from *basePanel

	ramp, black    *widgets.SwatchRow
	lines, matched *widgets.SwatchRow
	suggested      *widgets.SwatchRow
	accents, edge  *widgets.SwatchRow
	lineWords      *widget.Label
	accentWords    *widget.Label
	judged         *widgets.SwatchRow
	judgeWords     *widget.Label
	palette        *palettePanel
	knobs          *shadePanel
	whole          *fyne.Container // what is shown while there is a colour to begin from
	proposed       proposedFrom    // what the proposals were made from; zero before the first
	paired         pairedFrom      // what was said of A and B
}

// proposedFrom is what proposals depend on.
type proposedFrom struct {
	base    colour.Oklab
	options propose.Options
	made    bool
}

// pairedFrom is all that what is said of two spots depends on.
type pairedFrom struct {
	a, b           colour.Oklab
	rules          families.Rules
	options        propose.Options
	indexA, indexB int
	made           bool
}

func newColoursPage(d *Desk) pageView {
	p := &coloursPage{d: d, from: newBasePanel(d), knobs: newShadePanel(d), palette: newPalettePanel(d), judgeWords: widgets.SmallLabel(), lineWords: widgets.SmallLabel(), accentWords: widgets.SmallLabel()}
	row := func(plan widgets.SwatchPlan) *widgets.SwatchRow { return widgets.NewSwatchRow(plan, d.swatchActs()) }
	p.ramp = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true})
	p.black = row(widgets.SwatchPlan{Height: 2 * widgets.Step})
	p.lines = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Labels: true})
	p.matched = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true})
	p.judged = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true})
	p.suggested = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Labels: true})
	p.accents = row(widgets.SwatchPlan{Height: widgets.SwatchHeight})
	p.edge = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step})
	p.whole = container.NewVBox(
		widgets.Section("Lights and shadows, by tones", nil, p.ramp, widgets.QuietWords("The same steps straight toward black:"), p.black, p.knobs.ramp),
		widgets.Section("Accents of equal lightness", nil, p.suggested, p.accents, p.edge, p.accentWords, p.knobs.accents),
		widgets.Section("Lines", nil, p.lines, p.lineWords),
	)
	p.box = container.NewVBox(p.from.box, p.whole,
		widgets.Section("A and B at each other's lightness", nil, p.matched),
		widgets.Section("A and B as light and shadow", nil, p.judgeWords, p.judged),
		p.palette.box)
	return p
}

func (p *coloursPage) content() fyne.CanvasObject { return p.box }

func (p *coloursPage) searches() bool { return false }

func (p *coloursPage) opened(bool) {}

func (p *coloursPage) show(*analysis.Reading) {
	base, name, ok := p.d.base()
	p.from.show(base, name, ok)
	p.knobs.show(p.d.setup.Shade)
	if p.whole.Hidden == ok {
		p.whole.Hidden = !ok
		p.d.relayPage()
	}
	if ok {
		p.propose(base)
	}
	p.match()
	p.palette.renew()
}

// propose renews the proposals, if what they are made from has changed.
func (p *coloursPage) propose(base analysis.Spot) {
	from := proposedFrom{base.Oklab, p.d.setup.Shade, true}
	if from == p.proposed {
		return
	}
	p.proposed = from
	s := propose.Shade(base, p.d.setup.Shade)
	ramp := []widgets.Swatch{stepSwatch(s.Lights[1]), stepSwatch(s.Lights[0]), spotSwatch(base, "base"), stepSwatch(s.Ramp[0]), stepSwatch(s.Ramp[1]), stepSwatch(s.Ramp[2])}
	ramp[2].Marked = true
	p.ramp.Set(ramp)
	black := []widgets.Swatch{{None: true}, {None: true}, spotSwatch(base, ""), stepSwatch(s.BlackRamp[0]), stepSwatch(s.BlackRamp[1]), stepSwatch(s.BlackRamp[2])}
	p.black.Set(black)
	resized := p.showLines(s)
	if p.showAccents(s) || resized {
		p.d.relayPage()
	}
}

func (p *coloursPage) showLines(s *propose.Shades) (resized bool) {
	lines := make([]widgets.Swatch, len(s.Lines))
	for i, l := range s.Lines {
		lines[i] = stepSwatch(l.Step)
	}
	p.lines.Set(lines)
	return widgets.SetWords(p.lineWords, wording.SayLines(s))
}

func (p *coloursPage) showAccents(s *propose.Shades) (resized bool) {
	accents, edge := make([]widgets.Swatch, len(s.Accents)), make([]widgets.Swatch, len(s.EdgeAccents))
	missing := 0
	near := nearestHue(s)
	for i := range accents {
		accents[i], edge[i] = accentSwatch(s.Accents[i]), accentSwatch(s.EdgeAccents[i])
		accents[i].Marked = i == near
		if accents[i].Short {
			missing++
		}
	}
	p.accents.Set(accents)
	p.edge.Set(edge)
	suggested := make([]widgets.Swatch, len(s.Suggested))
	for i, a := range s.Suggested {
		suggested[i] = accentSwatch(a)
		suggested[i].Short, suggested[i].Label = false, hueWord(a)
	}
	p.suggested.Set(suggested)
	return widgets.SetWords(p.accentWords, wording.SayAccents(missing, len(accents)))
}

// nearestHue is the accent whose hue is the base's, -1 for a base without hue.
func nearestHue(s *propose.Shades) int {
	if s.Base.Colour.Neutral() {
		return -1
	}
	step := 360.0 / propose.AccentHues
	return int(math.Round(s.Base.Oklab.Hue()/step)) % propose.AccentHues
}

// match brings A and B to each other's lightness.
func (p *coloursPage) match() {
	a, b, ok := p.d.pairIndices()
	if !ok {
		p.paired = pairedFrom{}
		p.matched.Set([]widgets.Swatch{{None: true, Label: "Set two spots first"}})
		p.judged.Set(nil)
		if widgets.SetWords(p.judgeWords, "Set two spots: a local colour and the shadow chosen for it.") {
			p.d.relayPage()
		}
		return
	}
	spotA, spotB := p.d.spots[a].Spot, p.d.spots[b].Spot
	from := pairedFrom{spotA.Oklab, spotB.Oklab, p.d.settings.Rules, p.d.setup.Shade, a, b, true}
	if from == p.paired {
		return
	}
	p.paired = from
	p.judge(spotA, spotB, setup.SpotName(a), setup.SpotName(b))
	nameA, nameB := setup.SpotName(a), setup.SpotName(b)
	toA, toB := propose.Bring(spotA, spotB), propose.Bring(spotB, spotA)
	p.matched.Set([]widgets.Swatch{
		spotSwatch(spotA, nameA), spotSwatch(toA.Matched, nameB+" as "+nameA),
		spotSwatch(toB.Matched, nameA+" as "+nameB), spotSwatch(spotB, nameB),
	})
}

// judge says how the darker of two spots does as the shadow of the lighter, and what would
// satisfy the rules.
func (p *coloursPage) judge(a, b analysis.Spot, nameA, nameB string) {
	if a.Lightness < b.Lightness {
		a, b, nameA, nameB = b, a, nameB, nameA
	}
	j := propose.JudgeShadow(a, b, p.d.settings.Rules, p.d.setup.Shade.ShadowHue)
	swatches := []widgets.Swatch{spotSwatch(a, nameA), spotSwatch(b, nameB)}
	if j.Nearest != nil {
		swatches = append(swatches, spotSwatch(*j.Nearest, "nearest"))
	}
	p.judged.Set(swatches)
	if widgets.SetWords(p.judgeWords, strings.Join(wording.SayJudgement(j), " ")) {
		p.d.relayPage()
	}
}

// copyMatched copies B brought to A's lightness, or A brought to B's.
func (d *Desk) copyMatched(other bool) {
	a, b, ok := d.pairIndices()
	if !ok {
		d.parts.strip.Say(widgets.MessageNote, "Set two spots first: then B can be brought to A's lightness.")
		return
	}
	if other {
		a, b = b, a
	}
	d.copyText(propose.Bring(d.spots[a].Spot, d.spots[b].Spot).Matched.Colour.Hex())
}

// swatchActs are what presses of swatches do.
func (d *Desk) swatchActs() widgets.SwatchActs {
	return widgets.SwatchActs{
		Press: func(s widgets.Swatch) { d.copyText(s.Colour.Hex()) },
		Take:  func(s widgets.Swatch) { d.setBase(&s.Colour) },
		Keys:  d, Tips: d.parts.tips,
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
