package views

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// View is one way to show a picture: its colours, its greys, its groups.
type View struct {
	Key  string // never changes; for settings
	Name string // for the window, at most 14 characters
	Says string // what the name stands for, where it is not plain; "" for none
	Knob *Knob  // the one thing that can be set about it; nil for none
	// Wide says that a pixel's look depends on pixels far from it: the view of a small part
	// is not a part of the view.
	Wide bool
	// Groups says that it shows the picture's groups: a change of a few pixels may change the look of
	// all.
	Groups bool
	// Paint paints src into dst: RGBA, 4*src.Width bytes a row, alpha 255. It may be called
	// from any goroutine, but not twice at once for the same src, whose Reducer works for it
	// and keeps what memory it needs.
	Paint func(dst []byte, src *reduce.Picture, look Look)
	// Beside has the whole picture shown a second time beside the first, made small: it
	// returns the longer side in pixels, by where the knob stands. nil: it is not.
	Beside func(knob float64) (longer float64)
}

// Apart reports whether every pixel's look depends on that pixel alone: where a few have changed,
// only these need painting.
func (v View) Apart() bool { return !v.Wide && !v.Groups }

// Knob is what can be set about a view: a number in even steps.
type Knob struct {
	Name     string  // for the window: "Bands"
	Unit     string  // "%"; empty for a plain number
	From, To float64 // the range, both ends included, above 0
	Step     float64 // from one position to the next, above 0
	Start    float64 // where it stands until it is moved
}

// At returns the position nearest to v: v cut to the range and put on a step. 0 is the
// start, so that a Look that says nothing shows a view as it starts; so is NaN.
func (k *Knob) At(v float64) float64 {
	if v == 0 || math.IsNaN(v) {
		return k.Start
	}
	v = max(k.From, min(v, k.To))
	return min(k.From+k.Step*math.Round((v-k.From)/k.Step), k.To)
}

// Look is what a view may want to know beside the picture.
type Look struct {
	Knob    float64           // where the view's knob stands, by Knob.At; 0 for its start
	Edges   edges.Options     // by which edges are lost, but for their tones; the zero value for as at first
	Reading *analysis.Reading // the groups of the whole picture; nil if there is none
}

// views lists them in the order in which they are offered. A new one is one file and its
// place here.
var views = []View{
	colourView, greyView, layerGreyView, bandsView, twoToneView, threeToneView, squintView,
	edgesView, lostEdgesView, chromaView, hueView, smallView, protanView, deutanView, tritanView,
}

// All returns all views in the order in which they are offered.
func All() []View { return slices.Clone(views) }

// ByKey returns the view with a key, and whether there is one.
func ByKey(key string) (View, bool) {
	i := slices.IndexFunc(views, func(v View) bool { return v.Key == key })
	if i < 0 {
		return View{}, false
	}
	return views[i], true
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
