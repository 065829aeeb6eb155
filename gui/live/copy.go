package live

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Copy is a copy of what is watched, with what isn't counted of it.
type Copy struct {
	Pixels   analysis.Pixels // RGBA, opaque
	Out      analysis.Mask
	Bounds   image.Rectangle // in the source
	At       time.Time       // when it was read
	Source   setup.Source
	Settings settings.Settings
}

// copyPicture copies what is watched, if that was asked for.
func (w *Worker) copyPicture(p analysis.Pixels, bounds image.Rectangle, next Wanted) {
	w.Done.Copied = nil
	if next.Copies == w.copies {
		return
	}
	w.copies = next.Copies
	img := image.NewRGBA(image.Rect(0, 0, p.Width, p.Height))
	pictures.CopyOpaque(img, p)
	c := &Copy{
		Pixels: analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: p.Width, Height: p.Height, Layout: analysis.RGBA},
		Bounds: bounds, At: w.Done.At, Source: next.Setup.Source, Settings: next.Settings,
	}
	c.Out.Areas = append(c.Out.Areas, w.out.Areas...)
	c.Out.Lightness = w.out.Lightness
	w.Done.Copied = c
}
