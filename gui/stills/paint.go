package stills

import (
	"errors"
	"image"
	"math"
	"runtime"
	"sync"

	"golang.org/x/image/draw"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture/memory"
	"app.tonedesk/gui/mistake"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// Paint returns a picture in one of the views of analysis, reduced to w x h pixels, which
// are no more than it has. A view that there isn't is painted as the colours.
func Paint(p analysis.Pixels, view string, w, h int, look views.Look) *image.RGBA {
	img, _ := paint(p, view, w, h, look)
	return img
}

// paint returns the reduced picture too, from before it was painted.
func paint(p analysis.Pixels, view string, w, h int, look views.Look) (*image.RGBA, *reduce.Picture) {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	v, ok := views.ByKey(view)
	if !ok {
		v, _ = views.ByKey("colour")
	}
	r := reduce.New()
	defer r.Close()
	small := r.Reduce(p, w, h, nil)
	v.Paint(img.Pix, small, look)
	return img, small
}

// lettersPart is the size of numbers and readings on a picture that is exported, as a part
// of its longer side; leastLetters is their least size in pixels (our choices: on a sheet of A4
// numbers are as large as in its list).
const (
	lettersPart  = 1.0 / 40
	leastLetters = 12
)

// Annotate returns a picture with its notes, their numbers and readings, its longer side
// near side pixels: reduced by box average in linear light, or enlarged a whole number of
// times by its nearest pixels. 0 for side leaves the picture's size, as Annotated does.
func Annotate(p analysis.Pixels, list []notes.Note, side int) *image.RGBA {
	img, scale := sized(p, side)
	annotate(img, annotation(img.Rect, scale), list)
	return img
}

// annotate draws notes on a picture that is exported, in bands on all cores.
func annotate(img *image.RGBA, view notes.View, list []notes.Note) {
	bands := runtime.GOMAXPROCS(0)
	errs := make([]error, bands)
	var wait sync.WaitGroup
	for i := range bands {
		band := img.Rect
		band.Min.Y = img.Rect.Min.Y + i*img.Rect.Dy()/bands
		band.Max.Y = img.Rect.Min.Y + (i+1)*img.Rect.Dy()/bands
		wait.Go(func() {
			errs[i] = mistake.Guard(func() error {
				view.Draw(new(ink.Drawer), img, band, list)
				return nil
			})
		})
	}
	wait.Wait()
	if err := errors.Join(errs...); err != nil {
		panic(err) // for whoever called
	}
}

// annotation is how notes lie on a picture that is exported.
func annotation(in image.Rectangle, scale float64) notes.View {
	letters := max(leastLetters, float64(max(in.Dx(), in.Dy()))*lettersPart)
	still := image.Pt(int(math.Round(float64(in.Dx())/scale)), int(math.Round(float64(in.Dy())/scale)))
	return notes.View{
		Scale: scale, Pixel: letters / notes.LettersUnits, Inside: in, Still: still,
	}
}

// sized returns a picture of its own with its longer side near side, its colours multiplied by
// their alpha, and the scale.
func sized(p analysis.Pixels, side int) (*image.RGBA, float64) {
	longer := max(p.Width, p.Height)
	if side > 0 && side < longer {
		w, h := Fit(p.Width, p.Height, side, side)
		return Paint(p, "colour", w, h, views.Look{}), float64(w) / float64(p.Width)
	}
	k := max(1, side/longer)
	img, straight := image.NewRGBA(image.Rect(0, 0, k*p.Width, k*p.Height)), inSRGB(p)
	draw.NearestNeighbor.Scale(img, img.Rect, straight, straight.Rect, draw.Src, nil)
	return img, float64(k)
}

// OnPaper returns a picture laid over white paper, as simple alpha compositing does (W3C
// Compositing and Blending Level 1): what of it is transparent shows the paper. One that is
// opaque is returned as it is; the error is a *memory.Full where there is no room for a copy.
func OnPaper(p analysis.Pixels) (analysis.Pixels, error) {
	if isOpaque(p) {
		return p, nil // in its own space
	}
	if err := memory.Room(int64(analysis.PixelBytes * p.Width * p.Height)); err != nil {
		return p, err
	}
	paper, img := image.NewRGBA(p.Bounds()), inSRGB(p)
	draw.Draw(paper, paper.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(paper, paper.Rect, img, image.Point{}, draw.Over)
	return pixelsOf(paper), nil
}

// inSRGB is imageOf for what is exported, which is sRGB: a picture of another space is brought to it,
// as the mirror shows it.
func inSRGB(p analysis.Pixels) *image.NRGBA {
	if p.Space == nil {
		return imageOf(p)
	}
	return cutOut(Paint(p, "colour", p.Width, p.Height, views.Look{}), p)
}

// cutOut gives a view of the whole picture, pixel for pixel, the picture's transparency.
func cutOut(view *image.RGBA, p analysis.Pixels) *image.NRGBA {
	img := &image.NRGBA{Pix: view.Pix, Stride: view.Stride, Rect: view.Rect}
	if p.Layout != analysis.RGBA {
		return img
	}
	for y := range p.Height {
		from, to := p.Pix[y*p.Stride:][:4*p.Width], img.Pix[y*img.Stride:][:4*p.Width]
		for i := 3; i < len(from); i += 4 {
			to[i] = from[i]
		}
	}
	return img
}
