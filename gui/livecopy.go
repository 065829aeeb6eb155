package gui

import (
	"image"
	"time"

	"app.tonedesk/analysis"
)

// copiedPicture is a copy of what is watched, with what isn't counted of it.
type copiedPicture struct {
	pixels   analysis.Pixels // RGBA, opaque
	out      analysis.Mask
	bounds   image.Rectangle // in the source
	at       time.Time       // when it was read
	source   source
	settings Settings
}

// copyPicture copies what is watched, if that was asked for.
func (w *worker) copyPicture(p analysis.Pixels, bounds image.Rectangle, next wanted) {
	w.done.copied = nil
	if next.copies == w.copies {
		return
	}
	w.copies = next.copies
	img := image.NewRGBA(image.Rect(0, 0, p.Width, p.Height))
	copyOpaque(img, p)
	c := &copiedPicture{
		pixels: analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: p.Width, Height: p.Height, Layout: analysis.RGBA},
		bounds: bounds, at: w.done.at, source: next.setup.Source, settings: next.settings,
	}
	c.out.Areas = append(c.out.Areas, w.out.Areas...)
	c.out.Lightness = w.out.Lightness
	w.done.copied = c
}
