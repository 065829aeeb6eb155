package gui

import (
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/settings"
)

// A tip wider than the window is broken into lines, and never asks for room.
func TestLongTip(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.window.Resize(fyne.NewSize(settings.MinWidth, settings.MinHeight))
	before := d.window.Content().MinSize()
	d.tips.Now("#ffeac8, lightness 93.6, value 9.3, chroma 19.2, hue 84.2, at the gamut's edge, and more", d.mirror)
	if after := d.window.Content().MinSize(); after != before {
		t.Errorf("with a tip the window needs %v, without %v", after, before)
	}
	back := d.tips.Back
	if right := back.Position().X + back.Size().Width; back.Position().X < 0 || right > settings.MinWidth {
		t.Errorf("the tip reaches from %g to %g", back.Position().X, right)
	}
	if !d.tips.Lines[1].Visible() {
		t.Error("it is one line")
	}
}
