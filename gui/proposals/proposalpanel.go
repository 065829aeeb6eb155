package proposals

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/widgets"
)

// ProposalPanel shows what can be painted next to a colour: lights and shadows in a card, accents,
// lines, matched spots and every hue in another, in whose place the settings stand when they are
// asked for, so that the ramp stays in sight.
type ProposalPanel struct {
	*host.Host
	Box         *fyne.Container
	Ramp, black *widgets.SwatchRow
	lines       *widgets.SwatchRow
	suggested   *widgets.SwatchRow
	Accents     *widgets.HueStrip
	Matched     *widgets.SwatchRow
	Adjust      *widgets.Button
	Knobs       *shadePanel
	next        *fyne.Container // the second card
	from        proposedFrom    // what is shown was made from it; zero before the first
}

// proposedFrom is what proposals depend on.
type proposedFrom struct {
	base    colour.Oklab
	options propose.Options
	lit     light.Ratio // by which lights and shadows are made; zero for none
	made    bool
}

// NewProposalPanel returns a panel without proposals; judged stands among the settings, own is what is
// known of the picture's light, nil for nothing.
func NewProposalPanel(h *host.Host, judged fyne.CanvasObject, own func() *light.Light) *ProposalPanel {
	const low, least = 3.5 * widgets.Step, 4 * widgets.Step // 28, and 32 to be hit
	p := &ProposalPanel{Host: h, Knobs: newShadePanel(h, own)}
	row := func(plan widgets.SwatchPlan) *widgets.SwatchRow { return widgets.NewSwatchRow(plan, swatchActs(h)) }
	p.Ramp = row(widgets.SwatchPlan{Height: 38, Greys: 2 * widgets.Step, Labels: true})
	p.black = row(widgets.SwatchPlan{Height: 14, Skip: 3})
	p.suggested, p.lines = row(widgets.SwatchPlan{Height: low, Least: least}), row(widgets.SwatchPlan{Height: low, Least: least, Inside: true})
	p.Matched, p.Accents = row(widgets.SwatchPlan{Height: low, Least: least, Inside: true}), widgets.NewHueStrip(swatchActs(h))
	p.Adjust = widgets.NewIconButton(icons.Adjust, h.Keys, func() { p.adjust(!p.Adjust.On()) })
	p.Adjust.Explain(h.Tips, language.Say("Adjust how colours are proposed"))
	ramp := widgets.Card(0, p.Ramp,
		container.New(widgets.UnderRamp{}, widgets.QuietForms(language.Say("straight toward black"), language.Say("toward black")).AtRight(), p.black),
		container.New(layout.NewCustomPaddedLayout(widgets.Step, 0, 0, 0),
			container.New(layout.NewBorderLayout(nil, nil, nil, p.Adjust), p.Adjust,
				container.New(layout.NewCustomPaddedLayout(0, 0, 0, widgets.Step), p.Knobs.Light))))
	p.next = widgets.Card(widgets.Step, container.New(widgets.SwatchGroups{Shares: []float32{98, 98, 66}},
		widgets.NewLine(language.Say("Core-shadow accents"), language.Say("Accents")), p.suggested, widgets.NewLine(language.Say("Lines")), p.lines,
		widgets.NewLine(language.Say("Matched")), p.Matched), p.Accents)
	p.Knobs.Box.Add(judged)
	p.Box = container.NewVBox(ramp, p.next, p.Knobs.Box)
	p.Knobs.Box.Hide()
	return p
}

// adjust shows the settings in place of the second card, or that again.
func (p *ProposalPanel) adjust(on bool) {
	p.Adjust.SetOn(on)
	p.next.Hidden, p.Knobs.Box.Hidden = on, !on
	p.Box.Refresh()
	p.LayOutPage()
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
	from, lit := proposedFrom{base.Oklab, shade, light.Ratio{}, true}, p.Knobs.lit()
	if lit != nil {
		from.lit = *lit
	}
	if !ok || from == p.from {
		return
	}
	p.from = from
	s := p.Shades(base)
	ramp, black := rampSwatches(s, lit)
	p.Ramp.Set(ramp)
	p.black.Set(black)
	p.lines.Set(lineSwatches(s))
	p.suggested.Set(suggestedSwatches(s))
	p.Accents.Set(accentSwatches(s), nearestHue(s))
}

// Shades are what is proposed for a colour.
func (p *ProposalPanel) Shades(base analysis.Spot) *propose.Shades {
	shade := p.Steps.Now().Shade
	if lit := p.Knobs.lit(); lit != nil {
		return lit.Shade(base, shade)
	}
	return propose.Shade(base, shade)
}

// Match renews the spots brought to each other's lightness.
func (p *ProposalPanel) Match(spots []live.Reading, selected int) {
	p.Matched.Set(matchSwatches(spots, selected))
}
