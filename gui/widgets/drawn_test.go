package widgets

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/settings"
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
	sentence, groups, spread, spots := NewSentence(), NewGroupsCard(GroupsActs{}), NewSpread(SpreadActs{}), NewSpots(SpotActs{})
	sentence.Set(everySentence()[8])
	groups.Set(groupsText(scene().Groups, 2.5, 1.5))
	spread.Set(scene())
	state, _ := spotsOf(2)
	spots.Set(state)
	family := NewFamilyRow(FamilyActs{})
	family.Set(soTold("hue shift 44° toward magenta, 40 % richer"))
	target := NewTargetCard(&heardKeys{}, nil, nil)
	target.Set(TargetText{Name: "a tone sketch", Distance: "0.8 tones from it on average", Shares: "9 % less middle, 6 % more light, 3 % more dark"}, image.NewRGBA(image.Rect(0, 0, 40, 30)))
	fold := NewFold("", nil, &heardKeys{}, nil)
	fold.Set("Unsure (3)", false)
	swatches := NewSwatchRow(SwatchPlan{Height: 40, Greys: 16, Labels: true, Cell: 60}, SwatchActs{})
	swatches.Set([]Swatch{{Label: "a long label"}, {None: true, Label: "no room"}, {Marked: true}})
	hues := NewHueStrip(SwatchActs{})
	hues.Set([]Swatch{{Grey: 9}, {Grey: 9}, {Grey: 9}}, 1)
	line := NewLine("a long form of some words", "short")
	bar := NewSourceBar(&heardKeys{})
	bar.SetView("A view with a long name")
	chip := NewSourceChip(&heardKeys{})
	chip.Set(SourceText{Icon: icons.File, Name: "A picture with a name that is long.png", Sign: SignLive, State: [3]string{"1200 × 900, live", "live, 10 a second, all of it", "live"}})
	strip := NewStrip(&heardKeys{}, func(float64) {})
	strip.SetReading(StripReading{Lightness: "56.0", Value: "5.5"})
	mirror := silentMirror()
	whole := image.NewRGBA(image.Rect(0, 0, 400, 300))
	mirror.SetPicture(whole, image.NewRGBA(image.Rect(0, 0, 64, 48)), whole.Rect, whole.Rect, false)
	mirror.SetMarks([]Mark{{Name: "A", At: image.Pt(20, 20)}, {Name: "B", Area: image.Rect(50, 50, 90, 90), Selected: true}})
	item := NewStillItem()
	item.Set("a still", "today 22:01", whole, true)
	picker := NewPicker(&heardKeys{})
	picker.Begin(whole, whole.Rect, image.Rect(10, 10, 200, 200), nil)
	hints := NewHints([]Hint{{Words: "Stay on top of the painting program", Short: "Stay on top", Note: "so many words that a narrow panel has to break them"}}, "a line of so many words that it has to be broken")
	list := NewPicklist([]string{"one", "two"}, 1, &heardKeys{}, nil, nil)
	return map[string]fyne.Widget{"hints": hints, "list": list, "switch": NewSwitch(true, &heardKeys{}, nil), "sentence": sentence, "groups": groups, "spread": spread, "spots": spots, "family": family,
		"swatches": swatches, "hues": hues, "line": line, "bar": bar, "chip": chip, "strip": strip, "mirror": mirror, "still": item,
		"target": target, "fold": fold, "heading": NewHeading(icons.Target, "Target", "what to paint toward in a narrow window"),
		"chooser": NewChooser([]string{"one", "two"}, &heardKeys{}, nil), "panel": newPanel(Radius),
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
			if name != "spots" && name != "bar" && name != "target" && name != "groups" { // its parts are widgets, which may write for their sizes
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
		if name != "panel" && name != "chooser" && name != "fold" && name != "still item" && slices.Equal(seen(w, true), before) {
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
	hues := NewHueStrip(SwatchActs{Keys: keys})
	hues.Set([]Swatch{{}, {}}, 0)
	for name, w := range map[string]fyne.Focusable{
		"button":   NewButton("One", keys, func() {}),
		"chip":     NewSourceChip(keys),
		"chooser":  NewChooser([]string{"one", "two"}, keys, nothing),
		"spot row": newSpotRow(0, SpotActs{Keys: keys, Copy: nothing, Select: nothing, Delete: nothing}),
		"side":     newPairSide(0, SpotActs{Keys: keys, Copy: nothing, Select: nothing, Delete: nothing}),
		"family":   NewFamilyRow(FamilyActs{Keys: keys, Point: func(bool) {}}),
		"swatches": swatches,
		"hues":     hues,
		"spread":   NewSpread(SpreadActs{Keys: keys}),
		"switch":   NewSwitch(false, keys, func(bool) {}),
		"list":     NewPicklist([]string{"one", "two"}, 0, keys, nil, nothing),
		"link":     NewLink([2]string{"one", "one"}, keys, func() {}),
		"slider":   NewSlider(0, 1, 0.1, keys),
		"way":      newWayButton(Way{Words: "one", Do: func() {}}, keys),
		"fold":     NewFold("", nil, keys, func() {}),
	} {
		*keys = heardKeys{}
		win := shownIn(t, container.New(layout.NewCustomPaddedLayout(Step, Step, Step, Step), w.(fyne.CanvasObject)), 300, 100) // outlines lie around
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

// What is scrolled is as wide as the page, and its wrapped words are laid out in that width at
// once; messages lie over the picture and take no room, whatever they say.
func TestPageMeasures(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	words := SmallLabel()
	words.SetText(strings.Repeat("so many words that they take more lines than there is room for in a narrow window, and fewer in a wide one ", 12))
	below := newPanel(0)
	page, parts := pageOf(silentMirror())
	parts.Lower.Set(container.NewVBox(words, below), nil, nil)
	shownIn(t, page, 320, 600)
	where := func() (all []string) {
		for _, o := range page.objects {
			if o != parts.Messages {
				all = append(all, fmt.Sprintf("%T %v %v", o, o.Position(), o.Size()))
			}
		}
		return all
	}
	before, narrow := where(), words.MinSize().Height
	long := Message{Words: strings.Repeat("The picture moved. ", 20)}
	parts.Messages.Set([]Message{long, long, long}, long, long)
	page.Refresh()
	if m := parts.Messages; !slices.Equal(where(), before) || m.Position() != parts.Mirror.Position() || m.Size().Height < m.MinSize().Height {
		t.Errorf("with a message all lies at %v, was %v; the message is %v at %v", where(), before, m.Size(), m.Position())
	}
	page.Resize(fyne.NewSize(700, 700))
	if words.MinSize().Height >= narrow {
		t.Errorf("in a wide window the words are %g high, in a narrow one %g", words.MinSize().Height, narrow)
	}
	for _, width := range []float32{340, 320} {
		page.Resize(fyne.NewSize(width, 700))
		if gap := below.Position().Y - words.Position().Y - words.MinSize().Height; gap < 0 || gap > 2*Step {
			t.Errorf("%g wide: below the words something begins %g after their end", width, gap)
		}
	}
}

// pageOf is a page about a mirror.
func pageOf(m *Mirror) (*Page, PageParts) {
	parts := PageParts{
		Start: canvas.NewRectangle(nil),
		Bar:   NewSourceBar(&heardKeys{}), Messages: NewMessages(&heardKeys{}, nil), Mirror: m, Strip: NewStrip(&heardKeys{}, nil),
		Sentence: NewSentence(), Lower: NewPageColumn(), Tabs: NewTabs([]string{"One", "Two"}, &heardKeys{}, nil), Later: func(time.Duration) {},
	}
	parts.Lower.Set(newPanel(0), nil, nil)
	return NewPage(parts), parts
}
