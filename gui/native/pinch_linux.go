package native

import (
	"context"
	"os"

	"app.tonedesk/capture/xconn"
)

// Pinches calls each with every pinch over the window, one after the other, until ctx ends
// or the display does. It returns an error, at once where the system doesn't tell.
func Pinches(ctx context.Context, handle uintptr, each func(Pinch)) error {
	if handle == 0 {
		return ErrNoWindow
	}
	return xconn.Pinches(ctx, os.Getenv("DISPLAY"), uint32(handle), func(p xconn.Pinch) {
		each(Pinch{
			Begins: p.Phase == xconn.PinchBegins, Ends: p.Phase >= xconn.PinchEnds, Off: p.Phase == xconn.PinchIsCalledOff,
			X: p.X, Y: p.Y, DX: p.DX, DY: p.DY, Scale: p.Scale,
		})
	})
}
