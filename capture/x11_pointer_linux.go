package capture

import (
	"context"
	"fmt"
	"image"
	"time"

	"github.com/jezek/xgb/xproto"
)

// Pointer implements Looker. Source: X Window System Protocol, X11R7.7, QueryPointer.
func (b *x11Backend) Pointer(ctx context.Context) (image.Point, error) {
	at, err := glance(ctx, b, func(s *x11Session) (at image.Point, err error) {
		reply, err := xproto.QueryPointer(s.conn.X, s.conn.Screen.Root).Reply()
		if err != nil {
			return at, err
		}
		if !reply.SameScreen {
			return at, fmt.Errorf("%w: the pointer is on another screen", ErrOutside)
		}
		return image.Pt(int(reply.RootX), int(reply.RootY)), nil
	})
	if err != nil {
		return at, fmt.Errorf("look for the pointer: %w", err)
	}
	return at, nil
}

// ReadSquare implements Looker.
func (b *x11Backend) ReadSquare(ctx context.Context, around image.Point, side int) (Frame, error) {
	f, err := glance(ctx, b, func(s *x11Session) (f Frame, err error) {
		bounds, err := s.bounds()
		if err != nil {
			return f, err
		}
		square := squareAround(around, side).Intersect(bounds)
		if square.Empty() {
			return f, fmt.Errorf("%w of %v", ErrOutside, bounds)
		}
		img := x11Image{format: s.format}
		raw, err := img.get(s.conn, &x11Region{x11Session: s}, square, 0, false)
		if err != nil {
			return f, err
		}
		f = Frame{Pix: raw, Stride: s.format.stride(square.Dx()), Size: square.Size(), Layout: BGRX, Origin: square.Min, At: time.Now(), Lasts: true}
		if !s.format.direct {
			f.Pix, f.Stride = make([]byte, 4*square.Dx()*square.Dy()), 4*square.Dx()
			s.format.convert(f.Pix, raw, square.Dx(), square.Dy())
		}
		return f, nil
	})
	if err != nil {
		return Frame{}, fmt.Errorf("read the square around %v: %w", around, err)
	}
	return f, nil
}

// glance asks the display for something small, until ctx ends.
func glance[T any](ctx context.Context, b *x11Backend, ask func(*x11Session) (T, error)) (T, error) {
	answer := make(chan T, 1) // an answer that comes too late is nobody's
	err := b.do(ctx, &b.line, func() error {
		session, err := b.connect(ctx)
		if err != nil {
			return err
		}
		got, err := ask(session)
		if err == nil {
			answer <- got
		}
		return err
	})
	if err != nil {
		var none T
		return none, err
	}
	return <-answer, nil
}
