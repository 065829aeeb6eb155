package widgets

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// silentMirror is a mirror whose owner does nothing.
func silentMirror() *Mirror {
	return NewMirror(MirrorActs{
		Click: func(image.Point, bool) {}, Drag: func(image.Rectangle, bool) {}, Carry: func(int, image.Point, bool) {},
		Select: func(int) {}, Look: func(image.Point, bool) {}, Resized: func() {}, Menu: func(fyne.Position) {}, Keys: &heardKeys{},
	})
}

// everyDrawn are all widgets that draw themselves, with something to show.
func everyDrawn() map[string]fyne.Widget {
	verdict, groups, spread, cards := NewVerdict(), NewGroupBar(), NewSpread(SpreadActs{}), NewCardGrid(CardActs{})
	verdict.Set(everySentence()[8])
	groups.Set(scene().Groups)
	spread.Set(scene())
	cards.Set(extremes())
	family := NewFamilyRow(FamilyActs{})
	family.Set(wording.FamilyRowText{Tones: "2.2 tones", Says: "the shadow will not read from afar", SaysShort: "will not read",
		Remarks: []string{"a remark of so many words that a narrow row has to break it into lines"}, Lines: []colour.RGB{{R: 9}}, Keep: "Keep", Cross: "Not this"})
	swatches := NewSwatchRow(SwatchPlan{Height: 40, Greys: 16, Labels: true, Columns: 2}, SwatchActs{})
	swatches.Set([]Swatch{{Label: "a long label"}, {None: true, Label: "no room"}, {Marked: true, Short: true}})
	bar := NewSourceBar(&heardKeys{})
	bar.Set(SignLive, TextForms{"The picture is live and of that size", "Live"}, TextForms{"all of it is counted", "all"})
	mirror := silentMirror()
	whole := image.NewRGBA(image.Rect(0, 0, 400, 300))
	mirror.SetPicture(whole, image.NewRGBA(image.Rect(0, 0, 64, 48)), whole.Rect, whole.Rect, false)
	mirror.SetMarks([]Mark{{Name: "A", At: image.Pt(20, 20)}, {Name: "B", Area: image.Rect(50, 50, 90, 90), Selected: true}})
	item := NewShelfItem()
	item.Set([]string{"a still", "its gaps", "the rest"}, whole)
	picker := NewPicker()
	picker.Begin(whole, whole.Rect, image.Rect(10, 10, 200, 200), nil)
	return map[string]fyne.Widget{"verdict": verdict, "groups": groups, "spread": spread, "cards": cards, "family": family,
		"swatches": swatches, "bar": bar, "mirror": mirror, "shelf item": item,
		"chooser": NewChooser([]string{"one", "two"}, 32, &heardKeys{}, nil), "panel": newPanel(Radius),
		"picker": picker}
}

// seen tells of all that is drawn what it shows, and where it lies if that is asked for.
func seen(o fyne.CanvasObject, places bool) (all []string) {
	line := fmt.Sprintf("%T visible %v", o, o.Visible())
	if places {
		line += fmt.Sprint(o.Position(), o.Size())
	}
	switch o := o.(type) {
	case *canvas.Text:
		line += fmt.Sprint(o.Text, o.Color, o.TextSize)
	case *canvas.Rectangle:
		line += fmt.Sprint(o.FillColor, o.StrokeColor, o.StrokeWidth)
	case *widget.Label:
		return append(all, line+o.Text)
	case fyne.Widget:
		for _, part := range test.WidgetRenderer(o).Objects() {
			all = append(all, seen(part, places)...)
		}
	}
	return append(all, line)
}

// Fyne may lay a widget out as often as it likes, in any size: that changes nothing of what
// the widget shows, and in the old size all lies where it lay.
func TestLayoutOnlyMoves(t *testing.T) {
	for name, w := range everyDrawn() {
		shownIn(t, w, 380, 300)
		words, places := seen(w, false), seen(w, true)
		for _, size := range []fyne.Size{{Width: 170, Height: 90}, {Width: 900, Height: 700}, w.Size()} {
			if name != "cards" { // its parts are widgets, which may write for their sizes
				test.WidgetRenderer(w).Layout(size)
			}
			if got := seen(w, false); !slices.Equal(got, words) {
				t.Errorf("%s: laid out in %v it shows another thing:\n%q\n%q", name, size, got, words)
			}
		}
		if got := seen(w, true); !slices.Equal(got, places) {
			t.Errorf("%s: back in its size it lies differently", name)
		}
	}
}

// A size given twice, with another in between, looks the same: nothing is left over.
func TestResizeLeavesNothing(t *testing.T) {
	for name, w := range everyDrawn() {
		shownIn(t, w, 380, 300)
		before := seen(w, true)
		w.Resize(fyne.NewSize(230, 200))
		if name != "panel" && name != "chooser" && name != "shelf item" && slices.Equal(seen(w, true), before) {
			t.Errorf("%s: another size changes nothing", name)
		}
		w.Resize(fyne.NewSize(380, 300))
		if w.Refresh(); !slices.Equal(seen(w, true), before) {
			t.Errorf("%s: something of another size is left over", name)
		}
	}
}

