package proposals

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// ProposalPanel shows what can be painted next to a colour: lights and shadows, accents,
// lines.
type ProposalPanel struct {
	*host.Host
	Box           *fyne.Container
	Ramp, black   *widgets.SwatchRow
	lines         *widgets.SwatchRow
	suggested     *widgets.SwatchRow
	Accents, edge *widgets.SwatchRow
	lineWords     *widget.Label
	accentWords   *widget.Label
	Knobs         *shadePanel
	from          proposedFrom // what is shown was made from it; zero before the first
}

// proposedFrom is what proposals depend on.
type proposedFrom struct {
	base    colour.Oklab
	options propose.Options
	made    bool
}

// NewProposalPanel returns a panel without proposals.
func NewProposalPanel(h *host.Host) *ProposalPanel {
	p := &ProposalPanel{Host: h, Knobs: newShadePanel(h), lineWords: widgets.SmallLabel(), accentWords: widgets.SmallLabel()}
	row := func(plan widgets.SwatchPlan) *widgets.SwatchRow { return widgets.NewSwatchRow(plan, swatchActs(h)) }
	p.Ramp = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true})
	p.black = row(widgets.SwatchPlan{Height: 2 * widgets.Step})
	p.lines = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Labels: true})
	p.suggested = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Labels: true})
	p.Accents = row(widgets.SwatchPlan{Height: widgets.SwatchHeight})
	p.edge = row(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step})
	p.Box = container.NewVBox(
		widgets.Section("Lights and shadows, by tones", nil, p.Ramp, widgets.QuietWords("The same steps straight toward black:"), p.black, p.Knobs.ramp),
		widgets.Section("Accents of equal lightness", nil, p.suggested, p.Accents, p.edge, p.accentWords, p.Knobs.accents),
		widgets.Section("Lines", nil, p.lines, p.lineWords),
	)
	return p
}

// Show renews the proposals, if what they are made from has changed; ok says whether there is
// a colour at all.
func (p *ProposalPanel) Show(base analysis.Spot, ok bool) {
	shade := p.Steps.Now().Shade
	p.Knobs.show(shade)
	if p.Box.Hidden == ok {
		p.Box.Hidden = !ok
		p.LayOutPage()
	}
	from := proposedFrom{base.Oklab, shade, true}
	if !ok || from == p.from {
		return
	}
	p.from = from
	s := propose.Shade(base, shade)
	ramp, black := rampSwatches(s)
	p.Ramp.Set(ramp)
	p.black.Set(black)
	p.lines.Set(lineSwatches(s))
	p.suggested.Set(suggestedSwatches(s))
	accents, edge, missing := accentSwatches(s)
	p.Accents.Set(accents)
	p.edge.Set(edge)
	resized := widgets.SetWords(p.lineWords, wording.SayLines(s))
	if widgets.SetWords(p.accentWords, wording.SayAccents(missing, len(accents))) || resized {
		p.LayOutPage()
	}
}
