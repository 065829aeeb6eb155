package pictures

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
)

// Paper lies under the partly transparent pixels of a picture.
var Paper = colour.RGB{R: 255, G: 255, B: 255}

// Pixels returns a captured frame as the analysis reads it. No byte is copied.
func Pixels(f *capture.Frame) analysis.Pixels {
	layout := analysis.RGBA
	if f.Layout == capture.BGRX {
		layout = analysis.BGRX
	}
	return analysis.Pixels{Pix: f.Pix, Stride: f.Stride, Width: f.Size.X, Height: f.Size.Y, Layout: layout}
}

// CopyOpaque copies a picture of img's size, with its alpha made 255.
func CopyOpaque(img *image.RGBA, p analysis.Pixels) {
	red, blue := 0, 2
	if p.Layout == analysis.BGRX {
		red, blue = 2, 0
	}
	for y := range p.Height {
		from, to := p.Pix[y*p.Stride:][:4*p.Width], img.Pix[y*img.Stride:][:4*p.Width]
		for i := 0; i < len(from); i += 4 {
			to[i], to[i+1], to[i+2], to[i+3] = from[i+red], from[i+1], from[i+blue], 255
		}
	}
}
