package xvfbtest

import (
	"errors"
	"image"
	"io"
	"log"
	"net/rpc"
	"os"
	"sync/atomic"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

const painterVariable = "TONEDESK_TEST_PAINTER" // 1: this test binary is to be a painter

// A test binary that was started as a painter paints, before it gets to its tests: an
// init needs no line in each package's TestMain that could be forgotten, and forgetting
// it would run the tests again and again.
func init() {
	if os.Getenv(painterVariable) != "1" {
		return
	}
	orders := rpc.NewServer()
	if err := orders.RegisterName("artist", &artist{}); err != nil {
		log.Fatal(err)
	}
	orders.ServeConn(duplex{os.Stdin, os.Stdout})
	os.Exit(0)
}

// duplex joins two pipes.
type duplex struct {
	io.Reader
	io.WriteCloser
}

// artist is what a painter process works with. Its exported methods carry out orders.
type artist struct {
	x      *xgb.Conn
	screen *xproto.ScreenInfo
	gc     xproto.Gcontext
	pongs  chan uint32 // numbers of the pings that were answered
	pings  uint32
	heard  atomic.Uint32 // buttons and keys
}

// Order says what to do in detail; each order needs a part of it.
type Order struct {
	Window  xproto.Window
	Box     image.Rectangle // root pixels
	Pixel   uint32          // in the server's own format
	Picture *image.RGBA
	Title   string
	Class   string
	PID     int           // of the program that it says it's of; 0: it doesn't
	Parent  xproto.Window // 0: the root
	Border  int
	Alpha   bool // of depth 32
	Bare    bool // without a frame
	Times   int
	Sym     xproto.Keysym // of a key to hold
	Held    uint16        // modifier bits with it
}

// Begin connects to the server.
func (a *artist) Begin(Order, *uint32) (err error) {
	xgb.Logger = log.New(io.Discard, "", 0)
	if a.x, err = xgb.NewConn(); err != nil {
		return err
	}
	a.pongs = make(chan uint32, 100)
	go a.drain()
	a.screen = xproto.Setup(a.x).DefaultScreen(a.x)
	if a.gc, err = xproto.NewGcontextId(a.x); err != nil {
		return err
	}
	return xproto.CreateGCChecked(a.x, a.gc, xproto.Drawable(a.screen.Root), xproto.GcSubwindowMode,
		[]uint32{xproto.SubwindowModeIncludeInferiors}).Check()
}

// drain throws the events away, but for answers to pings: undrained, they would block the
// connection.
func (a *artist) drain() {
	for {
		event, err := a.x.WaitForEvent()
		if event == nil && err == nil {
			return
		}
		a.hears(event)
		if m, ok := event.(xproto.ClientMessageEvent); ok && m.Format == 32 {
			select {
			case a.pongs <- m.Data.Data32[1]:
			default:
			}
		}
	}
}

// Ping asks a window's program for a sign of life and waits for it, for so many
// milliseconds at most; it returns how many it took, or the most. Source: Extended Window
// Manager Hints 1.5, _NET_WM_PING.
func (a *artist) Ping(o Order, took *uint32) error {
	root := a.screen.Root
	err := xproto.ChangeWindowAttributesChecked(a.x, root, xproto.CwEventMask, []uint32{xproto.EventMaskSubstructureNotify}).Check()
	if err != nil {
		return err
	}
	a.pings++
	event := xproto.ClientMessageEvent{Format: 32, Window: o.Window, Type: a.atom("WM_PROTOCOLS"),
		Data: xproto.ClientMessageDataUnionData32New([]uint32{uint32(a.atom("_NET_WM_PING")), a.pings, uint32(o.Window), 0, 0})}
	start := time.Now()
	if err := xproto.SendEventChecked(a.x, false, o.Window, 0, string(event.Bytes())).Check(); err != nil {
		return err
	}
	timeout := time.After(time.Duration(o.Times) * time.Millisecond)
	for {
		select {
		case n := <-a.pongs:
			if n == a.pings {
				*took = uint32(time.Since(start).Milliseconds())
				return nil
			}
		case <-timeout:
			*took = uint32(o.Times)
			return nil
		}
	}
}

// Fill paints a part of the root window.
func (a *artist) Fill(o Order, _ *uint32) error {
	r := xproto.Rectangle{X: int16(o.Box.Min.X), Y: int16(o.Box.Min.Y), Width: uint16(o.Box.Dx()), Height: uint16(o.Box.Dy())}
	return errors.Join(
		xproto.ChangeGCChecked(a.x, a.gc, xproto.GcForeground, []uint32{o.Pixel}).Check(),
		xproto.PolyFillRectangleChecked(a.x, xproto.Drawable(a.screen.Root), a.gc, []xproto.Rectangle{r}).Check())
}

// Point moves the pointer to a place of the screen.
func (a *artist) Point(o Order, _ *uint32) error {
	return xproto.WarpPointerChecked(a.x, 0, a.screen.Root, 0, 0, 0, 0, int16(o.Box.Min.X), int16(o.Box.Min.Y)).Check()
}

// Paint paints a box of a window, and not of its children.
func (a *artist) Paint(o Order, _ *uint32) error {
	gc, err := xproto.NewGcontextId(a.x)
	if err != nil {
		return err
	}
	r := xproto.Rectangle{X: int16(o.Box.Min.X), Y: int16(o.Box.Min.Y), Width: uint16(o.Box.Dx()), Height: uint16(o.Box.Dy())}
	return errors.Join(
		xproto.CreateGCChecked(a.x, gc, xproto.Drawable(o.Window), xproto.GcForeground, []uint32{o.Pixel}).Check(),
		xproto.PolyFillRectangleChecked(a.x, xproto.Drawable(o.Window), gc, []xproto.Rectangle{r}).Check(),
		xproto.FreeGCChecked(a.x, gc).Check())
}

// Resize asks for a window's inside to be of a size.
func (a *artist) Resize(o Order, _ *uint32) error {
	return xproto.ConfigureWindowChecked(a.x, o.Window, xproto.ConfigWindowWidth|xproto.ConfigWindowHeight,
		[]uint32{uint32(o.Box.Dx()), uint32(o.Box.Dy())}).Check()
}

// Hide takes a window off the screen.
func (a *artist) Hide(o Order, _ *uint32) error {
	return xproto.UnmapWindowChecked(a.x, o.Window).Check()
}

// Rename gives a window another title.
func (a *artist) Rename(o Order, _ *uint32) error { return a.describe(o.Window, o) }

// atom returns the number of a name, or none, which no request takes.
func (a *artist) atom(name string) xproto.Atom {
	reply, err := xproto.InternAtom(a.x, false, uint16(len(name)), name).Reply()
	if err != nil {
		return xproto.AtomNone
	}
	return reply.Atom
}

// Manage waits until a window manager takes windows into its care. While it starts it
// forgets those that come, so the window is shown again until it has its WM_STATE.
func (a *artist) Manage(_ Order, id *uint32) error {
	if err := a.Show(Order{Box: image.Rect(0, 0, 1, 1), Title: "first window"}, id); err != nil {
		return err
	}
	w, state := xproto.Window(*id), a.atom("WM_STATE")
	for deadline := time.Now().Add(startTime); time.Now().Before(deadline); time.Sleep(pollTime) {
		property, err := xproto.GetProperty(a.x, false, w, state, xproto.GetPropertyTypeAny, 0, 2).Reply()
		if err != nil {
			return err
		}
		if property.Format != 0 {
			return xproto.DestroyWindowChecked(a.x, w).Check()
		}
		if err := xproto.MapWindowChecked(a.x, w).Check(); err != nil {
			return err
		}
	}
	return errors.New("nobody manages windows")
}

// Move asks for a window's inside to be at a point.
func (a *artist) Move(o Order, _ *uint32) error {
	return xproto.ConfigureWindowChecked(a.x, o.Window, xproto.ConfigWindowX|xproto.ConfigWindowY,
		[]uint32{uint32(int32(o.Box.Min.X)), uint32(int32(o.Box.Min.Y))}).Check()
}

// Raise asks for a window to be above the others.
func (a *artist) Raise(o Order, _ *uint32) error {
	return xproto.ConfigureWindowChecked(a.x, o.Window, xproto.ConfigWindowStackMode, []uint32{xproto.StackModeAbove}).Check()
}

// Iconify asks the window manager to minimise a window. Source: ICCCM 2.0, section 4.1.4.
func (a *artist) Iconify(o Order, _ *uint32) error {
	const iconicState = 3
	event := xproto.ClientMessageEvent{Format: 32, Window: o.Window, Type: a.atom("WM_CHANGE_STATE"),
		Data: xproto.ClientMessageDataUnionData32New([]uint32{iconicState, 0, 0, 0, 0})}
	return xproto.SendEventChecked(a.x, false, a.screen.Root,
		xproto.EventMaskSubstructureRedirect|xproto.EventMaskSubstructureNotify, string(event.Bytes())).Check()
}

// Map shows a window again.
func (a *artist) Map(o Order, _ *uint32) error { return xproto.MapWindowChecked(a.x, o.Window).Check() }

// Close asks a window's program to close it, as a window manager does. Source: ICCCM 2.0,
// section 4.2.8.1.
func (a *artist) Close(o Order, _ *uint32) error {
	event := xproto.ClientMessageEvent{Format: 32, Window: o.Window, Type: a.atom("WM_PROTOCOLS"),
		Data: xproto.ClientMessageDataUnionData32New([]uint32{uint32(a.atom("WM_DELETE_WINDOW")), 0, 0, 0, 0})}
	return xproto.SendEventChecked(a.x, false, o.Window, 0, string(event.Bytes())).Check()
}

// Destroy ends a window.
func (a *artist) Destroy(o Order, _ *uint32) error {
	return xproto.DestroyWindowChecked(a.x, o.Window).Check()
}

// Grab keeps the server for this client.
func (a *artist) Grab(Order, *uint32) error { return xproto.GrabServerChecked(a.x).Check() }

// Ungrab ends a Grab.
func (a *artist) Ungrab(Order, *uint32) error { return xproto.UngrabServerChecked(a.x).Check() }

// Flood sends events about the root window.
func (a *artist) Flood(o Order, _ *uint32) error {
	root := a.screen.Root
	event := xproto.ConfigureNotifyEvent{Event: root, Window: root, Width: 1, Height: 1} // the numbers are nobody's business
	bytes := string(event.Bytes())
	for range o.Times {
		xproto.SendEvent(a.x, false, root, xproto.EventMaskStructureNotify, bytes)
	}
	_, err := xproto.GetInputFocus(a.x).Reply() // the server has had them all
	return err
}

// Repaint gives a window another picture.
func (a *artist) Repaint(o Order, _ *uint32) error {
	pixmap, err := a.load(o.Picture)
	if err != nil {
		return err
	}
	return errors.Join(
		xproto.ChangeWindowAttributesChecked(a.x, o.Window, xproto.CwBackPixmap, []uint32{uint32(pixmap)}).Check(),
		xproto.ClearAreaChecked(a.x, false, o.Window, 0, 0, 0, 0).Check(),
		xproto.FreePixmapChecked(a.x, pixmap).Check())
}

// load puts a picture into a new pixmap of depth 24.
func (a *artist) load(img *image.RGBA) (xproto.Pixmap, error) {
	for i := 0; i < len(img.Pix); i += 4 {
		img.Pix[i], img.Pix[i+2] = img.Pix[i+2], img.Pix[i]
	}
	pixmap, err := xproto.NewPixmapId(a.x)
	if err != nil {
		return 0, err
	}
	size := img.Rect.Size()
	err = xproto.CreatePixmapChecked(a.x, 24, pixmap, xproto.Drawable(a.screen.Root), uint16(size.X), uint16(size.Y)).Check()
	for y := 0; y < size.Y && err == nil; y++ { // a row a request: none is longer than the protocol allows
		err = xproto.PutImageChecked(a.x, xproto.ImageFormatZPixmap, xproto.Drawable(pixmap), a.gc,
			uint16(size.X), 1, 0, int16(y), 0, 24, img.Pix[y*img.Stride:(y+1)*img.Stride]).Check()
	}
	return pixmap, err
}
