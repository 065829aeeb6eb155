package widgets

import (
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/flashes"
)

// shutter stands between what the mirror is to show and what it shows, so that it never
// flashes, whatever changes it: what would change a quarter of it back too soon waits, and of
// all that waits only the newest is shown.
type shutter struct {
	Flashes flashes.Meter // of what is shown
	levels  flashes.Levels
	next    sight // to be shown
	waiting bool
	stale   []*canvas.Raster // to be drawn anew with it
	kept    [2]*image.RGBA   // what is shown, while the painter may paint over his own
}

// renew has a raster drawn anew with the next sight.
func (m *Mirror) renew(r *canvas.Raster) {
	if !slices.Contains(m.stale, r) {
		m.stale = append(m.stale, r)
	}
}

// present shows the next sight, or comes back when it may.
func (m *Mirror) present() {
	if m.next == m.sight && len(m.stale) == 0 {
		return
	}
	if m.measure() {
		now := time.Now()
		if wait := m.Flashes.Wait(&m.levels, now); wait > 0 {
			m.keep()
			m.comeBack(wait)
			return
		}
		m.Flashes.Show(&m.levels, now)
	}
	m.sight = m.next
	if m.bounds.Empty() {
		m.keyed = false
	} else {
		m.key = nearestIn(m.key, m.bounds)
	}
	m.redraw()
	for _, r := range m.stale {
		r.Refresh()
	}
	m.stale = m.stale[:0]
}

// comeBack tries once more after a while.
func (m *Mirror) comeBack(wait time.Duration) {
	if m.waiting {
		return
	}
	m.waiting = true
	m.acts.Later(wait, func() {
		m.waiting = false
		was := m.Fit()
		m.present()
		if m.Fit() != was { // who asked where the picture lies was told of the one before
			m.acts.Resized()
		}
	})
}

// measure takes the levels of the next sight; false if there is no room for it.
func (m *Mirror) measure() bool {
	size, s := m.Size(), &m.next
	if size.Width < 1 || size.Height < 1 {
		return false
	}
	a := s.arrange(size, m.Scale())
	var layers [2 + overlays]flashes.Layer
	layers[0] = layerOf(s.picture, a.Picture.Pos, a.Picture.Size, size)
	for i, o := range s.overlays {
		layers[1+i] = layerOf(o, a.Picture.Pos, a.Picture.Size, size)
	}
	layers[1+overlays] = layerOf(s.Other(), a.OtherPos, a.OtherSize, size)
	r, g, b, _ := m.back.FillColor.RGBA()
	m.levels.Measure(colour.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}, layers[:]...)
	return true
}

// layerOf is an image, nil for none, in a pane.
func layerOf(img *image.RGBA, pos fyne.Position, size, pane fyne.Size) (l flashes.Layer) {
	if img != nil {
		l.Pixels = analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy()}
		l.X, l.Y, l.W, l.H = pos.X/pane.Width, pos.Y/pane.Height, size.Width/pane.Width, size.Height/pane.Height
	}
	return l
}

// keep makes the pictures that are shown our own: their painter goes on painting.
func (m *Mirror) keep() {
	for i, shown := range [...]**image.RGBA{&m.sight.picture, &m.sight.small} {
		img, own := *shown, &m.kept[i]
		if img == nil || img == *own {
			continue
		}
		if *own == nil || (*own).Rect != img.Rect {
			*own = image.NewRGBA(img.Rect)
		}
		copy((*own).Pix, img.Pix)
		*shown = *own
	}
}
