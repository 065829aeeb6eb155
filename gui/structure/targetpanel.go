package structure

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// TargetPanel shows how the picture stands to its target.
type TargetPanel struct {
	*host.Host
	Box    *fyne.Container
	Words  *widget.Label
	remove *widgets.Button
}

// NewTargetPanel returns the panel of a target.
func NewTargetPanel(h *host.Host, target *Targets) *TargetPanel {
	t := &TargetPanel{Host: h, Words: widgets.SmallLabel()}
	open := h.Button("Picture", "Choose a picture file to paint toward (T)", target.Ask)
	this := h.Button("This one", "Take what is in the mirror now", target.Take)
	t.remove = widgets.NewButton("Remove", h.Keys, func() { target.Set(nil) })
	buttons := container.NewHBox(open, this, t.remove)
	t.Box = container.NewVBox(widgets.Section("Target", widgets.AtRight(buttons), t.Words))
	return t
}

// Show renews the words; r is nil before the first picture.
func (t *TargetPanel) Show(r *analysis.Reading) {
	now := t.Steps.Now().Target
	words := "A picture to paint toward: its spread is laid over this one's, with what differs."
	if now != nil {
		words = now.Name + "."
		if r != nil {
			m := now.Plan.Match(r)
			words = now.Name + ". " + wording.SayTargetDistance(m) + ". " + wording.SayTarget(m) + "."
		}
	}
	resized := t.remove.Hidden != (now == nil)
	t.remove.Hidden = now == nil
	if widgets.SetWords(t.Words, words) || resized {
		t.Box.Refresh()
		t.LayOutPage()
	}
}
