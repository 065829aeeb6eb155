package overlay

import "image"

// Lay is how the picture that is watched lies in the mirror.
type Lay struct {
	Part    image.Rectangle // of the picture that the mirror shows
	Size    image.Point     // that it is shown in, display pixels
	Flipped bool            // left and right are exchanged
	Unit    float64         // display pixels
}

// over returns where a place lies over the mirror's picture before that is flipped.
func (l Lay) over(place image.Rectangle) image.Rectangle {
	return scaled(place.Sub(l.Part.Min), l.Part.Size(), l.Size)
}

// clear returns an image of the mirror's picture with nothing on it.
func (l Lay) clear() *image.RGBA { return image.NewRGBA(image.Rectangle{Max: l.Size}) }

// scaled brings a place in a picture of one size to the same place in another size.
func scaled(place image.Rectangle, from, to image.Point) image.Rectangle {
	return image.Rectangle{Min: scaledPoint(place.Min, from, to), Max: scaledPoint(place.Max, from, to)}
}

func scaledPoint(p, from, to image.Point) image.Point {
	return image.Pt((p.X*to.X+from.X/2)/max(from.X, 1), (p.Y*to.Y+from.Y/2)/max(from.Y, 1))
}
