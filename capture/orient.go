package capture

import "image"

// upright turns RGBA rows without gaps, size pixels, as an Exif orientation says, and
// returns the rows and size that result. Anything but 2 to 8 changes nothing.
//
// The numbers say on which sides of the upright picture the stored row 0 and column 0
// are: 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right
// top, 7 right bottom, 8 left bottom. Source: TIFF 6.0 (1992), p. 36, Orientation.
func upright(pix []byte, size image.Point, orientation int) ([]byte, image.Point) {
	w, h := size.X, size.Y
	var first, right, down int // stored pixel at 0, 0, and the steps to its neighbours
	switch orientation {
	case 2:
		first, right, down = w-1, -1, w
	case 3:
		first, right, down = w*h-1, -1, -w
	case 4:
		first, right, down = w*(h-1), 1, -w
	case 5:
		first, right, down = 0, w, 1
	case 6:
		first, right, down = w*(h-1), -w, 1
	case 7:
		first, right, down = w*h-1, -w, -1
	case 8:
		first, right, down = w-1, w, -1
	default:
		return pix, size
	}
	if orientation >= 5 {
		w, h = h, w
	}
	out := make([]byte, len(pix))
	to := 0
	for y := range h {
		from := 4 * (first + y*down)
		for range w {
			*(*[4]byte)(out[to:]) = [4]byte(pix[from:])
			to += 4
			from += 4 * right // past the last pixel of a row it points nowhere
		}
	}
	return out, image.Pt(w, h)
}
