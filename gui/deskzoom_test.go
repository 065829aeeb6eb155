package gui

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
)

// Clicks in an enlarged picture read the pixels that are seen, and statistics stay those of
// the whole picture.
func TestZoomedMirrorReads(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	for x := 300; x < 304; x++ { // a detail
		for y := 100; y < 104; y++ {
			img.SetNRGBA(x, y, color.NRGBA{255, 255, 255, 255})
		}
	}
	d.see(t, img)
	groups := d.worker.done.reading.Histogram
	m := d.parts.mirror
	for range 8 {
		m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: m.fit.pane(image.Pt(301, 101))}, Scrolled: fyne.NewDelta(0, 10)})
		d.see(t, img)
	}
	if m.fit.Bounds.Dx() > 80 || m.fit.Bounds.Dx() < leastView {
		t.Fatalf("after eight turns of the wheel %v is shown", m.fit.Bounds)
	}
	if d.worker.done.reading.Histogram != groups {
		t.Error("the statistics are of the part that is shown")
	}
	press(m, image.Pt(301, 101), 0)
	d.see(t, img)
	if got := d.spots[0].Lightness; got < 99.9 {
		t.Errorf("the detail reads %.1f", got)
	}
	before := m.fit.Bounds
	m.Pan(image.Pt(-1, 0))
	d.see(t, img)
	if m.fit.Bounds.Min.X >= before.Min.X {
		t.Errorf("panned to the left %v shows, before %v", m.fit.Bounds, before)
	}
	m.Zoom(0)
	d.see(t, img)
	if m.fit.Bounds != m.bounds {
		t.Errorf("all of the picture is %v, shown is %v", m.bounds, m.fit.Bounds)
	}
}
