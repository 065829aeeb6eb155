package gui

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

// Clicks in an enlarged picture read the pixels that are seen, and statistics stay those of
// the whole picture.
func TestZoomedMirrorReads(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	for x := 300; x < 304; x++ { // a detail
		for y := 100; y < 104; y++ {
			img.SetNRGBA(x, y, color.NRGBA{255, 255, 255, 255})
		}
	}
	d.see(t, img)
	groups := d.worker.Last().Reading.Histogram
	m := d.Mirror
	for range 8 {
		m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: m.Fit().Pane(image.Pt(301, 101))}, Scrolled: fyne.NewDelta(0, 10)})
		d.see(t, img)
	}
	if m.Fit().Bounds.Dx() > 80 || m.Fit().Bounds.Dx() < widgets.LeastView {
		t.Fatalf("after eight turns of the wheel %v is shown", m.Fit().Bounds)
	}
	if d.worker.Last().Reading.Histogram != groups {
		t.Error("the statistics are of the part that is shown")
	}
	press(m, image.Pt(301, 101), 0)
	d.see(t, img)
	if got := d.last.spots[0].Lightness; got < 99.9 {
		t.Errorf("the detail reads %.1f", got)
	}
	before := m.Fit().Bounds
	m.Pan(image.Pt(-1, 0))
	d.see(t, img)
	if m.Fit().Bounds.Min.X >= before.Min.X {
		t.Errorf("panned to the left %v shows, before %v", m.Fit().Bounds, before)
	}
	m.Zoom(0)
	d.see(t, img)
	if m.Fit().Bounds != m.Bounds() {
		t.Errorf("all of the picture is %v, shown is %v", m.Bounds(), m.Fit().Bounds)
	}
}
