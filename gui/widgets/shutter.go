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
	Flashes flashes.Meter    // of what is shown
	Clock   func() time.Time // time.Now, but in tests
	levels  flashes.Levels
	next    sight // to be shown
	stand   stand // where it is shown
	waiting bool
	stale   []*canvas.Raster // to be drawn anew with it
	kept    [2]*image.RGBA   // what is shown, while the painter may paint over his own
}

// stand is where a mirror stands on a page; none if it stands on no page.
type stand struct {
	at   rect
	page fyne.Size
}

// standing takes note that the mirror is to stand elsewhere, or says how long that has to wait.
// On a page of another size, as the painter drags the window, nothing waits.
func (m *Mirror) standing(next stand) time.Duration {
	was := m.stand
	if next == was {
		return 0
	}
	m.stand = next
	if m.picture == nil || !m.measure(&m.sight) {
		return 0
	}
	now := m.Clock()
	if wait := m.Flashes.WaitToMove(&m.levels, now); wait > 0 && next.page == was.page {
		m.stand = was
		return wait
	}
	m.Flashes.Show(&m.levels, now)
	return 0
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
	if m.measure(&m.next) {
		now := m.Clock()
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

// measure takes the levels of what the mirror shows, on its page; false if there is no room.
func (m *Mirror) measure(s *sight) bool {
	at, page := m.stand.at, m.stand.page
	if page.IsZero() {
		page = m.Size()
		at = rect{0, 0, page.Width, page.Height}
	}
	if at.w < 1 || at.h < 1 {
		return false
	}
	a := s.arrange(fyne.NewSize(at.w, at.h), m.Scale())
	picture, other := a.Picture.Pos.AddXY(at.x, at.y), a.OtherPos.AddXY(at.x, at.y)
	var layers [2 + overlays]flashes.Layer
	layers[0] = layerOf(s.picture, picture, a.Picture.Size, page)
	for i, o := range s.overlays {
		layers[1+i] = layerOf(o, picture, a.Picture.Size, page)
	}
	layers[1+overlays] = layerOf(s.Other(), other, a.OtherSize, page)
	r, g, b, _ := m.ground.RGBA()
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
