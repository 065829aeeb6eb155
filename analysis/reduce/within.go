package reduce

import (
	"image"

	"app.tonedesk/analysis"
)

// Within returns the size that a picture of a size is reduced to for its longer side to have so many
// pixels at most.
func Within(size image.Point, longest int) image.Point {
	longer := max(size.X, size.Y)
	if longer <= longest {
		return size
	}
	part := func(side int) int { return max(1, (side*longest+longer/2)/longer) }
	return image.Pt(part(size.X), part(size.Y))
}

// To is what a picture is reduced to.
type To struct {
	Size image.Point    // each side is cut to the picture's
	Out  *analysis.Mask // what is left out; nil for nothing
	Grid *Grid          // where the boxes lie, as many as Size says; nil for equal ones that fill the picture
}

// ToLongest is a size whose longer side has so many pixels at most.
func ToLongest(p analysis.Pixels, longest int, out *analysis.Mask) To {
	return To{Size: Within(image.Pt(p.Width, p.Height), longest), Out: out}
}

// Together reduces a picture to several sizes in one pass over its pixels and hands the results to use,
// which must keep nothing of them. Each is exactly what Reduce makes. Pixels that fail Check are an
// empty picture.
func Together(p analysis.Pixels, to []To, use func([]*Picture)) {
	if p.Check() != nil {
		p = analysis.Pixels{}
	}
	r := New()
	defer r.Close()
	r.aims = make([]aim, len(to))
	pictures, most := make([]*Picture, len(to)), 0
	for i, t := range to {
		d := &Picture{workers: r.workers}
		d.piece = d.doPiece
		width, height := min(t.Size.X, p.Width), min(t.Size.Y, p.Height)
		if width <= 0 || height <= 0 {
			width, height = 0, 0
		}
		grid := EqualGrid(p.Bounds().Max, image.Pt(width, height))
		if t.Grid != nil && width > 0 {
			grid = *t.Grid
			width, height = grid.X.Count, grid.Y.Count
		}
		d.resize(width, height)
		r.aims[i].set(d, t.Out, grid)
		pictures[i], most = d, max(most, height)
	}
	r.pass(p, (most+rowsTogether-1)/rowsTogether)
	use(pictures)
}

// Once reduces a picture to longest cells at its longer side at most and hands it to use, which must
// keep nothing of it. Pixels that fail Check are an empty picture.
func Once(p analysis.Pixels, mask *analysis.Mask, longest int, use func(*Picture)) {
	Together(p, []To{ToLongest(p, longest, mask)}, func(d []*Picture) { use(d[0]) })
}
