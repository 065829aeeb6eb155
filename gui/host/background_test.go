package host

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/widgets"
)

// What breaks down in the background is said in a sentence, and what waits for it goes on.
func TestBackgroundBreaksDown(t *testing.T) {
	test.NewTempApp(t)
	h := &Host{Spawn: func(f func()) { f() }}
	h.Messages.Over = widgets.NewMessages(nil, nil)
	var none []int
	busy := true
	h.Background(func() error { none[0] = 1; return nil }, func(err error) { busy = err == nil })
	if busy {
		t.Error("what waits is not told")
	}
	done := false
	h.Try(`write "study.pdf"`, func() error { none[0] = 1; return nil }, func() { done = true })
	want := `Can't write "study.pdf": the program made a mistake; try again, and please report it.`
	if got := h.Messages.Said[MessageError]; got != want || done {
		t.Errorf("said %q, done %v", got, done)
	}
	h.Guarded("watch the picture", func() { none[0] = 1 })
	if got := h.Messages.Said[MessageError]; !strings.HasPrefix(got, "Can't watch the picture: the program made a mistake;") {
		t.Errorf("said %q", got)
	}
	if h.Try("write", func() error { return nil }, func() { done = true }); !done {
		t.Error("what follows is not done")
	}
}
