package capture

import (
	"context"
	"fmt"
	"image"
)

// Looker is a Backend that reads a small part of the screen at once, without a stream.
type Looker interface {
	Backend
	// Pointer returns the pixel of the desktop under the pointer; a pen that hovers moves it too.
	Pointer(ctx context.Context) (image.Point, error)
	// ReadSquare reads the square of side pixels around a pixel of the desktop, as far as it lies
	// on the desktop: Frame.Origin says where. The frame lasts. The error wraps ErrOutside if it
	// lies nowhere on it.
	ReadSquare(ctx context.Context, around image.Point, side int) (Frame, error)
}

// PointerAt returns the pixel of the desktop under the pointer. The error wraps ErrUnsupported where
// a backend can't tell.
func PointerAt(ctx context.Context, b Backend) (image.Point, error) {
	looker, ok := b.(Looker)
	if !ok {
		return image.Point{}, fmt.Errorf("look for the pointer: %w", ErrUnsupported)
	}
	return looker.Pointer(ctx)
}

// ReadSquare reads the square of side pixels around a pixel of the desktop: see Looker. The error
// wraps ErrUnsupported where a backend can't.
func ReadSquare(ctx context.Context, b Backend, around image.Point, side int) (Frame, error) {
	looker, ok := b.(Looker)
	if !ok {
		return Frame{}, fmt.Errorf("read a square of the screen: %w", ErrUnsupported)
	}
	return looker.ReadSquare(ctx, around, side)
}

// squareAround returns the square of side pixels around a pixel: of an even side, the pixel lies
// right of and below the middle.
func squareAround(at image.Point, side int) image.Rectangle {
	corner := at.Sub(image.Pt(side/2, side/2))
	return image.Rectangle{Min: corner, Max: corner.Add(image.Pt(side, side))}
}
