package analysis

// DotOut draws even neutral dots over the pixels of src that are left out, into dst as a
// view painted it. A dot is dark on a light ground and light on a dark one.
func DotOut(dst []byte, src *Reduced) {
	for y := range src.Height {
		if y%(dotStep/2) >= dotSize {
			continue
		}
		shift := dotShift(y)
		left := src.Left[y*src.Width:][:src.Width]
		row := dst[pixelBytes*y*src.Width:][:pixelBytes*src.Width]
		for x, out := range left {
			if out == 0 || (x+shift)%dotStep >= dotSize {
				continue
			}
			drawDot(row[pixelBytes*x:][:pixelBytes])
		}
	}
}
