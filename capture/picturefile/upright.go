package picturefile

import (
	"image"

	"app.tonedesk/capture/memory"
)

// upright turns rows without gaps, size pixels of 4 or 8 bytes each, as an Exif orientation says, and
// returns the rows and size that result. Anything but 2 to 8 changes nothing.
//
// The numbers say on which sides of the upright picture the stored row 0 and column 0
// are: 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right
// top, 7 right bottom, 8 left bottom. Source: TIFF 6.0 (1992), p. 36, Orientation.
func upright(pix []byte, size image.Point, each, orientation int) ([]byte, image.Point) {
	w, h := size.X, size.Y
	turns := [...]struct{ first, right, down int }{ // stored pixel at 0, 0, and the steps to its neighbours
		2: {w - 1, -1, w}, 3: {w*h - 1, -1, -w}, 4: {w * (h - 1), 1, -w},
		5: {0, w, 1}, 6: {w * (h - 1), -w, 1}, 7: {w*h - 1, -w, -1}, 8: {w - 1, w, -1},
	}
	if orientation < 2 || orientation >= len(turns) {
		return pix, size
	}
	turn := turns[orientation]
	if orientation >= 5 {
		w, h = h, w
	}
	memory.LetGo(len(pix)) // what these rows were made of
	out := make([]byte, len(pix))
	to := 0
	for y := range h {
		from := each * (turn.first + y*turn.down)
		for range w {
			*(*[pixelBytes]byte)(out[to:]) = [pixelBytes]byte(pix[from:])
			if each == deepBytes {
				*(*[pixelBytes]byte)(out[to+pixelBytes:]) = [pixelBytes]byte(pix[from+pixelBytes:])
			}
			to += each
			from += each * turn.right // past the last pixel of a row it points nowhere
		}
	}
	return out, image.Pt(w, h)
}
