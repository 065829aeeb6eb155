package views

import (
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// View is one way to show a picture: its colours, its greys, its groups.
type View struct {
	Key  string // never changes; for settings
	Name string // for the window, at most 14 characters
	Knob *Knob  // the one thing that can be set about it; nil for none
	// Wide says that a pixel's look depends on pixels far from it: the view of a small part
	// is not a part of the view.
	Wide bool
	// Paint paints src into dst: RGBA, 4*src.Width bytes a row, alpha 255. It may be called
	// from any goroutine, but not twice at once for the same src, whose Reducer works for it
	// and keeps what memory it needs.
	Paint func(dst []byte, src *reduce.Picture, look Look)
	// Beside has the whole picture shown a second time beside the first, made small: it
	// returns the longer side in pixels, by where the knob stands. nil: it is not.
	Beside func(knob float64) (longer float64)
}

// Look is what a view may want to know beside the picture.
type Look struct {
	Knob    float64           // where the view's knob stands, by Knob.At; 0 for its start
	Reading *analysis.Reading // the groups of the whole picture; nil if there is none
}

// views lists them in the order in which they are offered. A new one is one file and its
// place here.
var views = []View{
	colourView, greyView, layerGreyView, bandsView, twoToneView, threeToneView, squintView,
	chromaView, hueView, edgesView, smallView, protanView, deutanView, tritanView,
}

// All returns all views in the order in which they are offered.
func All() []View {
	return slices.Clone(views)
}

// ByKey returns the view with a key, and whether there is one.
func ByKey(key string) (View, bool) {
	for i := range views {
		if views[i].Key == key {
			return views[i], true
		}
	}
	return View{}, false
}

// toneScale is a scale of greys, and from which light on each is shown.
type toneScale struct {
	reached fixed.Steps
	greys   [256]uint8 // by how many thresholds the light has reached
}

// paintTones paints every pixel the grey that belongs to the step its light has reached.
func paintTones(dst []byte, src *reduce.Picture, scale *toneScale) {
	reduce.Spans(dst, src, scale, func(dst []byte, linear []uint16, scale *toneScale) {
		for len(linear) >= 3 && len(dst) >= analysis.PixelBytes {
			g := scale.greys[scale.reached.Of(fixed.LightOf(linear[0], linear[1], linear[2]))]
			dst[0], dst[1], dst[2], dst[3] = g, g, g, 255
			linear, dst = linear[3:], dst[analysis.PixelBytes:]
		}
	})
}

// paintGroups paints the picture's split into k groups, each group as its mean's grey. A
// picture of which nothing is counted is cut by even steps of value instead.
func paintGroups(dst []byte, src *reduce.Picture, reading *analysis.Reading, k int) {
	if reading == nil || reading.Counted == 0 {
		paintEvenBands(dst, src, k)
		return
	}
	split := reading.Split(k)
	if chosen := reading.Chosen(); len(chosen.Groups()) == k { // edges may be set by hand
		split = chosen
	}
	var edges [analysis.MaxGroups - 1]uint32
	for i, t := range split.Thresholds() {
		edges[i] = fixed.Bins.Edges[t]
	}
	scale := reduce.MemoryOf[toneScale](src)
	for i, group := range split.Groups() {
		scale.greys[i] = colour.GreyOf(group.Mean)
	}
	scale.reached.Set(edges[:len(split.Thresholds())])
	paintTones(dst, src, scale)
}
