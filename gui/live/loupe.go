package live

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/settings"
)

// loupeCells is the side of the loupe, in source pixels.
const loupeCells = 15

// loupe paints the pixels around the pointer.
type loupe struct {
	reducer *reduce.Reducer
	part    [analysis.PixelBytes * loupeCells * loupeCells]byte // painted, without what lies outside
	images  pair
}

// paint paints the loupe in the view of the mirror or, where that needs the pixels around
// them, as greys. What lies outside of the picture stays empty. nil: nobody looks at it.
func (l *loupe) paint(t *task, r *analysis.Reading) *image.RGBA {
	corner := t.Look.Sub(t.bounds.Min).Sub(image.Pt(loupeCells/2, loupeCells/2))
	part := image.Rectangle{Min: corner, Max: corner.Add(image.Pt(loupeCells, loupeCells))}.Intersect(t.pixels.Bounds())
	if !t.Looking || part.Empty() {
		return nil
	}
	near := l.reducer.Reduce(t.pixels.Crop(part), part.Dx(), part.Dy(), nil)
	row := analysis.PixelBytes * part.Dx()
	t.paint(l.part[:row*part.Dy()], near, nearView(t.view), r)
	img := l.images.next(image.Pt(loupeCells, loupeCells))
	clear(img.Pix)
	at := part.Min.Sub(corner)
	for y := range part.Dy() {
		copy(img.Pix[img.PixOffset(at.X, at.Y+y):], l.part[y*row:][:row])
	}
	t.flip(img)
	return img
}

// nearView returns the view in which the loupe shows its pixels: the greys, where a view
// needs the pixels around.
func nearView(view views.View) views.View {
	if grey, ok := views.ByKey(settings.ViewGrey); ok && view.Wide {
		return grey
	}
	return view
}
