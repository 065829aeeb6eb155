package stills

import (
	"image"

	"app.tonedesk/analysis"
)

// Paint returns a picture in one of the views of analysis, reduced to w x h pixels, which
// are no more than it has. A view that there isn't is painted as the colours.
func Paint(p analysis.Pixels, view string, w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	v, ok := analysis.ViewByKey(view)
	if !ok {
		v, _ = analysis.ViewByKey("colour")
	}
	r := analysis.NewReducer()
	defer r.Close()
	v.Paint(img.Pix, r.Reduce(p, w, h, nil), analysis.Look{Reading: analysis.Read(p, analysis.Options{})})
	return img
}
