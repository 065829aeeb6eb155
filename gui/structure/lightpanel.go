package structure

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// LightPanel says whether the shadows agree, and shows how deep they are and how their hues shift.
type LightPanel struct {
	*host.Host
	Box     *fyne.Container
	colours *LocalColours
	card    *widgets.LightCard
}

// NewLightPanel returns a panel that knows nothing of the light as yet.
func NewLightPanel(h *host.Host, colours *LocalColours) *LightPanel {
	p := &LightPanel{Host: h, colours: colours, card: widgets.NewLightCard()}
	head := widgets.NewHeading(icons.LightDirection, language.Say("Light"), language.Say("do the shadows agree?"))
	p.Box = widgets.NewCard(widgets.Beside(head), widgets.Beside(p.card))
	return p
}

// Text is what the panel says.
func (p *LightPanel) Text() wording.LightCardText { return p.card.Text() }

// Show renews it; rules say how deep a shadow is that reads.
func (p *LightPanel) Show(rules families.Rules) {
	before := p.card.MinSize().Height
	read, list := p.colours.Light()
	p.card.Set(wording.SayLightCard(read, list, rules, p.Lay().Flipped))
	if p.card.MinSize().Height != before {
		p.Box.Refresh()
		p.LayOutPage()
	}
}
