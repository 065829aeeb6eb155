package reduce

import "image"

// Boxes says into which boxes the pixels of one side of a picture fall. Positions are in parts of a
// pixel.
type Boxes struct {
	Pixels int // of the side
	Count  int // boxes
	Unit   int // parts of a pixel
	Size   int // parts of a box, at least Unit
	From   int // parts of the first box that lie before the picture, less than Size
}

// Grid is the boxes of both sides of a picture. What lies of a box beyond the picture doesn't count.
type Grid struct{ X, Y Boxes }

// Equal returns equal boxes that fill a side.
func Equal(pixels, count int) Boxes { return Boxes{pixels, count, max(count, 1), pixels, 0} }

// EqualGrid returns equal boxes that fill a picture, so many across and down.
func EqualGrid(pixels, count image.Point) Grid {
	return Grid{Equal(pixels.X, count.X), Equal(pixels.Y, count.Y)}
}

// Count returns how many boxes there are across and down.
func (g *Grid) Count() image.Point { return image.Pt(g.X.Count, g.Y.Count) }

// CentresIn returns the boxes whose centres lie in an area of pixels.
func (g *Grid) CentresIn(area image.Rectangle) image.Rectangle {
	return image.Rectangle{
		Min: image.Pt(g.X.CentreAt(area.Min.X), g.Y.CentreAt(area.Min.Y)),
		Max: image.Pt(g.X.CentreAt(area.Max.X), g.Y.CentreAt(area.Max.Y)),
	}
}

func (b *Boxes) begin(j int) int { return max(0, j*b.Size-b.From) }
func (b *Boxes) end(j int) int   { return min((j+1)*b.Size-b.From, b.Pixels*b.Unit) }

// PixelsOf returns the pixels that begin in box j, at least one.
func (b *Boxes) PixelsOf(j int) (from, to int) {
	from = min(b.begin(j)/b.Unit, b.Pixels-1)
	return from, max(from+1, b.end(j)/b.Unit)
}

// Middle returns the pixel in which the middle of box j lies.
func (b *Boxes) Middle(j int) int { return min((b.begin(j)+b.end(j))/(2*b.Unit), b.Pixels-1) }

// BoxOf returns the box in which a pixel begins.
func (b *Boxes) BoxOf(pixel int) int { return min((pixel*b.Unit+b.From)/b.Size, b.Count-1) }

// Part returns where a place in boxes from the side's begin lies, as a part of the side.
func (b *Boxes) Part(at float64) float64 {
	return min(max((at*float64(b.Size)-float64(b.From))/float64(b.Unit*b.Pixels), 0), 1)
}

// Parts returns how many boxes would fill the side.
func (b *Boxes) Parts() float64 { return float64(b.Unit*b.Pixels) / float64(b.Size) }

// CentreAt returns the first box whose centre doesn't lie before a pixel.
func (b *Boxes) CentreAt(pixel int) int {
	at := 2 * pixel * b.Unit
	j := min(max((at+2*b.From+b.Size-1)/(2*b.Size), 0), b.Count)
	for j > 0 && b.begin(j-1)+b.end(j-1) >= at { // what is cut has another centre
		j--
	}
	for j < b.Count && b.begin(j)+b.end(j) < at {
		j++
	}
	return j
}
