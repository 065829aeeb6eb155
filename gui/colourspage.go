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
)

// coloursPage proposes colours to paint next, from the selected spot or a typed colour.
type coloursPage struct {
	d    *Desk
	box  *fyne.Container
	from *basePanel

	ramp, black    *SwatchRow
	lines, matched *SwatchRow
	suggested      *SwatchRow
	accents, edge  *SwatchRow
	lineWords      *widget.Label
	accentWords    *widget.Label
	judged         *SwatchRow
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
	p := &coloursPage{d: d, from: newBasePanel(d), knobs: newShadePanel(d), palette: newPalettePanel(d), judgeWords: smallLabel(), lineWords: smallLabel(), accentWords: smallLabel()}
	row := func(plan swatchPlan) *SwatchRow { return newSwatchRow(plan, d.swatchActs()) }
	p.ramp = row(swatchPlan{height: swatchHeight, greys: 3 * Step, labels: true})
	p.black = row(swatchPlan{height: 2 * Step})
	p.lines = row(swatchPlan{height: swatchHeight, labels: true})
	p.matched = row(swatchPlan{height: swatchHeight, greys: 3 * Step, labels: true})
	p.judged = row(swatchPlan{height: swatchHeight, greys: 3 * Step, labels: true})
	p.suggested = row(swatchPlan{height: swatchHeight, labels: true})
	p.accents = row(swatchPlan{height: swatchHeight})
	p.edge = row(swatchPlan{height: swatchHeight, greys: 2 * Step})
	p.whole = container.NewVBox(
		section("Lights and shadows, by tones", nil, p.ramp, quietWords("The same steps straight toward black:"), p.black, p.knobs.ramp),
		section("Accents of equal lightness", nil, p.suggested, p.accents, p.edge, p.accentWords, p.knobs.accents),
		section("Lines", nil, p.lines, p.lineWords),
	)
	p.box = container.NewVBox(p.from.box, p.whole,
		section("A and B at each other's lightness", nil, p.matched),
		section("A and B as light and shadow", nil, p.judgeWords, p.judged),
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
	ramp := []Swatch{stepSwatch(s.Lights[1]), stepSwatch(s.Lights[0]), spotSwatch(base, "base"), stepSwatch(s.Ramp[0]), stepSwatch(s.Ramp[1]), stepSwatch(s.Ramp[2])}
	ramp[2].Marked = true
	p.ramp.Set(ramp)
	black := []Swatch{{None: true}, {None: true}, spotSwatch(base, ""), stepSwatch(s.BlackRamp[0]), stepSwatch(s.BlackRamp[1]), stepSwatch(s.BlackRamp[2])}
	p.black.Set(black)
	resized := p.showLines(s)
	if p.showAccents(s) || resized {
		p.d.relayPage()
	}
}

func (p *coloursPage) showLines(s *propose.Shades) (resized bool) {
	lines := make([]Swatch, len(s.Lines))
	for i, l := range s.Lines {
		lines[i] = stepSwatch(l.Step)
	}
	p.lines.Set(lines)
	return say(p.lineWords, SayLines(s))
}

func (p *coloursPage) showAccents(s *propose.Shades) (resized bool) {
	accents, edge := make([]Swatch, len(s.Accents)), make([]Swatch, len(s.EdgeAccents))
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
	suggested := make([]Swatch, len(s.Suggested))
	for i, a := range s.Suggested {
		suggested[i] = accentSwatch(a)
		suggested[i].Short, suggested[i].Label = false, hueWord(a)
	}
	p.suggested.Set(suggested)
	return say(p.accentWords, SayAccents(missing, len(accents)))
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
		p.matched.Set([]Swatch{{None: true, Label: "Set two spots first"}})
		p.judged.Set(nil)
		if say(p.judgeWords, "Set two spots: a local colour and the shadow chosen for it.") {
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
	p.judge(spotA, spotB, spotName(a), spotName(b))
	nameA, nameB := spotName(a), spotName(b)
	toA, toB := propose.Bring(spotA, spotB), propose.Bring(spotB, spotA)
	p.matched.Set([]Swatch{
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
	swatches := []Swatch{spotSwatch(a, nameA), spotSwatch(b, nameB)}
	if j.Nearest != nil {
		swatches = append(swatches, spotSwatch(*j.Nearest, "nearest"))
	}
	p.judged.Set(swatches)
	if say(p.judgeWords, strings.Join(SayJudgement(j), " ")) {
		p.d.relayPage()
	}
}

// copyMatched copies B brought to A's lightness, or A brought to B's.
func (d *Desk) copyMatched(other bool) {
	a, b, ok := d.pairIndices()
	if !ok {
		d.parts.strip.say(stripNote, "Set two spots first: then B can be brought to A's lightness.")
		return
	}
	if other {
		a, b = b, a
	}
	d.copyText(propose.Bring(d.spots[a].Spot, d.spots[b].Spot).Matched.Colour.Hex())
}

// swatchActs are what presses of swatches do.
func (d *Desk) swatchActs() SwatchActs {
	return SwatchActs{
		Press: func(s Swatch) { d.copyText(s.Colour.Hex()) },
		Take:  func(s Swatch) { d.setBase(&s.Colour) },
		Keys:  d, Tips: d.parts.tips,
	}
}

// spotSwatch is the swatch of a reading.
func spotSwatch(s analysis.Spot, label string) Swatch {
	return Swatch{Colour: s.Colour, Grey: colour.GreyOf(s.Lightness), Label: label, Tip: SaySwatch(s)}
}

// stepSwatch is the swatch of a step, or the word that there is no room.
func stepSwatch(s propose.Step) Swatch {
	label := strings.TrimPrefix(Tenth(-s.Tones), "0")
	if s.Tones < 0 {
		label = "+" + label
	}
	label = strings.TrimSuffix(label, ".0")
	if s.Spot == nil {
		return Swatch{None: true, Label: string(s.Note)}
	}
	w := spotSwatch(*s.Spot, label)
	if s.Note != propose.AsMade {
		w.Tip += ", at the " + string(s.Note)
	}
	return w
}

// accentSwatch is the swatch of an accent; one that the display can't show at the chroma
// asked for is half as high.
func accentSwatch(a propose.Accent) Swatch {
	if a.Spot == nil {
		return Swatch{None: true}
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
