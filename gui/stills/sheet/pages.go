package sheet

import (
	"image"
	"image/draw"
	"io"
	"math"
	"time"
)

// Pages are pages that belong together, of one size.
type Pages []*Page

// PDF writes the pages as a PDF file, as Page.PDF does one.
func (p Pages) PDF(w io.Writer, title string, at time.Time) error { return writePDF(w, p, title, at) }

// Image paints the pages below each other.
func (p Pages) Image(pixelsPerMM float64) *image.RGBA {
	if len(p) == 1 {
		return p[0].Image(pixelsPerMM)
	}
	high := int(math.Round(p[0].Height * pixelsPerMM))
	all := image.NewRGBA(image.Rect(0, 0, int(math.Round(p[0].Width*pixelsPerMM)), high*len(p)))
	for i, page := range p {
		img := page.Image(pixelsPerMM)
		draw.Draw(all, img.Rect.Add(image.Pt(0, i*high)), img, image.Point{}, draw.Src)
	}
	return all
}
