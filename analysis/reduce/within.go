package reduce

import "image"

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
