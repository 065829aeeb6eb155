package native

import (
	"image"

	"github.com/jezek/xgb/shape"
	"github.com/jezek/xgb/xfixes"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// Chip is a small picture on the screen, above all windows and without a frame: it takes no click and
// no focus, what lies below gets them. The zero Chip is ready, and on no screen. Its methods are for
// one goroutine at a time.
type Chip struct {
	conn   *xconn.Conn // that the window is of
	window xproto.Window
}

// Show puts a picture on the screen, its top left at a place of the desktop.
func (p *Chip) Show(img *image.RGBA, at image.Point) error {
	was := *p
	made, err := ask(1, func(c *xconn.Conn, _ xproto.Window) (Chip, error) {
		next := was // a request that hangs must not write to p
		if next.conn != c {
			next = Chip{conn: c} // it went with its connection
		}
		err := next.show(img, at)
		if err != nil && next.window != 0 {
			xproto.DestroyWindow(c.X, next.window)
		}
		return next, err
	})
	*p = made // on an error none: it is off the screen
	return err
}

// Move puts what is shown somewhere else.
func (p *Chip) Move(at image.Point) error {
	window, of := p.window, p.conn
	return do(uintptr(window), func(c *xconn.Conn, w xproto.Window) error {
		if c != of {
			return ErrNoWindow
		}
		return raise(c, w, xproto.ConfigWindowX|xproto.ConfigWindowY, at.X, at.Y)
	})
}

// Hide takes it off the screen. One that is on none is no error.
func (p *Chip) Hide() error {
	was := *p
	*p = Chip{}
	if was.window == 0 {
		return nil
	}
	return do(uintptr(was.window), func(c *xconn.Conn, w xproto.Window) error {
		if c != was.conn {
			return nil // it went with its connection
		}
		return xproto.DestroyWindowChecked(c.X, w).Check()
	})
}

// show runs on the line.
func (p *Chip) show(img *image.RGBA, at image.Point) error {
	format, err := formatOf(p.conn)
	if err != nil {
		return err
	}
	if p.window == 0 {
		if err := p.create(); err != nil {
			return err
		}
	}
	if err := p.paint(format, img); err != nil {
		return err
	}
	if err := raise(p.conn, p.window, xproto.ConfigWindowX|xproto.ConfigWindowY|xproto.ConfigWindowWidth|xproto.ConfigWindowHeight,
		at.X, at.Y, img.Rect.Dx(), img.Rect.Dy()); err != nil {
		return err
	}
	return xproto.MapWindowChecked(p.conn.X, p.window).Check()
}

// raise asks for a place, or a place and a size, above all windows.
func raise(c *xconn.Conn, w xproto.Window, mask uint16, values ...int) error {
	return configure(c, w, mask|xproto.ConfigWindowStackMode, append(values, xproto.StackModeAbove)...)
}

// create makes the window, which window managers leave alone (override-redirect) and the pointer goes
// through (an empty input shape). Sources: X Window System Protocol, X11R7.7, CreateWindow; The X Fixes
// Extension 2.0, SetWindowShapeRegion; Extended Window Manager Hints 1.5, _NET_WM_WINDOW_TYPE.
func (p *Chip) create() error {
	c := p.conn
	if !c.Has(xconn.XFixes) {
		return ErrRefused // it would take clicks
	}
	if _, err := xfixes.QueryVersion(c.X, 2, 0).Reply(); err != nil {
		return err
	}
	id, err := xproto.NewWindowId(c.X)
	if err != nil {
		return err
	}
	none, err := xfixes.NewRegionId(c.X)
	if err != nil {
		return err
	}
	err = xproto.CreateWindowChecked(c.X, 0, id, c.Screen.Root, 0, 0, 1, 1, 0,
		xproto.WindowClassInputOutput, 0, xproto.CwOverrideRedirect, []uint32{1}).Check()
	if err != nil {
		return err
	}
	xfixes.CreateRegion(c.X, none, nil)
	err = xfixes.SetWindowShapeRegionChecked(c.X, id, shape.Kind(shape.SkInput), 0, 0, none).Check()
	xfixes.DestroyRegion(c.X, none)
	if err == nil {
		err = name(c, id)
	}
	if err != nil {
		xproto.DestroyWindow(c.X, id)
		return err
	}
	p.window = id
	return nil
}

// name says what the window is, to who lists windows.
func name(c *xconn.Conn, w xproto.Window) error {
	kind, err := atom(c, "_NET_WM_WINDOW_TYPE")
	if err != nil {
		return err
	}
	tooltip, err := atom(c, "_NET_WM_WINDOW_TYPE_TOOLTIP")
	if err != nil {
		return err
	}
	xproto.ChangeProperty(c.X, xproto.PropModeReplace, w, kind, xproto.AtomAtom, 32, 1, inBytes(uint32(tooltip)))
	words := "Tonedesk: under the pointer"
	return xproto.ChangePropertyChecked(c.X, xproto.PropModeReplace, w, xproto.AtomWmName, xproto.AtomString, 8, uint32(len(words)), []byte(words)).Check()
}

// paint makes a picture the window's ground, so that the server paints it by itself whenever the
// window is uncovered.
func (p *Chip) paint(format pixelFormat, img *image.RGBA) error {
	c, size := p.conn, img.Rect.Size()
	pixmap, err := xproto.NewPixmapId(c.X)
	if err != nil {
		return err
	}
	gc, err := xproto.NewGcontextId(c.X)
	if err != nil {
		return err
	}
	xproto.CreatePixmap(c.X, c.Screen.RootDepth, pixmap, xproto.Drawable(c.Screen.Root), uint16(size.X), uint16(size.Y))
	xproto.CreateGC(c.X, gc, xproto.Drawable(pixmap), 0, nil)
	row := format.stride(size.X)
	rows := max(mostPutBytes/row, 1)
	for y := 0; y < size.Y; y += rows {
		n := min(rows, size.Y-y)
		xproto.PutImage(c.X, xproto.ImageFormatZPixmap, xproto.Drawable(pixmap), gc, uint16(size.X), uint16(n), 0, int16(y), 0,
			c.Screen.RootDepth, format.pack(img, y, n))
	}
	xproto.FreeGC(c.X, gc)
	xproto.ChangeWindowAttributes(c.X, p.window, xproto.CwBackPixmap, []uint32{uint32(pixmap)})
	xproto.FreePixmap(c.X, pixmap) // the window keeps it
	return xproto.ClearAreaChecked(c.X, false, p.window, 0, 0, 0, 0).Check()
}

// mostPutBytes is how much of a picture goes into one request: every server takes 4 * 65535 bytes (X
// Window System Protocol, X11R7.7: its length has 16 bits), the head included.
const mostPutBytes = 1 << 17
