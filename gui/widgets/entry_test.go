package widgets

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/settings"
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
	e.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyS, Modifier: fyne.KeyModifierShortcutDefault})
	if keys.shortcuts != 0 {
		t.Error("the window gets keys with Ctrl of what is typed in")
	}
	e.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyQ, Modifier: fyne.KeyModifierShortcutDefault})
	if keys.shortcuts != 1 {
		t.Error("the keys that quit do nothing while a name is typed")
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

// A line that may have so many letters takes as many of what is typed or pasted, keeps them,
// and tells of the rest.
func TestEntryIsFull(t *testing.T) {
	e := NewEntry(new(heardKeys), "Name")
	shownIn(t, e, 200, 40).Canvas().Focus(e)
	full := 0
	e.Most, e.OnFull = func() int { return 5 }, func() { full++ }
	clipboard := fyne.CurrentApp().Clipboard()
	paste := func(text string) {
		clipboard.SetContent(text)
		e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard})
	}
	test.Type(e, "äb")
	if paste("öd"); e.Text != "äböd" || full != 0 {
		t.Errorf("with room it has %q, told %d times", e.Text, full)
	}
	if paste("\U0001F600fghij"); e.Text != "äböd\U0001F600" || full != 1 || clipboard.Content() != "\U0001F600fghij" {
		t.Errorf("pasted, it has %q, told %d times", e.Text, full)
	}
	test.Type(e, "z")
	if paste("z"); e.Text != "äböd\U0001F600" || full != 3 {
		t.Errorf("full, it has %q, told %d times", e.Text, full)
	}
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	if test.Type(e, "new"); e.Text != "new" || full != 3 {
		t.Errorf("typed over what is selected, it has %q, told %d times", e.Text, full)
	}
	e.Most = func() int { return 0 } // it has more than it may: that stays, and can be made less
	if test.Type(e, "z"); e.Text != "new" || full != 4 {
		t.Errorf("with more than it may have, it has %q, told %d times", e.Text, full)
	}
	if e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace}); e.Text != "ne" {
		t.Errorf("made less, it has %q", e.Text)
	}
}

// A line of which nobody says how much it may have takes what a person types, and not the
// megabytes that a clipboard may hold.
func TestEntryIsBounded(t *testing.T) {
	e := NewEntry(new(heardKeys), "Search")
	shownIn(t, e, 200, 40).Canvas().Focus(e)
	clipboard := fyne.CurrentApp().Clipboard()
	clipboard.SetContent(strings.Repeat("\U0001F600", 1_000_000))
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard})
	if test.Type(e, "a"); e.Text != strings.Repeat("\U0001F600", lineMost) {
		t.Errorf("it has %d bytes", len(e.Text))
	}
}

// A longer text is broken into lines no wider than the entry, so that it can be drawn at all;
// Return ends typing, and lines that are pasted stay lines.
func TestTextEntry(t *testing.T) {
	e := NewTextEntry(new(heardKeys), "Words")
	shownIn(t, e, 300, 40).Canvas().Focus(e)
	for _, text := range []string{strings.Repeat("softer edge, ", 308), strings.Repeat("W", 4000), strings.Repeat("\U0001F600", 400)} {
		e.SetText(text)
		widest := float32(0)
		for _, line := range linesOf(e) {
			widest = max(widest, fyne.MeasureText(line, TextSize(), fyne.TextStyle{}).Width)
		}
		if widest > 300 || widest < 200 {
			t.Errorf("%.9q has lines %g wide in an entry of 300", text, widest)
		}
	}
	said := ""
	e.OnSubmitted = func(text string) { said = text }
	e.SetText("lost")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if said != "lost" || e.Text != "lost" {
		t.Errorf("after Return it says %q, and has %q", said, e.Text)
	}
	clipboard := fyne.CurrentApp().Clipboard()
	clipboard.SetContent("a\nb")
	e.SetText("")
	if e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard}); e.Text != "a\nb" {
		t.Errorf("pasted, it has %q", e.Text)
	}
}

// In a row of any size of text a letter stands in its middle, within two pixels: the toolkit leaves all
// room at the foot.
func TestEntryIsCentred(t *testing.T) {
	for _, percent := range []int{125, 150, 200} {
		e := NewEntry(new(heardKeys), "H")
		w := shownIn(t, e, 100, 100)
		fyne.CurrentApp().Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		w.Resize(fyne.NewSize(100, Row()))
		img := w.Canvas().Capture()
		ground, top, foot := img.At(80, int(Row()/2)), -1, -1
		for y := 4; y < int(Row())-4; y++ { // without the edge
			for x := 10; x < 40; x++ {
				if img.At(x, y) != ground {
					top, foot = cmp.Or(max(top, 0), y), y+1
				}
			}
		}
		if off := float32(top+foot)/2 - Row()/2; top < 0 || off < -2 || off > 2 {
			t.Errorf("%d %%: the letter goes from %d to %d in a row of %g", percent, top, foot, Row())
		}
	}
}
