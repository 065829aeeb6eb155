package gui

import (
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"
)

// Whatever the zoom, the part shown lies in the picture, has its shape, and the pixel under
// the pointer stays where it is, as far as the picture's borders let it.
func TestZoomed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bounds := image.Rect(0, 0, rapid.IntRange(40, 3000).Draw(t, "width"), rapid.IntRange(40, 3000).Draw(t, "height")).
			Add(image.Pt(rapid.IntRange(-500, 500).Draw(t, "x"), rapid.IntRange(-500, 500).Draw(t, "y")))
		view := image.Rectangle{}
		for range rapid.IntRange(1, 20).Draw(t, "steps") {
			part := partShown(view, bounds)
			at := image.Pt(rapid.IntRange(part.Min.X, part.Max.X-1).Draw(t, "at x"), rapid.IntRange(part.Min.Y, part.Max.Y-1).Draw(t, "at y"))
			by := rapid.SampledFrom([]float64{zoomStep, 1 / zoomStep, 2}).Draw(t, "by")
			view = zoomed(part, bounds, at, by)
			now := partShown(view, bounds)
			if !now.In(bounds) || now.Dx() < leastView || now.Dy() < leastView {
				t.Fatalf("part %v of %v", now, bounds)
			}
			if !at.In(now) {
				t.Fatalf("the pixel %v is not in the part %v any more", at, now)
			}
			inside := now.Min.X > bounds.Min.X && now.Min.Y > bounds.Min.Y && now.Max.X < bounds.Max.X && now.Max.Y < bounds.Max.Y
			before := (float64(at.X-part.Min.X) + 0.5) / float64(part.Dx())
			after := (float64(at.X-now.Min.X) + 0.5) / float64(now.Dx())
			if inside && math.Abs(before-after) > 1.6/float64(now.Dx()) {
				t.Fatalf("the pixel went from %.3f to %.3f of the width", before, after)
			}
		}
	})
}

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
