package widgets

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestEntry(t *testing.T) {
	var keys heardKeys
	e := NewEntry(&keys, "Name")
	w := shownIn(t, e, 200, 40)
	w.Canvas().Focus(e)
	if !slices.Equal(keys.revealed, []fyne.CanvasObject{e}) {
		t.Errorf("with the focus %d parts are revealed, want the entry", len(keys.revealed))
	}
	test.Type(e, "blau")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) // nobody waits for it
	if e.Text != "bla" {
		t.Errorf("typed is %q", e.Text)
	}
	escapes, left := 0, 0
	e.OnEscape, e.OnLeft = func() { escapes++ }, func() { left++ }
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if escapes != 1 || left != 0 || e.Text != "bla" {
		t.Errorf("Esc is told %d times, leaving %d times, typed is %q", escapes, left, e.Text)
	}
	w.Canvas().Unfocus()
	if left != 1 {
		t.Errorf("leaving is told %d times", left)
	}
	if keys.runes != "" || keys.keys != nil {
		t.Errorf("the window gets %q and %v of what is typed", keys.runes, keys.keys)
	}
}
