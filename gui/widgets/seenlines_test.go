package widgets

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/settings"
)

// shownLine is a line of a text and where it stands in what scrolls it.
type shownLine struct {
	words string
	y     float32
}

// linesShown are the lines of an entry of which some is in sight, and how many letters stand in others.
func linesShown(e *Entry) (seen []shownLine, hidden int) {
	var walk func(o fyne.CanvasObject, y float32)
	walk = func(o fyne.CanvasObject, y float32) {
		y += o.Position().Y
		switch o := o.(type) {
		case *canvas.Text:
			if y < e.rows.Size().Height && y+o.Size().Height > 0 && o.Visible() {
				seen = append(seen, shownLine{o.Text, y})
			} else {
				hidden += len(o.Text)
			}
		case fyne.Widget:
			for _, part := range test.WidgetRenderer(o).Objects() {
				walk(part, y)
			}
		}
	}
	walk(e.rows.Content, 0)
	return seen, hidden
}

// deeds are what can be done to a text.
var deeds = map[string]func(e *Entry, n int){
	"types": func(e *Entry, n int) { e.TypedRune([]rune("ao ,W\U0001F3A8")[n%6]) },
	"pastes": func(e *Entry, n int) {
		clipboard := fyne.CurrentApp().Clipboard()
		clipboard.SetContent(strings.Repeat("soft edges, light\n", n%9)[:n%9*18/2])
		e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard})
	},
	"presses": func(e *Entry, n int) {
		e.TypedKey(&fyne.KeyEvent{Name: []fyne.KeyName{fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight, fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeyBackspace, fyne.KeyDelete}[n%10]})
	},
	"holds Shift":    func(e *Entry, _ int) { e.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft}) },
	"lets Shift go":  func(e *Entry, _ int) { e.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft}) },
	"selects all":    func(e *Entry, _ int) { e.TypedShortcut(&fyne.ShortcutSelectAll{}) },
	"cuts":           func(e *Entry, _ int) { e.TypedShortcut(&fyne.ShortcutCut{Clipboard: fyne.CurrentApp().Clipboard()}) },
	"undoes":         func(e *Entry, _ int) { e.TypedShortcut(&fyne.ShortcutUndo{}) },
	"redoes":         func(e *Entry, _ int) { e.TypedShortcut(&fyne.ShortcutRedo{}) },
	"undoes by menu": func(e *Entry, _ int) { e.Undo() },
	"scrolls":        func(e *Entry, n int) { e.rows.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, float32(n-50))}) },
	"clicks": func(e *Entry, n int) {
		at := fyne.PointEvent{Position: fyne.NewPos(float32(3*n), float32(n%roomy))}
		e.MouseDown(&desktop.MouseEvent{PointEvent: at, Button: desktop.MouseButtonPrimary})
		e.MouseUp(&desktop.MouseEvent{PointEvent: at, Button: desktop.MouseButtonPrimary})
	},
	"drags": func(e *Entry, n int) {
		content := e.rows.Content.(fyne.Draggable)
		for k := range 3 {
			content.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, float32(n+k*20))}, Dragged: fyne.NewDelta(0, 20)})
		}
		content.DragEnd()
	},
	"is another text":  func(e *Entry, n int) { e.SetText(strings.Repeat("another text ", n)) },
	"is emptied":       func(e *Entry, _ int) { e.SetText("") },
	"is resized":       func(e *Entry, n int) { e.Resize(fyne.NewSize(float32(200+n), float32(roomy+n%3*20))) },
	"is switched off":  func(e *Entry, _ int) { e.Disable() },
	"is switched on":   func(e *Entry, _ int) { e.Enable() },
	"is drawn anew":    func(e *Entry, _ int) { e.Refresh() },
	"has larger text":  func(*Entry, int) { fyne.CurrentApp().Settings().SetTheme(NewTheme(settings.ThemeDark, 150)) },
	"has text as ever": func(*Entry, int) { fyne.CurrentApp().Settings().SetTheme(NewTheme(settings.ThemeLight, 100)) },
	"is left":          func(e *Entry, _ int) { e.FocusLost() },
	"has the focus":    func(e *Entry, _ int) { e.FocusGained() },
}

// roomy is as high as the toolkit's cursor needs: in less it goes up and down at every refresh.
const roomy = 130

// deed is one of them, done to a text with a number by chance.
type deed struct {
	name string
	n    int
}

// seenText is what an entry shows after a deed.
type seenText struct {
	seen           []shownLine
	hidden         int
	text, selected string
	row, column    int
}

// looks does all deeds to an entry with a text. all: each line is drawn, as by the toolkit.
func looks(t *testing.T, text string, did []deed, all bool) (shown []seenText) {
	test.NewTempApp(t)
	e := NewTextEntry(new(heardKeys), "")
	w := test.NewWindow(container.NewWithoutLayout(e))
	defer w.Close()
	e.Resize(fyne.NewSize(300, roomy))
	e.SetText(text)
	if all {
		for _, line := range e.seen.drawn {
			line.Show()
		}
		e.seen = nil
	}
	e.Refresh()
	for _, d := range did {
		deeds[d.name](e, d.n)
		l := seenText{text: e.Text, selected: e.SelectedText(), row: e.CursorRow, column: e.CursorColumn}
		l.seen, l.hidden = linesShown(e)
		shown = append(shown, l)
	}
	return shown
}

// Whatever is done to a text, the lines in sight are those that the toolkit shows where all are
// drawn, and of the others none is, but for the moment after another theme.
func TestSeenLinesAreTheToolkits(t *testing.T) {
	lawtest.SkipRaced(t)
	names := slices.Sorted(maps.Keys(deeds))
	one := rapid.Custom(func(r *rapid.T) deed {
		return deed{rapid.SampledFrom(names).Draw(r, "deed"), rapid.IntRange(0, 99).Draw(r, "n")}
	})
	rapid.Check(t, func(r *rapid.T) {
		text := strings.Repeat("words of a note ", rapid.IntRange(0, 40).Draw(r, "long"))
		did := rapid.SliceOfN(one, 1, 12).Draw(r, "deeds")
		ours, toolkits := looks(t, text, did, false), looks(t, text, did, true)
		for i, d := range did {
			if ours[i].hidden > 0 && !strings.Contains(d.name, " text") {
				r.Errorf("after it %v: %d letters are drawn that nobody sees", did[:i+1], ours[i].hidden)
			}
			if toolkits[i].hidden = ours[i].hidden; !reflect.DeepEqual(ours[i], toolkits[i]) {
				r.Fatalf("after it %v:\nshows %v\nthe toolkit %v", did[:i+1], ours[i], toolkits[i])
			}
		}
	})
}
