package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/settings"
)

// loupeCells is the side of the loupe, in source pixels.
const loupeCells = 15

// paintLoupe paints the pixels around the pointer, in the view of the mirror or, where that
// needs the pixels around them, as greys.
func (w *Worker) paintLoupe(p analysis.Pixels, bounds image.Rectangle, next Wanted) {
	w.Done.Loupe = nil
	if !next.Looking {
		return
	}
	at := next.Look.Sub(bounds.Min)
	corner := at.Sub(image.Pt(loupeCells/2, loupeCells/2))
	want := image.Rectangle{Min: corner, Max: corner.Add(image.Pt(loupeCells, loupeCells))}
	part := want.Intersect(p.Bounds())
	if part.Empty() {
		return
	}
	near := w.near.Reduce(p.Crop(part), part.Dx(), part.Dy(), &w.nearOut)
	cut := image.NewRGBA(image.Rectangle{Max: part.Size()})
	w.paintView(cut.Pix, near, nearView(next), next)
	img := backImage(&w.loupes, image.Pt(loupeCells, loupeCells))
	clear(img.Pix)
	for y := range part.Dy() { // outside of the picture stays empty
		to := img.PixOffset(part.Min.X-want.Min.X, part.Min.Y-want.Min.Y+y)
		copy(img.Pix[to:], cut.Pix[y*cut.Stride:][:4*part.Dx()])
	}
	if next.Settings.Mirrored {
		views.FlipLeftRight(img.Pix, loupeCells, loupeCells)
	}
	w.Done.Loupe = img
}

// nearView returns the view in which the loupe shows its pixels: the greys, where a view
// needs the pixels around.
func nearView(next Wanted) views.View {
	view := ViewOf(next)
	if grey, ok := views.ByKey(settings.ViewGrey); ok && view.Wide {
		return grey
	}
	return view
}
