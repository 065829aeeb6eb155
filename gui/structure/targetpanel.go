package structure

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// TargetPanel shows how the picture stands to its target, or asks for one.
type TargetPanel struct {
	*host.Host
	Box   *fyne.Container
	card  *widgets.TargetCard
	empty fyne.CanvasObject // where there is none
	shown fyne.CanvasObject
}

// NewTargetPanel returns the panel of a target.
func NewTargetPanel(h *host.Host, target *Targets) *TargetPanel {
	t := &TargetPanel{Host: h, card: widgets.NewTargetCard(h.Keys, h.Tips, func() { target.Set(nil) })}
	open := h.Button(language.Say("Choose"), language.Say("Choose a picture file to paint toward, T"), target.Ask)
	this := h.Button("", language.Say("Paint toward the picture as it is now"), target.Take)
	this.SetIcon(icons.Still)
	acts := container.NewHBox(this, open)
	t.empty = widgets.Beside(container.NewBorder(nil, nil, nil, acts, widgets.NewHeading(icons.Target, language.Say("Target"), language.Say("what to paint toward"))))
	t.shown = widgets.Beside(t.card)
	t.shown.Hide()
	t.Box = widgets.NewCard(t.empty, t.shown)
	return t
}

// Text is what the card says of a target; all of it is empty where there is none.
func (t *TargetPanel) Text() widgets.TargetText {
	if !t.shown.Visible() {
		return widgets.TargetText{}
	}
	return t.card.Text()
}

// Show renews the words; r is nil before the first picture.
func (t *TargetPanel) Show(r *analysis.Reading) {
	now, before := t.Steps.Now().Target, t.Box.MinSize().Height
	t.empty.Show()
	t.shown.Hide()
	if now != nil {
		text := widgets.TargetText{Name: now.Name}
		if r != nil {
			m := now.Plan.Match(r)
			text.Distance, text.Shares = wording.SayTargetDistance(m), wording.SayTarget(m)
		}
		t.empty.Hide()
		t.shown.Show()
		t.card.Set(text, now.Picture)
	}
	if t.Box.MinSize().Height != before {
		t.Box.Refresh()
		t.LayOutPage()
	}
}
