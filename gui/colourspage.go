package gui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/proposals"
	"app.tonedesk/gui/widgets"
)

// coloursPage proposes colours to paint next, from the selected spot or a colour that is held or
// typed. That stays in sight while the rest is scrolled.
type coloursPage struct {
	plainPage
	d         *Desk
	box       *fyne.Container
	from      *proposals.BasePanel
	proposals *proposals.ProposalPanel
	judged    *proposals.JudgePanel
	palette   *proposals.PalettePanel
	relight   *proposals.RelightPanel
}

func newColoursPage(d *Desk) pageView {
	p := &coloursPage{d: d, judged: proposals.NewJudgePanel(&d.Host)}
	p.from = proposals.NewBasePanel(&d.Host, p.base, p.export)
	p.proposals = proposals.NewProposalPanel(&d.Host, p.judged.Box, func() *light.Light { l, _ := d.families.Light(); return l })
	p.palette = proposals.NewPalettePanel(&d.Host, proposals.PaletteActs{CopyPicture: d.copies.CopyPicture, Again: d.comeBack})
	p.relight = proposals.NewRelightPanel(&d.Host, proposals.RelightActs{
		Light: d.families.Light, Copy: func(rows []swatches.Row) { copySwatches(d, rows) },
		Save: func(rows []swatches.Row, all light.Under) { d.saves.askSwatches(rows, all, "relit") },
	})
	p.box = container.NewVBox(p.proposals.Box, p.palette.Box, p.relight.Box)
	return p
}

func (p *coloursPage) content() fyne.CanvasObject { return p.box }

func (p *coloursPage) fixed() (head, foot fyne.CanvasObject) { return p.from.Box, nil }

// handle takes what is known of the picture's light.
func (p *coloursPage) handle(e host.PageEvent) {
	if e == host.LightRead {
		base, _, ok := p.base()
		p.proposals.Show(base, ok)
		p.relight.Show()
	}
}

// base is the colour to begin from.
func (p *coloursPage) base() (base analysis.Spot, name string, ok bool) {
	return live.BaseOf(p.d.setup, p.d.last.spots, p.d.selected)
}

func (p *coloursPage) show(*analysis.Reading) {
	base, name, ok := p.base()
	p.from.Show(base, name, ok)
	p.proposals.Show(base, ok)
	p.proposals.Match(p.d.last.spots, p.d.selected)
	p.judged.Show(p.d.last.spots, p.d.selected, p.d.settings.Rules)
	p.relight.Show()
	if !p.d.last.bounds.Empty() {
		p.palette.Refresh(p.d.last.at, p.d.setup.Source)
	}
}

func (p *coloursPage) trace(line *traceLine) {
	line.Base, line.Places = p.from.Code.Words(), append(line.Places, placesIn(p.d, p.box)...)
	for i, s := range p.proposals.Ramp.Swatches() {
		at, size := p.proposals.Ramp.Box(i)
		line.Places = append(line.Places, tracedPlace{s.Label, s.Marked, p.d.boxIn(p.proposals.Ramp, at, size)})
	}
}

// export asks what to do with the colours: those proposed, or those of the picture.
func (p *coloursPage) export() {
	d, choices := p.d, []host.Choice(nil)
	if base, _, ok := p.base(); ok {
		shades := p.proposals.Shades(base)
		choices = append(choices,
			host.Choice{Name: language.Say("Copy"), Do: func() { copySwatches(d, swatches.OfShades(shades)) }},
			host.Choice{Name: language.Say("Save"), Do: func() { d.saves.askSwatches(swatches.OfShades(shades), shades, "colours") }})
	}
	if found := p.palette.Palette(); found != nil && len(found.Colours) > 0 {
		choices = append(choices, host.Choice{Name: language.Say("Save the picture's"), Do: func() { d.saves.askSwatches(swatches.OfPalette(found), found, "palette") }})
	}
	if len(choices) == 0 {
		d.Messages.Note(language.Say("There is no colour to export. Click a spot in the picture first."))
		return
	}
	d.Question(language.Say("Export the colours"), widgets.QuietWords(language.Say("The proposed colours as text or as a file, or those in the picture as a file.")), func() {}, choices...)
}

// copySwatches copies colours as text.
func copySwatches(d *Desk, rows []swatches.Row) {
	var text strings.Builder
	_ = swatches.WriteText(&text, rows) // a builder takes all
	d.App.Clipboard().SetContent(text.String())
	d.Messages.Note(language.Say("Copied all of these colours"))
}