// What has the focus is revealed, and hands on all that it has no use for; a space has
// pressed it.
func TestFocusHandsOn(t *testing.T) {
	keys := &heardKeys{}
	nothing := func(int) {}
	swatches := NewSwatchRow(SwatchPlan{Height: 40}, SwatchActs{Keys: keys})
	swatches.Set([]Swatch{{Label: "one"}})
	for name, w := range map[string]fyne.Focusable{
		"button":   NewButton("One", keys, func() {}),
		"chooser":  NewChooser([]string{"one", "two"}, 32, keys, nothing),
		"card":     newSpotCard(0, CardActs{Keys: keys, Copy: nothing, Select: nothing, Delete: nothing}),
		"family":   NewFamilyRow(FamilyActs{Keys: keys, Point: func(bool) {}}),
		"swatches": swatches,
		"spread":   NewSpread(SpreadActs{Keys: keys}),
	} {
		*keys = heardKeys{}
		win := shownIn(t, w.(fyne.CanvasObject), 300, 100)
		before := win.Canvas().Capture()
		win.Canvas().Focus(w)
		if len(keys.revealed) != 1 || keys.revealed[0] != w.(fyne.CanvasObject) {
			t.Errorf("%s: %d parts are revealed", name, len(keys.revealed))
		}
		if after := win.Canvas().Capture(); slices.Equal(after.(*image.NRGBA).Pix, before.(*image.NRGBA).Pix) {
			t.Errorf("%s: the focus is not seen", name)
		}
		w.TypedRune('v')
		w.TypedRune(' ')
		w.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
		w.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutUndo{})
		if keys.runes != "v" || !slices.Equal(keys.keys, []fyne.KeyName{fyne.KeyF1}) || keys.shortcuts != 1 {
			t.Errorf("%s hands on %q, %v and %d shortcuts", name, keys.runes, keys.keys, keys.shortcuts)
		}
	}
}

// Shift is known while it is held, and forgotten when the focus goes.
func TestShiftKey(t *testing.T) {
	f := shiftFocus{focus: focus{keys: &heardKeys{}, changed: func() {}}}
	f.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftRight})
	f.KeyDown(&fyne.KeyEvent{Name: fyne.KeyA})
	if !f.shift {
		t.Error("Shift is held, and not known")
	}
	if f.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftRight}); f.shift {
		t.Error("Shift is up, and not known")
	}
	f.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	if f.FocusLost(); f.shift {
		t.Error("Shift is known without the focus")
	}
}

// Messages take room while there are any; what is scrolled is as wide as the page, and its
// wrapped words are laid out in that width at once.
func TestPageMeasures(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.GroundDark))
	words := SmallLabel()
	words.SetText(strings.Repeat("so many words that they take more lines than there is room for in a narrow window, and fewer in a wide one ", 12))
	below := NewVerdict()
	var page *Page
	messages := NewMessageBar(&heardKeys{}, func() {
		if page != nil {
			page.Refresh()
		}
	})
	mirror := silentMirror()
	page = NewPage(PageParts{Bar: NewSourceBar(&heardKeys{}), Messages: messages, Mirror: mirror, Verdict: NewVerdict(),
		Lower: container.NewVScroll(container.NewVBox(words, below)), Tabs: NewChooser([]string{"One", "Two"}, 44, &heardKeys{}, nil)})
	shownIn(t, page, 320, 600)
	say := func(sentence string) {
		messages.Set(sentence, "Close", func() { messages.Set("", "", nil) })
	}
	narrow, alone := words.MinSize().Height, mirror.Size().Height
	say("The picture moved. Place the spots again, all of them, one after the other, in the order you like.")
	if took := alone - mirror.Size().Height; took != messages.Size().Height || took < messages.MinSize().Height || took == 0 {
		t.Errorf("messages %g high, which ask for %g, took %g from the mirror", messages.Size().Height, messages.MinSize().Height, took)
	}
	if test.Tap(messages.button); mirror.Size().Height != alone || messages.Visible() {
		t.Errorf("closed, %q is shown, the mirror is %g high, was %g", messages.Text(), mirror.Size().Height, alone)
	}
	page.Resize(fyne.NewSize(700, 600))
	if words.MinSize().Height >= narrow {
		t.Errorf("in a wide window the words are %g high, in a narrow one %g", words.MinSize().Height, narrow)
	}
	say("The picture moved. Place the spots again, all of them, one after the other, in the order you like.")
	page.Resize(fyne.NewSize(320, 600))
	if got := messages.Size().Height; got != alone-mirror.Size().Height || got < messages.MinSize().Height {
		t.Errorf("in a narrow window again, messages are %g high, ask for %g", got, messages.MinSize().Height)
	}
	for _, width := range []float32{340, 320} {
		page.Resize(fyne.NewSize(width, 600))
		if gap := below.Position().Y - words.Position().Y - words.MinSize().Height; gap < 0 || gap > 2*Step {
			t.Errorf("%g wide: below the words something begins %g after their end", width, gap)
		}
	}
}
