package wording

// SayRegion names a region of the screen by its size, in pixels.
func SayRegion(w, h int) string { return "Region " + SizeSay(w, h) }
