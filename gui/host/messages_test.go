package host

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/widgets"
)

// The strongest message is seen; its button does what it says, or closes it.
func TestMessages(t *testing.T) {
	test.NewTempApp(t)
	bar := widgets.NewMessageBar(nil, func() {})
	m := Messages{Bar: bar}
	press := func() {
		for _, o := range test.LaidOutObjects(bar) {
			if b, ok := o.(*widgets.Button); ok {
				test.Tap(b)
			}
		}
	}
	if bar.Visible() || bar.Text() != "" {
		t.Error("it is seen with nothing to say")
	}
	done := 0
	m.Offer(MessageUnsaved, "unsaved", MessageAct{Name: "Try again", Do: func() { done++ }})
	m.Note("a note")
	if bar.Text() != "unsaved" || m.Said[MessageNote] != "a note" {
		t.Errorf("%q is shown", bar.Text())
	}
	if press(); done != 1 || bar.Text() != "unsaved" {
		t.Errorf("pressed, it is done %d times, and shows %q", done, bar.Text())
	}
	m.Clear(MessageUnsaved)
	if bar.Text() != "a note" {
		t.Errorf("then it shows %q", bar.Text())
	}
	if press(); bar.Visible() {
		t.Errorf("closed, it shows %q", bar.Text())
	}
}
