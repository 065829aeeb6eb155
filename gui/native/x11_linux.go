package native

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"slices"
	"sync"
	"time"

	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// askTime is how long the display may take for an answer about a window.
const askTime = time.Second

// displayVariable names the watched display, where it is another than the window's own.
const displayVariable = "TONEDESK_DISPLAY"

// line keeps requests that hang from piling up.
var line xconn.Line

// SameDisplay reports whether the watched display is the window's own.
func SameDisplay() bool {
	watched := os.Getenv(displayVariable)
	return watched == "" || xconn.SameDisplay(watched, os.Getenv("DISPLAY"))
}

// WaylandSession reports whether the environment says that the session is a Wayland one, and the
// watched display is the window's own.
func WaylandSession() bool { return SameDisplay() && xconn.WaylandSession(os.Getenv) }

// held is the connection that was lent to this package; it is kept until it breaks, so
// that a call costs no more than its own requests.
var held struct {
	sync.Mutex
	conn *xconn.Conn
}

// connection returns the window's display.
func connection(ctx context.Context) (*xconn.Conn, error) {
	if !SameDisplay() {
		return nil, ErrOtherDisplay
	}
	held.Lock()
	defer held.Unlock()
	if held.conn != nil {
		if held.conn.Alive() {
			return held.conn, nil
		}
		held.conn.Release()
		held.conn = nil
	}
	c, err := xconn.Acquire(ctx, os.Getenv("DISPLAY"))
	if err != nil {
		return nil, err
	}
	held.conn = c
	return c, nil
}

// ask runs f with the window's display, for no longer than askTime. A handle of 0 is no
// window.
func ask[T any](handle uintptr, f func(c *xconn.Conn, w xproto.Window) (T, error)) (T, error) {
	var none T
	if handle == 0 {
		return none, ErrNoWindow
	}
	ctx, cancel := context.WithTimeout(context.Background(), askTime)
	defer cancel()
	c, err := connection(ctx)
	if err != nil {
		return none, err
	}
	answer := make(chan T, 1) // an answer that comes too late is nobody's
	err = line.Do(ctx, func() error {
		got, err := f(c, xproto.Window(handle))
		if err == nil {
			answer <- got
		}
		return err
	})
	if err != nil {
		return none, err
	}
	return <-answer, nil
}

// do runs f as ask does, where there is nothing to answer.
func do(handle uintptr, f func(c *xconn.Conn, w xproto.Window) error) error {
	_, err := ask(handle, func(c *xconn.Conn, w xproto.Window) (struct{}, error) { return struct{}{}, f(c, w) })
	return err
}

// ClientRect returns where the window's inside is.
func ClientRect(handle uintptr) (image.Rectangle, error) { return ask(handle, clientRect) }

func clientRect(c *xconn.Conn, w xproto.Window) (image.Rectangle, error) {
	g, err := xproto.GetGeometry(c.X, xproto.Drawable(w)).Reply()
	if err != nil {
		return image.Rectangle{}, noWindow("size of the window", err)
	}
	at, err := xproto.TranslateCoordinates(c.X, w, c.Screen.Root, 0, 0).Reply()
	if err != nil {
		return image.Rectangle{}, noWindow("place of the window", err)
	}
	return image.Rect(0, 0, int(g.Width), int(g.Height)).Add(image.Pt(int(at.DstX), int(at.DstY))), nil
}

// FrameRect returns where the window is with its frame; without one, ClientRect.
func FrameRect(handle uintptr) (image.Rectangle, error) {
	return ask(handle, func(c *xconn.Conn, w xproto.Window) (image.Rectangle, error) {
		r, err := clientRect(c, w)
		if err != nil {
			return r, err
		}
		sides, err := cardinals(c, w, "_NET_FRAME_EXTENTS")
		return framed(r, sides), err
	})
}

// framed returns a window's inside with its frame, whose widths the window manager says: left,
// right, top, bottom. What makes no sense is no frame: any program can write there, and
// places on a display have 16 bits.
func framed(r image.Rectangle, sides []uint32) image.Rectangle {
	if len(sides) != 4 || slices.Max(sides) > math.MaxInt16 {
		return r
	}
	r.Min = r.Min.Sub(image.Pt(int(sides[0]), int(sides[2])))
	r.Max = r.Max.Add(image.Pt(int(sides[1]), int(sides[3])))
	return r
}

// MoveTo puts the corner of the window's inside at a point of the desktop.
func MoveTo(handle uintptr, at image.Point) error {
	return do(handle, func(c *xconn.Conn, w xproto.Window) error {
		return configure(c, w, xproto.ConfigWindowX|xproto.ConfigWindowY, at.X, at.Y)
	})
}

// configure asks for a place, or a place and a size.
func configure(c *xconn.Conn, w xproto.Window, mask uint16, values ...int) error {
	list := make([]uint32, len(values))
	for i, v := range values {
		list[i] = uint32(int32(v))
	}
	if err := xproto.ConfigureWindowChecked(c.X, w, mask, list).Check(); err != nil {
		return noWindow("place of the window", err)
	}
	return nil
}

// noWindow adds ErrNoWindow to err if the server knows no such window.
func noWindow(what string, err error) error {
	var window xproto.WindowError
	var drawable xproto.DrawableError
	if errors.As(err, &window) || errors.As(err, &drawable) {
		return fmt.Errorf("%s: %w: %w", what, ErrNoWindow, err)
	}
	return fmt.Errorf("%s: %w", what, err)
}

// Screens returns where the screens are.
func Screens() ([]image.Rectangle, error) {
	return ask(1, func(c *xconn.Conn, _ xproto.Window) ([]image.Rectangle, error) {
		whole := []image.Rectangle{image.Rect(0, 0, int(c.Screen.WidthInPixels), int(c.Screen.HeightInPixels))}
		if !c.Has(xconn.RandR) {
			return whole, nil
		}
		reply, err := randr.GetMonitors(c.X, c.Screen.Root, true).Reply()
		if err != nil || len(reply.Monitors) == 0 {
			return whole, nil // an old server: one screen, as it was when we connected
		}
		screens := make([]image.Rectangle, len(reply.Monitors))
		for i, m := range reply.Monitors {
			screens[i] = image.Rect(0, 0, int(m.Width), int(m.Height)).Add(image.Pt(int(m.X), int(m.Y)))
		}
		return screens, nil
	})
}
