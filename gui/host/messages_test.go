package host

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/widgets"
)

// The strongest message is seen, with what answers the painter before it; its button does what
// it says, or closes it.
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
	if bar.Text() != "a note\nunsaved" {
		t.Errorf("%q is shown", bar.Text())
	}
	if press(); done != 1 || bar.Text() != "unsaved" {
		t.Errorf("pressed, it is done %d times, and shows %q", done, bar.Text())
	}
	m.Offer(MessageNote, "an offer", MessageAct{Name: "Take it", Do: func() { done++; m.Clear(MessageNote) }})
	press()
	m.Clear(MessageUnsaved)
	if bar.Text() != "an offer" {
		t.Errorf("then it shows %q", bar.Text())
	}
	if press(); done != 3 || bar.Visible() {
		t.Errorf("taken, it is done %d times, and shows %q", done, bar.Text())
	}
	m.Note("a note")
	if press(); bar.Visible() {
		t.Errorf("closed, it shows %q", bar.Text())
	}
}
