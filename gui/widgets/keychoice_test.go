package widgets

import (
	"fmt"
	"image"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// typeKeys sends keys to a part as the toolkit does: each goes down, and what was typed is told before
// any comes up.
func typeKeys(k *KeyChoice, names ...fyne.KeyName) {
	for i, n := range names {
		k.KeyDown(&fyne.KeyEvent{Name: n})
		if _, held := modifierKeys[n]; !held {
			if i > 0 {
				k.TypedShortcut(&desktop.CustomShortcut{KeyName: n})
			} else {
				k.TypedKey(&fyne.KeyEvent{Name: n})
			}
			k.TypedRune('x')
		}
	}
	for _, n := range slices.Backward(names) {
		k.KeyUp(&fyne.KeyEvent{Name: n})
	}
}

// A tap or Enter listens; the next keys are chosen, or refused and asked for again; Esc, another tap
// and the loss of the focus end it without a change, Delete with none; none of it reaches the window.
func TestKeyChoice(t *testing.T) {
	var keys heardKeys
	var told []string
	refuse := false
	k := NewKeyChoice("Ctrl+Alt+1", &keys, nil, KeyActs{
		Listens: func(on bool) { told = append(told, fmt.Sprint("listens ", on)) },
		Chosen: func(held fyne.KeyModifier, key fyne.KeyName) bool {
			told = append(told, fmt.Sprint(held, key))
			return !refuse
		},
		Cleared: func() { told = append(told, "cleared") },
	})
	w := shownIn(t, k, 200, 40)
	expect := func(what, words string, want ...string) {
		t.Helper()
		if !slices.Equal(told, want) || k.Words() != words {
			t.Errorf("%s: told %q, shown %q; want %q, %q", what, told, k.Words(), want, words)
		}
		told = nil
	}
	const ctrlAlt = fyne.KeyModifierControl | fyne.KeyModifierAlt
	k.Tapped(nil)
	expect("tapped", pressAKey.String(), "listens true")
	typeKeys(k, desktop.KeyControlLeft, desktop.KeyAltRight, fyne.KeyB)
	expect("chosen", "Ctrl+Alt+1", fmt.Sprint(ctrlAlt, "B"), "listens false")
	k.Set("Ctrl+Alt+B")
	typeKeys(k, fyne.KeyReturn)
	expect("Enter", pressAKey.String(), "listens true")
	refuse = true
	typeKeys(k, fyne.KeyC)
	typeKeys(k, desktop.KeyShiftLeft, fyne.KeyC)
	expect("refused", pressAKey.String(), "0C", fmt.Sprint(fyne.KeyModifierShift, "C"))
	typeKeys(k, fyne.KeyEscape)
	expect("Esc", "Ctrl+Alt+B", "listens false")
	k.Tapped(nil)
	k.Tapped(nil)
	expect("tapped twice", "Ctrl+Alt+B", "listens true", "listens false")
	k.Tapped(nil)
	w.Canvas().Unfocus()
	expect("left", "Ctrl+Alt+B", "listens true", "listens false")
	k.Tapped(nil)
	typeKeys(k, fyne.KeyDelete)
	expect("Delete", "Ctrl+Alt+B", "listens true", "cleared", "listens false")
	k.Set("")
	if k.Words() != noKeyWords.String() {
		t.Errorf("no key is shown as %q", k.Words())
	}
	if keys.runes != "" {
		t.Errorf("the window gets the letters %q", keys.runes)
	}
	if keys.keys != nil || keys.shortcuts > 0 {
		t.Errorf("the window gets %v and %d shortcuts", keys.keys, keys.shortcuts)
	}
	typeKeys(k, fyne.KeyV) // it doesn't listen
	k.TypedShortcut(&fyne.ShortcutUndo{})
	if !slices.Equal(keys.keys, []fyne.KeyName{fyne.KeyV}) || keys.shortcuts != 1 {
		t.Errorf("the window's own keys: %v, %d", keys.keys, keys.shortcuts)
	}
}

// What is fixed is marked by its letter in the pair and in the table, and on the picture neither
// shown nor taken hold of.
func TestFixedIsMarked(t *testing.T) {
	side := newPairSide(0, SpotActs{})
	shownIn(t, side, 80, 140)
	row := newSpotRow(0, SpotActs{})
	shownIn(t, row, 320, 32)
	for _, fixed := range []bool{true, false} {
		text := extremeSpots(1).Texts[0]
		text.Fixed = fixed
		side.set(text, planPair(320, 1, false, plainWidth))
		row.set(text, true, true)
		if side.frame.Visible() != fixed || row.frame.Visible() != fixed || (side.fixed.Text == "fixed") != fixed {
			t.Errorf("fixed %v: frames %v and %v, word %q", fixed, side.frame.Visible(), row.frame.Visible(), side.fixed.Text)
		}
		m := NewMirror(MirrorActs{Resized: func() {}, Look: func(image.Point, bool) {}, Carry: func(int, image.Point, bool) {
			if fixed {
				t.Error("a key moves what is fixed")
			}
		}})
		m.SetPicture(image.NewRGBA(image.Rect(0, 0, 40, 40)), nil, image.Rect(0, 0, 40, 40), image.Rect(0, 0, 40, 40), false)
		m.SetMarks([]Mark{{Name: "A", At: image.Pt(20, 20), Fixed: fixed, Selected: true}})
		shownIn(t, m, 40, 40)
		_, taken := m.markAt(m.Fit().Pane(image.Pt(20, 20)))
		if shown := m.marks[0].shows(image.Rect(0, 0, 40, 40)); shown == fixed || taken == fixed {
			t.Errorf("fixed %v: shown on the picture %v, taken hold of %v", fixed, shown, taken)
		}
		m.nudge(image.Pt(1, 0))
	}
}
