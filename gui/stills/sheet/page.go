package sheet

import (
	"image"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

// Page is a page with what stands on it, in the order in which it is drawn.
type Page struct {
	Width, Height float64 // mm
	items         []item
}

// item is one thing on a page.
type item interface {
	paint(c *canvas)
	write(d *document)
}

// Box is a rectangle on a page, in mm.
type Box struct{ X, Y, W, H float64 }

// right and bottom return where the box ends.
func (b Box) right() float64  { return b.X + b.W }
func (b Box) bottom() float64 { return b.Y + b.H }

// fit returns the largest box of a shape inside b, in its middle.
func (b Box) fit(w, h int) Box {
	k := min(b.W/float64(w), b.H/float64(h))
	in := Box{W: k * float64(w), H: k * float64(h)}
	in.X, in.Y = b.X+(b.W-in.W)/2, b.Y+(b.H-in.H)/2
	return in
}

// fill is an even colour.
type fill struct {
	box    Box
	colour colour.RGB
}

// picture is an opaque picture that fills its box.
type picture struct {
	box Box
	img *image.RGBA
}

// rule is a straight line.
type rule struct {
	from, to ink.Point
	width    float64 // mm
	grey     uint8
}

// words are one line of text, as ink.Shown has it: painted and written they are the same letters.
type words struct {
	at   ink.Point // left end of its foot
	text string
	size float64 // of the letters, mm
	face ink.Face
	grey uint8
}

// The greys of a page: text, quiet text and lines on white. Their contrast to white is 16,
// 6 and 3 to 1 (WCAG 2.2).
const (
	textGrey  = 0x1b // L* 10
	quietGrey = 0x63 // L* 42
	lineGrey  = 0x8f // L* 59
)

func (p *Page) add(i item) { p.items = append(p.items, i) }

// say writes one line of text and returns how wide it is.
func (p *Page) say(x, y float64, text string, size float64, grey uint8) float64 {
	p.add(words{ink.Pt(x, y), ink.Shown(text), size, ink.Regular, grey})
	return ink.Width(ink.Regular, text, size)
}

// leastFit is the part of its size to which a line grows smaller where it finds no room (our choice: it
// can be read on paper still).
const leastFit = 0.6

// fit writes one line of text in a width, in smaller letters where it finds no room. Only what would be
// too small to read is cut: a name of the painter's own.
func (p *Page) fit(x, y, width float64, text string, size float64, grey uint8) {
	if wide := ink.Width(ink.Regular, ink.Shown(text), size); wide > width {
		size *= max(width/wide, leastFit)
	}
	p.say(x, y, letters(size).Cut(text, width+0.01), size, grey)
}

// letters are those of plain text on a page, of a size in mm.
func letters(size float64) ink.Letters { return ink.Letters{Face: ink.Regular, Size: size} }

// head writes one line of bold text.
func (p *Page) head(x, y float64, text string, size float64) {
	p.add(words{ink.Pt(x, y), ink.Shown(text), size, ink.Bold, textGrey})
}
