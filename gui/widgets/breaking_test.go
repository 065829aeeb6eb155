package widgets

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/settings"
)

// linesOf are the lines that an entry shows.
func linesOf(e fyne.Widget) (lines []string) {
	if own, is := e.(*Entry); is && own.seen != nil {
		return own.seen.words
	}
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *canvas.Text:
			lines = append(lines, o.Text)
		case fyne.Widget:
			for _, part := range test.WidgetRenderer(o).Objects() {
				walk(part)
			}
		}
	}
	walk(e)
	return lines
}

// Lines are those that the toolkit breaks by itself, whatever is written in whatever width; also
// after more was typed, and in another width. Where many letters join they fit, and the cursor is where it was.
func TestBreakingIsFynes(t *testing.T) {
	app := test.NewTempApp(t)
	alphabets := []string{"aeiou nrst, ", "W", "il.' ", "ÄÖß ", "漢字かな", "Ж щ", "\U0001F600", "\U0001F600\U0001F3A8\U0001F317\U0001F004", "\U0001F44B\U0001F3FD\U0001F1EB\U0001F1F7", "fi ffl AVAToTe ", "e\u0301 ", "שלום ", "a\t\n"}
	lawtest.SkipRaced(t)
	rapid.Check(t, func(r *rapid.T) {
		// A letter that no typeface has makes each next one slower, until the theme is set.
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
		var text strings.Builder
		for range rapid.IntRange(1, 4).Draw(r, "runs") {
			letters := []rune(rapid.SampledFrom(alphabets).Draw(r, "letters"))
			for range rapid.IntRange(1, 60).Draw(r, "length") {
				text.WriteRune(rapid.SampledFrom(letters).Draw(r, "letter"))
			}
		}
		widths := rapid.SliceOfN(rapid.Float32Range(60, 900), 2, 2).Draw(r, "widths")
		ours, fynes := NewTextEntry(new(heardKeys), ""), NewTextEntry(new(heardKeys), "")
		for _, width := range widths {
			ours.Resize(fyne.NewSize(width, 40))
			ours.SetText(text.String())
			fynes.Entry.Resize(fyne.NewSize(width, 40))
			fynes.Entry.SetText(text.String())
			test.Type(ours, "o")
			fynes.Entry.TypedRune('o')
			if got, at := ours.CursorTextOffset(), fynes.CursorTextOffset(); ours.Text != fynes.Text || got != at {
				r.Fatalf("it has %q, the cursor at %d, the toolkit %q, %d", ours.Text, got, fynes.Text, at)
			}
			if widthsOf(theme.TextSize()).measuredLoosely(ours.Text) {
				linesFit(r, ours, width)
				continue
			}
			if got, want := linesOf(ours), linesOf(fynes); !slices.Equal(got, want) {
				r.Fatalf("%q in %g is broken into %q, by the toolkit into %q", text.String(), width, got, want)
			}
			if ours.CursorRow != fynes.CursorRow || ours.CursorColumn != fynes.CursorColumn {
				r.Fatalf("the cursor is at %d, %d, the toolkit's at %d, %d", ours.CursorRow, ours.CursorColumn, fynes.CursorRow, fynes.CursorColumn)
			}
		}
	})
}

// linesFit fails where a line is wider than there is room.
func linesFit(t interface{ Errorf(string, ...any) }, e *Entry, width float32) {
	for _, line := range linesOf(e) {
		if wide := fyne.MeasureText(line, TextSize(), fyne.TextStyle{}).Width; wide > width {
			t.Errorf("%q is %g wide, of %g", line, wide, width)
		}
	}
}

// Letters that join are all there, in lines that fit.
func TestBreakingJoined(t *testing.T) {
	e := NewTextEntry(new(heardKeys), "")
	shownIn(t, e, 300, 40).Canvas().Focus(e)
	for _, text := range []string{strings.Repeat("👩🏽\u200d🎨", 800), strings.Repeat("e\u0301\u0308", 1000), strings.Repeat("مرحبا", 800)} {
		e.SetText(text)
		linesFit(t, e, 300)
		lines := linesOf(e)
		if strings.Join(lines, "") != text {
			t.Errorf("%.9q is broken into %d lines, of which something is missing", text, len(lines))
		}
	}
}

// shaped counts the letters that a driver measures.
type shaped struct {
	fyne.App
	letters *int
}

func (s shaped) Driver() fyne.Driver { return shapedDriver{s.App.Driver(), s.letters} }

type shapedDriver struct {
	fyne.Driver
	letters *int
}

func (d shapedDriver) RenderedTextSize(text string, size float32, style fyne.TextStyle, source fyne.Resource) (fyne.Size, float32) {
	*d.letters += utf8.RuneCountInString(text)
	return d.Driver.RenderedTextSize(text, size, style, source)
}

// What pasting, typing and another theme cost is what they have shaped: not all of a long text for every line. The
// owner, who is told of the change, measures as ever.
func TestBreakingIsQuick(t *testing.T) {
	for _, text := range []string{strings.Repeat("softer edge, ", 307), strings.Repeat("W", 3999), strings.Repeat("\U0001F600", 3999)} {
		e := NewTextEntry(new(heardKeys), "")
		shownIn(t, e, 340, 40).Canvas().Focus(e)
		wide, long := float32(0), strings.Repeat("long ", 2000)
		e.OnChanged = func(string) { wide = fyne.MeasureText(long, TextSize(), fyne.TextStyle{}).Width }
		want := fyne.MeasureText(long, TextSize(), fyne.TextStyle{}).Width
		letters, app := 0, fyne.CurrentApp()
		fyne.SetCurrentApp(shaped{app, &letters})
		clipboard := app.Clipboard()
		clipboard.SetContent(text)
		e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard})
		pasted := letters
		test.Type(e, "a")
		typed := letters - pasted
		SetTheme(app, NewTheme(settings.ThemeLight, 125), 340)
		restyled := letters - pasted - typed
		fyne.SetCurrentApp(app)
		// 200 lines with 1,000 letters each, in a few tries and passes: our choice. All that is left
		// for each line would be millions.
		if max(pasted, typed, restyled) > 200_000 {
			t.Errorf("%.9q: pasting has %d letters measured, typing one more %d, another theme %d", text, pasted, typed, restyled)
		}
		if wide != want {
			t.Errorf("who is told measures %g, not %g", wide, want)
		}
		if fyne.CurrentApp() != app {
			t.Error("the app is another one afterwards")
		}
	}
}
