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

// Copy is a copy of what is watched, with what isn't counted of it.
type Copy struct {
	Pixels   analysis.Pixels // RGBA; each pixel is opaque or fully transparent
	Out      analysis.Mask
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
	out := analysis.Mask{Areas: slices.Clone(w.out.Areas), Lightness: w.out.Lightness}
	return &Copy{Pixels: pictures.Copy(t.pixels), Out: out, Bounds: t.bounds, At: at, Source: t.Setup.Source, Settings: t.Settings}
}
