package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// windowless is the tests' driver before anything was drawn.
type windowless struct{ fyne.Driver }

func (windowless) CanvasForObject(fyne.CanvasObject) fyne.Canvas { return nil }

type windowlessApp struct{ fyne.App }

func (a windowlessApp) Driver() fyne.Driver { return windowless{a.App.Driver()} }

// A press that comes before the first drawing does nothing; later it opens the list.
func TestSelectBeforeItIsDrawn(t *testing.T) {
	app := test.NewTempApp(t)
	s := NewSelect([]string{"dark", "light"}, nil)
	w := test.NewTempWindow(t, s)
	fyne.SetCurrentApp(windowlessApp{app})
	s.Tapped(&fyne.PointEvent{})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	fyne.SetCurrentApp(app)
	if w.Canvas().Overlays().Top() != nil {
		t.Error("a list is open that nobody sees")
	}
	test.Tap(s)
	if w.Canvas().Overlays().Top() == nil {
		t.Error("no list opens")
	}
}
