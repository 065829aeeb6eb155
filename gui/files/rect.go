package files

import "image"

// Rect is a rectangle as a JSON file holds it.
type Rect struct {
	X      int `json:"x"`
	Y      int `json:"y"`
	Width  int `json:"width"`
	Height int `json:"height"`
}

// RectOf returns r as a JSON file holds it.
func RectOf(r image.Rectangle) Rect { return Rect{r.Min.X, r.Min.Y, r.Dx(), r.Dy()} }

// Rectangle returns r as Go's image package has it; nil is the empty rectangle.
func (r *Rect) Rectangle() image.Rectangle {
	if r == nil {
		return image.Rectangle{}
	}
	return image.Rect(r.X, r.Y, r.X+r.Width, r.Y+r.Height)
}
