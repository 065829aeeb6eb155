package families

import (
	"image"

	"app.tonedesk/analysis/colour"
)

// NewFinderWith returns a Finder that weighs with a model of its own, for fitting.
func NewFinderWith(m *Model) *Finder {
	f := NewFinder()
	f.model = m
	return f
}

// Weighed is what Find weighs of a picture: what models are fitted on.
type Weighed struct {
	Width, Height int
	Map           []int32 // the colour of each cell as an index, -1 for none; rows are Width apart
	Colours       []colour.Lab
	Links         []WeighedLink
	Locals        []WeighedLocal
}

// WeighedLink is two colours that touch.
type WeighedLink struct {
	Light, Shadow int
	Figures       [linkFigures]float64
	Logit         float64
}

// WeighedLocal is what may be a local colour; those that share colours compete.
type WeighedLocal struct {
	Figures [sureFigures]float64
	Logit   float64
	Part    float64 // see Choose
	Colours []int32
	Found   *Found // with this one alone; its List is empty where its sides are too near
}

// Weigh weighs what was taken last.
func (f *Finder) Weigh(rules Rules) *Weighed {
	w := &Weighed{Width: f.source.across, Height: f.source.down}
	if w.Width*w.Height == 0 {
		return w
	}
	f.smooth()
	f.segment()
	d := f.decide()
	for k := range d.pools {
		w.Colours = append(w.Colours, d.pools[k].mean())
	}
	w.Map = make([]int32, len(f.areas.label))
	for i, l := range f.areas.label {
		if w.Map[i] = -1; l != noArea {
			w.Map[i] = d.of[l]
		}
	}
	cells := image.Pt(w.Width, w.Height)
	w.Width, w.Height, w.Map = evenly(&f.source, w.Map)
	for _, l := range d.links {
		w.Links = append(w.Links, WeighedLink{int(l.light), int(l.shadow), l.figures, l.logit})
	}
	for _, l := range d.all {
		l.confidence = 1
		found := &Found{Width: cells.X, Height: cells.Y, Map: make([]uint8, cells.X*cells.Y)}
		f.describe(found, []local{l}, rules)
		found = f.source.laid(found)
		w.Locals = append(w.Locals, WeighedLocal{l.figures, weigh(f.model.Sure[:], l.figures[:]), l.part, l.colours(), found})
	}
	return w
}
