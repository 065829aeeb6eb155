package pointer

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/stills/ink"
)

// face is what a chip looks like.
type face struct {
	words  string
	widest string // words of the same kind that need most room: the chip's width does not follow figures
	colour colour.RGB
	grey   uint8   // of the same lightness
	text   float64 // size of its letters, pixels
}

// Greys of the chip, L*: those of what lies on the picture in the window.
const (
	chipGround = 12
	chipText   = 90
	chipEdge   = 45
)

// Lengths of the chip, in sizes of its letters: at 13 it is 28 high, as chips are.
const (
	chipHigh   = 28.0 / 13
	swatchWide = 24.0 / 13
	chipPad    = 8.0 / 13
	footAt     = 18.5 / 13 // of the letters, from the top
)

// size is how large it is, in pixels.
func (f face) size() image.Point {
	wide := 2*swatchWide*f.text + 2*chipPad*f.text + max(ink.Width(ink.Regular, f.widest, f.text), ink.Width(ink.Regular, f.words, f.text))
	return image.Pt(int(math.Ceil(wide)), int(math.Round(chipHigh*f.text)))
}

// paint draws it: colour and grey edge to edge, and the words, with a line round all.
func (f face) paint(ink *ink.Drawer) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: f.size()})
	fill := func(r image.Rectangle, c colour.RGB) {
		draw.Draw(img, r, image.NewUniform(color.RGBA{R: c.R, G: c.G, B: c.B, A: 255}), image.Point{}, draw.Src)
	}
	neutral := func(lightness float64) colour.RGB {
		g := colour.GreyOf(lightness)
		return colour.RGB{R: g, G: g, B: g}
	}
	inside, wide := img.Rect.Inset(1), int(math.Round(swatchWide*f.text))
	fill(img.Rect, neutral(chipEdge))
	fill(inside, neutral(chipGround))
	fill(image.Rect(inside.Min.X, inside.Min.Y, wide, inside.Max.Y), f.colour)
	fill(image.Rect(wide, inside.Min.Y, 2*wide, inside.Max.Y), colour.RGB{R: f.grey, G: f.grey, B: f.grey})
	ink.Draw(img, inside, f.marks(2*wide))
	return img
}

func (f face) marks(from int) []ink.Mark {
	at := ink.Point{X: float64(from) + chipPad*f.text, Y: math.Round(footAt * f.text)}
	return []ink.Mark{{Text: ink.Text{Face: ink.Regular, Words: f.words, At: at, Size: f.text}, Grey: colour.GreyOf(chipText)}}
}

// chip is the one on the screen. One goroutine has it.
type chip struct {
	native.Chip
	ink    ink.Drawer
	face   face
	box    image.Rectangle // empty: on no screen
	failed bool            // it could not be shown: no second time
}

// put shows a face in a box, or nothing in an empty one; what is there already costs nothing.
func (c *chip) put(f face, box image.Rectangle) (err error) {
	switch {
	case box == c.box && (f == c.face || box.Empty()):
		return nil
	case box.Empty():
		err = c.Hide()
	case f == c.face && !c.box.Empty() && box.Size() == c.box.Size():
		err = c.Move(box.Min)
	default:
		err = c.Show(f.paint(&c.ink), box.Min)
	}
	c.face, c.box = f, box
	if err != nil {
		c.face, c.box = face{}, image.Rectangle{}
		_ = c.Hide() // whatever is left of it
	}
	return err
}
