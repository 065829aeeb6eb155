package analysis

// FlipLeftRight mirrors a picture of width x height pixels of 4 bytes, rows without gaps,
// in place.
func FlipLeftRight(dst []byte, width, height int) {
	for y := range height {
		row := dst[pixelBytes*y*width:][:pixelBytes*width]
		for a, b := 0, len(row)-pixelBytes; a < b; a, b = a+pixelBytes, b-pixelBytes {
			left, right := (*[pixelBytes]byte)(row[a:]), (*[pixelBytes]byte)(row[b:])
			*left, *right = *right, *left
		}
	}
}
