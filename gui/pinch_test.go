package gui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/native"
)

// pinchOver makes a pinch with the pointer over a source pixel; every step is the distance
// of the fingers to that at the beginning. by is how far their middle moves at each, pixels.
func (d *Desk) pinchOver(t *testing.T, img *image.NRGBA, at image.Point, by image.Point, steps ...float64) {
	t.Helper()
	m := d.parts.mirror
	p := m.fit.pane(at).Add(d.app.Driver().AbsolutePositionForObject(m))
	event := native.Pinch{Begins: true, X: float64(p.X * m.scale()), Y: float64(p.Y * m.scale()), Scale: 1}
	d.pinched(event)
	for _, scale := range steps {
		event.Begins, event.DX, event.DY, event.Scale = false, float64(by.X), float64(by.Y), scale
		d.pinched(event)
		d.see(t, img)
	}
	event.Ends = true
	d.pinched(event)
}

// Fingers that move apart enlarge the picture about the pixel under the pointer, by as much
// as their distance grew however many steps that took; together, they show all of it again;
// and the picture moves with their middle.
func TestPinch(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	m := d.parts.mirror
	whole, at := m.fit.Bounds, image.Pt(100, 60)
	before := m.fit.pane(at)
	d.pinchOver(t, img, at, image.Point{}, 1.1, 1.23, 1.5, 1.77, 2)
	part := m.fit.Bounds
	if w := whole.Dx() / 2; part.Dx() < w-1 || part.Dx() > w+1 {
		t.Errorf("fingers twice as far apart show %v of %v", part, whole)
	}
	if now := m.fit.pane(at); now.Subtract(before).X > 2 || now.Subtract(before).X < -2 || now.Subtract(before).Y > 2 || now.Subtract(before).Y < -2 {
		t.Errorf("the pixel under the pointer went from %v to %v", before, now)
	}

	d.pinchOver(t, img, at, image.Pt(-9, -6), 1.01, 1.005, 1.01, 1, 1)
	moved := m.fit.Bounds
	if moved.Size() != part.Size() || moved.Min.X <= part.Min.X || moved.Min.Y <= part.Min.Y {
		t.Errorf("moved to the left and up, the fingers show %v after %v", moved, part)
	}

	d.pinchOver(t, img, moved.Min.Add(image.Pt(9, 9)), image.Point{}, 0.8, 0.4)
	if m.fit.Bounds != whole {
		t.Errorf("fingers brought together show %v of %v", m.fit.Bounds, whole)
	}
}

// A pinch beside the mirror, or while something lies over the window, does nothing, and
// neither do the rest of one that began so.
func TestPinchElsewhere(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	m := d.parts.mirror
	whole := m.fit.Bounds
	d.pinched(native.Pinch{Begins: true, X: 3, Y: 3, Scale: 1})
	d.pinched(native.Pinch{X: 3, Y: 3, Scale: 4})
	if !m.view.Empty() {
		t.Errorf("beside the mirror it shows %v", m.view)
	}
	o := d.window.Canvas().Overlays()
	cover := newGround(ColorNamePanel)
	o.Add(cover)
	d.pinchOver(t, img, image.Pt(100, 60), image.Point{}, 2)
	o.Remove(cover)
	if m.fit.Bounds != whole {
		t.Errorf("below a dialog it shows %v", m.fit.Bounds)
	}
}

// A pinch that turns out to be none leaves the picture as it was.
func TestPinchCalledOff(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	m := d.parts.mirror
	m.Zoom(2)
	d.see(t, img)
	before := m.fit.Bounds
	p := m.fit.pane(before.Min.Add(image.Pt(40, 40))).Add(d.app.Driver().AbsolutePositionForObject(m))
	event := native.Pinch{Begins: true, X: float64(p.X * m.scale()), Y: float64(p.Y * m.scale()), Scale: 1}
	d.pinched(event)
	event.Begins, event.Scale = false, 2
	d.pinched(event)
	d.see(t, img)
	if m.fit.Bounds == before {
		t.Fatal("nothing happens")
	}
	d.pinched(native.Pinch{Ends: true, Off: true})
	d.see(t, img)
	if m.fit.Bounds != before {
		t.Errorf("called off it shows %v, before %v", m.fit.Bounds, before)
	}
}

// At the picture's border fingers that go on move nothing, and on their way back move it at
// once.
func TestPinchAtBorder(t *testing.T) {
	m := NewMirror()
	m.bounds = image.Rect(0, 0, 400, 300)
	m.Acts.Resized = func() {}
	m.fit = fit{Bounds: m.bounds, Size: fyne.NewSize(400, 300)}
	m.pinchBegins(fyne.NewPos(200, 150))
	for range 10 {
		m.pinchGoesOn(fyne.NewDelta(100, 0), 2)
	}
	if m.view.Min.X != 0 {
		t.Fatalf("far to the right, the fingers show %v", m.view)
	}
	m.pinchGoesOn(fyne.NewDelta(-20, 0), 2)
	if m.view.Min.X != 10 {
		t.Errorf("20 back, at twice the size, it shows %v, want it to begin at 10", m.view)
	}
}

// In a mirrored picture the fingers move what they see.
func TestPinchMirrored(t *testing.T) {
	m := NewMirror()
	m.flip, m.bounds = true, image.Rect(0, 0, 400, 300)
	m.Acts.Resized = func() {}
	m.fit = fit{Bounds: m.bounds, Size: fyne.NewSize(400, 300), Flipped: true}
	m.pinchBegins(fyne.NewPos(200, 150))
	m.pinchGoesOn(fyne.NewDelta(0, 0), 2)
	before := m.view
	m.pinchGoesOn(fyne.NewDelta(-20, 0), 2)
	if want := before.Sub(image.Pt(10, 0)); m.view != want {
		t.Errorf("fingers moved to the left show %v after %v, want %v", m.view, before, want)
	}
}
