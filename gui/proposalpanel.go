package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// proposalPanel shows what can be painted next to a colour: lights and shadows, accents,
// lines.
type proposalPanel struct {
	*host
	box           *fyne.Container
	ramp, black   *widgets.SwatchRow
	lines         *widgets.SwatchRow
	suggested     *widgets.SwatchRow
	accents, edge *widgets.SwatchRow
	lineWords     *widget.Label
	accentWords   *widget.Label
	knobs         *shadePanel
	from          proposedFrom // what is shown was made from it; zero before the first
}

// proposedFrom is what proposals depend on.
type proposedFrom struct {
	base    colour.Oklab
	options propose.Options
	made    bool
}

func newProposalPanel(h *host) *proposalPanel {
	p := &proposalPanel{host: h, knobs: newShadePanel(h), lineWords: widgets.SmallLabel(), accentWords: widgets.SmallLabel()}
	row := func(plan widgets.SwatchPlan) *widgets.SwatchRow { return widgets.NewSwatchRow(plan, swatchActs(h)) }
	p.ramp = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true})
	p.black = row(widgets.SwatchPlan{Height: 2 * widgets.Step})
	p.lines = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Labels: true})
	p.suggested = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Labels: true})
	p.accents = row(widgets.SwatchPlan{Height: widgets.SwatchHeight})
	p.edge = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step})
	p.box = container.NewVBox(
		widgets.Section("Lights and shadows, by tones", nil, p.ramp, widgets.QuietWords("The same steps straight toward black:"), p.black, p.knobs.ramp),
		widgets.Section("Accents of equal lightness", nil, p.suggested, p.accents, p.edge, p.accentWords, p.knobs.accents),
		widgets.Section("Lines", nil, p.lines, p.lineWords),
	)
	return p
}

// show renews the proposals, if what they are made from has changed; ok says whether there is
// a colour at all.
func (p *proposalPanel) show(base analysis.Spot, ok bool) {
	shade := p.steps.now().Shade
	p.knobs.show(shade)
	if p.box.Hidden == ok {
		p.box.Hidden = !ok
		p.relayPage()
	}
	from := proposedFrom{base.Oklab, shade, true}
	if !ok || from == p.from {
		return
	}
	p.from = from
	s := propose.Shade(base, shade)
	ramp, black := rampSwatches(s)
	p.ramp.Set(ramp)
	p.black.Set(black)
	p.lines.Set(lineSwatches(s))
	p.suggested.Set(suggestedSwatches(s))
	accents, edge, missing := accentSwatches(s)
	p.accents.Set(accents)
	p.edge.Set(edge)
	resized := widgets.SetWords(p.lineWords, wording.SayLines(s))
	if widgets.SetWords(p.accentWords, wording.SayAccents(missing, len(accents))) || resized {
		p.relayPage()
	}
}
