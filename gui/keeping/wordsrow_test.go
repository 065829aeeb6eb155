package keeping

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/widgets"
)

// Undo and redo are always in sight: in the row of tools, or beside the words where that is too narrow.
func TestStepsAreInSight(t *testing.T) {
	test.NewTempApp(t)
	tools, acts := make([]widgets.Tool, 9), make([]widgets.Tool, 2)
	for _, of := range [][]widgets.Tool{tools, acts} {
		for i := range of {
			of[i] = widgets.Tool{Icon: icons.Undo, Do: func() {}}
		}
	}
	row := widgets.NewToolRow(tools, acts, nil, nil)
	test.WidgetRenderer(row)
	beside := canvas.NewRectangle(nil)
	words := container.New(wordsRow{row}, canvas.NewRectangle(nil), beside)
	for width, left := range map[float32]bool{304: true, 364: false} {
		row.Resize(fyne.NewSize(width, 40))
		words.Resize(fyne.NewSize(width, 36))
		if beside.Visible() != left || row.Acts[0].Visible() == left {
			t.Errorf("%g wide: beside the words %v, in the row %v", width, beside.Visible(), row.Acts[0].Visible())
		}
		if end := beside.Position().X + beside.Size().Width; left && (beside.Size().Width < 32 || end > width) {
			t.Errorf("it is %g wide and ends at %g of %g", beside.Size().Width, end, width)
		}
	}
}
