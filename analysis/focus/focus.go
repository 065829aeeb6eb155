package focus

import (
	"image"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/reduce"
)

// Place is a disc in the picture and the contrast in it. X and Y are shares of the picture's
// width and height.
type Place struct {
	X, Y     float64
	Contrast float64 // of lightness and chroma, all scales together
	// Lightness and Chroma are its contrast in each band, from fine to coarse; chroma's without
	// ChromaWeight.
	Lightness, Chroma [Scales]float64
	// EdgeWidth is how wide its edges are on average: the middle two thirds of their rise, share of the
	// picture's longer side. 0 is as sharp as can be told, nil what has no edge.
	EdgeWidth *float64
	// Darker and Lighter are the mean light of what is darker than its mean, and of the rest.
	Darker, Lighter colour.RGB
}

// Extreme is the lightest light, or the darkest dark: what lies within half a tone of it.
type Extreme struct {
	X, Y   float64 // where most of it lies together
	Colour colour.RGB
	Alone  float64 // share of it that lies there, 0 to 1
	Tones  float64 // it is lighter, or darker, than what lies around that place
}

// Found is what is known of a picture's contrast. Nothing is written to it.
type Found struct {
	Places            []Place  // the strongest first, no more than MostPlaces
	Lightest, Darkest *Extreme // nil where all of the picture is within half a tone

	options Options
	planes  planes
	radius  float64 // of a place, cells
}

// Find measures a picture; mask is what is left out of it, nil for nothing. Pixels that fail Check
// are an empty picture, which has no places. Any goroutine may call it.
func Find(p analysis.Pixels, mask *analysis.Mask, o Options) (found *Found) {
	reduce.Once(p, mask, Longest, func(small *reduce.Picture) { found = new(Finder).Find(small, o) })
	return found
}

// IsAlone reports whether an extreme stands alone.
func (f *Found) IsAlone(e *Extreme) bool { return e.Alone >= f.options.AloneShare }

// SizeOf returns the size that a picture is reduced to for its contrast to be measured.
func SizeOf(size image.Point) image.Point { return reduce.Within(size, Longest) }

// At returns the pixel of a place in a picture of some size.
func (p *Place) At(size image.Point) image.Point { return pixelAt(p.X, p.Y, size) }

// At returns the pixel where most of it lies together, in a picture of some size.
func (e *Extreme) At(size image.Point) image.Point { return pixelAt(e.X, e.Y, size) }

func pixelAt(x, y float64, size image.Point) image.Point {
	at := func(v float64, side int) int { return max(0, min(int(math.Floor(v*float64(side))), side-1)) }
	return image.Pt(at(x, size.X), at(y, size.Y))
}
