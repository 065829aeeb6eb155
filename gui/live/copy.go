package live

import (
	"image"
	"slices"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Copier has the picture of now copied for those who ask for it, such as a palette or a still
// that is kept. It is used on the Fyne goroutine only.
type Copier struct {
	Asked   int    // how many copies were asked for so far
	Renew   func() // has the last picture shown again, with a copy of it
	waiting []func(*Copy)
}

// CopyPicture has the picture of now copied, and do called with the copy.
func (c *Copier) CopyPicture(do func(*Copy)) {
	c.Asked++
	c.waiting = append(c.waiting, do)
	c.Renew()
}

// Take hands a copied picture to all who asked for one; nil is none.
func (c *Copier) Take(copied *Copy) {
	if copied == nil {
		return
	}
	all := c.waiting
	c.waiting = nil
	for _, do := range all {
		do(copied)
	}
}

// Copy is a copy of what is watched, with what isn't counted of it. It is not to be written
// to: a picture that lasts is shared.
type Copy struct {
	Pixels   analysis.Pixels // RGBA; each pixel is opaque or fully transparent
	Mask     analysis.Mask
	Bounds   image.Rectangle // in the source
	At       time.Time       // when it was read
	Source   setup.Source
	Settings settings.Settings
}

// copy copies what is watched, if that was asked for since the last time.
func (w *Worker) copy(t *task, at time.Time) *Copy {
	if t.Copies == w.copies {
		return nil
	}
	w.copies = t.Copies
	mask := analysis.Mask{Areas: slices.Clone(w.mask.Areas), Grown: w.mask.Grown.Clone(), Lightness: w.mask.Lightness}
	pixels := t.pixels
	if !t.lasts {
		pixels = pictures.Copy(pixels)
	}
	return &Copy{Pixels: pixels, Mask: mask, Bounds: t.bounds, At: at, Source: t.Setup.Source, Settings: t.Settings}
}
