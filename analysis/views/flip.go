package views

import "app.tonedesk/analysis"

// FlipLeftRight mirrors a picture of width x height pixels of 4 bytes, rows without gaps,
// in place.
func FlipLeftRight(dst []byte, width, height int) {
	for y := range height {
		row := dst[analysis.PixelBytes*y*width:][:analysis.PixelBytes*width]
		for a, b := 0, len(row)-analysis.PixelBytes; a < b; a, b = a+analysis.PixelBytes, b-analysis.PixelBytes {
			left, right := (*[analysis.PixelBytes]byte)(row[a:]), (*[analysis.PixelBytes]byte)(row[b:])
			*left, *right = *right, *left
		}
	}
}
