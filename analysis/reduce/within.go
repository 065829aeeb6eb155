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

// Once reduces a picture to longest cells at its longer side at most and hands it to use, which must
// keep nothing of it. Pixels that fail Check are an empty picture.
func Once(p analysis.Pixels, mask *analysis.Mask, longest int, use func(*Picture)) {
	r := New()
	defer r.Close()
	size := Within(image.Pt(p.Width, p.Height), longest)
	use(r.Reduce(p, size.X, size.Y, mask))
}
