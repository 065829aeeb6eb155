package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// targetPanel shows how the picture stands to its target.
type targetPanel struct {
	*host
	box    *fyne.Container
	words  *widget.Label
	remove *widgets.Button
}

func newTargetPanel(h *host, target *targets) *targetPanel {
	t := &targetPanel{host: h, words: widgets.SmallLabel()}
	title := widget.NewLabel("Target")
	title.TextStyle.Bold = true
	open := widgets.NewButton("Picture", h.keys, target.ask)
	open.Explain(h.tips, "Choose a picture file to paint toward (T)")
	this := widgets.NewButton("This one", h.keys, target.take)
	this.Explain(h.tips, "Take what is in the mirror now")
	t.remove = widgets.NewButton("Remove", h.keys, func() { target.set(nil) })
	buttons := container.NewHBox(open, this, t.remove)
	t.box = container.NewVBox(widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(buttons)), t.words))
	return t
}

// show renews the words; r is nil before the first picture.
func (t *targetPanel) show(r *analysis.Reading) {
	now := t.steps.now().Target
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
	if widgets.SetWords(t.words, words) || resized {
		t.box.Refresh()
		t.relayPage()
	}
}
