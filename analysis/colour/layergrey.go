package colour

// LayerGrey returns the grey that a black, white or grey layer in the saturation blend mode
// shows over a colour: the Lum of W3CBLEND, on encoded components. It has the unit of its
// arguments: 0 to 255 for 8-bit codes, not rounded.
//
// The mode keeps Lum and takes the layer's saturation, which is 0; so the rest of the
// published algorithm (SetSat, SetLum, ClipColor) leaves the grey Lum.
func LayerGrey(red, green, blue float64) float64 {
	return 0.3*red + 0.59*green + 0.11*blue
}

// LightnessOfLayerGrey returns the lightness of a layer grey in 0 to 255.
func LightnessOfLayerGrey(grey float64) float64 { return Lightness(LinearOf(grey / 255)) }
