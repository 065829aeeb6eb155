package analysis

// The picture as it is.
var colourView = View{Key: "colour", Name: "Colour", Paint: paintColour}

func paintColour(dst []byte, src *Reduced, _ Look) {
	paintSpans(dst, src, codeSteps, func(dst []byte, linear []uint16, _ *steps) {
		for len(linear) >= 3 && len(dst) >= pixelBytes {
			dst[0], dst[1], dst[2], dst[3] = codeOf(linear[0]), codeOf(linear[1]), codeOf(linear[2]), 255
			linear, dst = linear[3:], dst[pixelBytes:]
		}
	})
}
