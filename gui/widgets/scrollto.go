package widgets

// ScrollToShow returns by how much a room of this height has to be scrolled down, so that a
// part that begins at top is seen: all of it, or its beginning, with a little around it.
func ScrollToShow(top, height, room float32) float32 {
	switch bottom := top + height; {
	case top < 0:
		return top - Step
	case bottom > room:
		return max(min(bottom+Step-room, top-Step), 0)
	}
	return 0
}
