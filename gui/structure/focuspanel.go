package structure

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// FocusPanel asks where the eye should go, and says whether the strongest contrast lies there.
type FocusPanel struct {
	*host.Host
	Box    *fyne.Container
	Set    *widgets.Button
	Cross  *widgets.Button
	focus  *Focuses
	words  *widgets.LightCard // its words alone
	says   *fyne.Container
	groups []analysis.Group // of the last picture
}

// NewFocusPanel returns a panel on which nothing is marked as yet.
func NewFocusPanel(h *host.Host, focus *Focuses) *FocusPanel {
	p := &FocusPanel{Host: h, focus: focus, words: widgets.NewLightCard()}
	p.Set = h.Button(language.Say("Set"), wording.FocusTip.String(), focus.Ask)
	p.Cross = widgets.NewIconButton(icons.Close, h.Keys, focus.Clear).Flat()
	p.Cross.Explain(h.Tips, language.Say("Mark no place any longer"))
	p.Cross.Hide()
	head := container.NewBorder(nil, nil, nil, container.NewHBox(p.Set, p.Cross), widgets.NewHeading(icons.Focus, language.Say("Focus"), language.Say("where should the eye go?")))
	p.says = widgets.Beside(p.words)
	p.says.Hide()
	p.Box = widgets.NewCard(widgets.Beside(head), p.says)
	focus.reveal = func() { h.Keys.Reveal(p.Box) }
	return p
}

// Text is what the panel says; empty where nothing is marked.
func (p *FocusPanel) Text() wording.FocusCardText {
	t := p.words.Text()
	return wording.FocusCardText{Lines: t.Lines, Quiet: t.Quiet}
}

// Show renews it; r is nil where the picture is the one before.
func (p *FocusPanel) Show(r *analysis.Reading) {
	if r != nil {
		p.groups = slices.Clone(r.Chosen().Groups())
	}
	before := p.Box.MinSize().Height
	t := p.focus.Text(wording.NamesIn{Groups: p.groups})
	p.words.Set(wording.LightCardText{Lines: t.Lines, Quiet: t.Quiet})
	if marked := len(t.Lines) > 0; p.says.Visible() != marked {
		p.says.Hidden, p.Cross.Hidden = !marked, !marked
		p.Box.Refresh()
	}
	if p.Box.MinSize().Height != before {
		p.Box.Refresh()
		p.LayOutPage()
	}
}
