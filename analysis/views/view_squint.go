package views

import "app.tonedesk/analysis/reduce"

// The picture as with the eyes half shut: small things melt, masses of light and of shadow
// stay.
var squintView = View{Key: "squint", Name: "Squint", Knob: &squintKnob, Wide: true, Paint: paintSquint}

// squintKnob is the Gaussian's sigma as a share of the picture's longer side.
var squintKnob = Knob{Name: "Blur", Unit: "%", From: 0.5, To: 5, Step: 0.5, Start: 1.5}

func paintSquint(dst []byte, src *reduce.Picture, look Look) {
	sigma := squintKnob.At(look.Knob) / 100 * float64(max(src.Width, src.Height))
	reduce.MemoryOf[blur](src).paint(dst, src, sigma)
}
