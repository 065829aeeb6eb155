package native

// Pinch is one event of fingers that move apart or together on a touchpad.
type Pinch struct {
	Begins bool    // the fingers were put down: those before are another pinch's
	Ends   bool    // they were lifted: Scale says nothing
	Off    bool    // and it was no pinch, as it turned out
	X, Y   float64 // the pointer's place in the window, pixels
	DX, DY float64 // how far the fingers' middle moved since the event before, pixels
	Scale  float64 // the fingers' distance now to that at the beginning
}
