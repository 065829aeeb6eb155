package live

import (
	"image"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/setup"
)

// The chip at the pointer, where it lies on what is watched, isn't counted: by hand, in places of the
// picture that begins at the source's (10, 20).
func TestChipIsLeftOut(t *testing.T) {
	var mask analysis.Mask
	work := task{bounds: image.Rect(10, 20, 110, 120)}
	work.Chips = []image.Rectangle{image.Rect(90, 30, 150, 50), image.Rect(200, 200, 220, 220)}
	work.Setup = setup.Setup{}
	work.leaveOut(&mask, work.bounds.Min)
	if len(mask.Areas) != 1 || mask.Areas[0] != image.Rect(80, 10, 100, 30) {
		t.Errorf("left out are %v", mask.Areas)
	}
}
