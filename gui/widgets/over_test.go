package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// What stands in place of others has the room of those in one column, and no other's.
func TestOver(t *testing.T) {
	at := func(x, y, w, h float32) fyne.CanvasObject {
		o := canvas.NewRectangle(nil)
		put(o, fyne.NewPos(x, y), fyne.NewSize(w, h))
		return o
	}
	for name, tt := range map[string]struct{ sentence, page, want fyne.CanvasObject }{
		"below each other":     {at(8, 361, 364, 64), at(8, 433, 372, 279), at(8, 361, 364, 351)},
		"in different columns": {at(8, 700, 700, 52), at(728, 48, 372, 700), at(728, 48, 372, 700)},
	} {
		part := canvas.NewRectangle(nil)
		Over(part, tt.sentence, tt.page).Resize(fyne.NewSize(1100, 760))
		if part.Position() != tt.want.Position() || part.Size() != tt.want.Size() {
			t.Errorf("%s: it lies at %v, %v", name, part.Position(), part.Size())
		}
	}
}
