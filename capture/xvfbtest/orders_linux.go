package xvfbtest

import (
	"bufio"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"log"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// artist is what a painter process works with.
type artist struct {
	x      *xgb.Conn
	screen *xproto.ScreenInfo
	gc     xproto.Gcontext
}

// paintAll carries out the orders that come in, one a line, and answers each with
// "ok NUMBER" or the error. It returns the process's exit code.
func paintAll(in io.Reader, out io.Writer) int {
	xgb.Logger = log.New(io.Discard, "", 0)
	x, err := xgb.NewConn()
	if err != nil {
		fmt.Fprintln(out, err)
		return 1
	}
	defer x.Close()
	go drain(x)
	a := &artist{x: x, screen: xproto.Setup(x).DefaultScreen(x)}
	if a.gc, err = xproto.NewGcontextId(x); err == nil {
		err = xproto.CreateGCChecked(x, a.gc, xproto.Drawable(a.screen.Root), xproto.GcSubwindowMode,
			[]uint32{xproto.SubwindowModeIncludeInferiors}).Check()
	}
	if err != nil {
		fmt.Fprintln(out, err)
		return 1
	}
	orders := bufio.NewScanner(in)
	for orders.Scan() {
		number, err := a.obey(orders.Text())
		if err != nil {
			fmt.Fprintf(out, "%q\n", err.Error())
		} else {
			fmt.Fprintln(out, "ok", number)
		}
	}
	return 0
}

// drain throws the events away: undrained, they would block the connection.
func drain(x *xgb.Conn) {
	for {
		if event, err := x.WaitForEvent(); event == nil && err == nil {
			return
		}
	}
}

// obey carries out one order: a word, then numbers and quoted strings.
func (a *artist) obey(order string) (uint32, error) {
	name, n, words, err := parse(order)
	if err != nil {
		return 0, err
	}
	w := xproto.Window(n[0])
	switch name {
	case "hello":
		return 0, nil
	case "fill":
		return 0, a.fill(box(n), uint32(n[4]))
	case "window":
		return a.window(box(n), xproto.CwBackPixel, uint32(n[4]), "window", true)
	case "bare":
		return a.window(box(n), xproto.CwBackPixel, uint32(n[4]), "bare window", false)
	case "manage":
		return 0, a.manage()
	case "picture":
		return a.picture(image.Pt(n[0], n[1]), words[0], words[1])
	case "repaint":
		return 0, a.repaint(w, words[0])
	case "move":
		return 0, a.configure(w, xproto.ConfigWindowX|xproto.ConfigWindowY, uint32(int32(n[1])), uint32(int32(n[2])))
	case "raise":
		return 0, a.configure(w, xproto.ConfigWindowStackMode, xproto.StackModeAbove)
	case "iconify":
		return 0, a.iconify(w)
	case "show":
		return 0, xproto.MapWindowChecked(a.x, w).Check()
	case "destroy":
		return 0, xproto.DestroyWindowChecked(a.x, w).Check()
	case "grab":
		return 0, xproto.GrabServerChecked(a.x).Check()
	case "ungrab":
		return 0, xproto.UngrabServerChecked(a.x).Check()
	case "flood":
		return 0, a.flood(n[0])
	}
	return 0, fmt.Errorf("unknown order %q", order)
}

// parse takes an order apart; numbers and words that are missing are zero.
func parse(order string) (name string, n [5]int, words [2]string, err error) {
	name, rest, _ := strings.Cut(order, " ")
	numbers, quoted := 0, 0
	for rest != "" {
		if rest[0] == '"' {
			text, err := strconv.QuotedPrefix(rest)
			if err != nil || quoted == len(words) {
				return name, n, words, fmt.Errorf("bad order %q", order)
			}
			words[quoted], _ = strconv.Unquote(text)
			quoted++
			rest = strings.TrimPrefix(rest[len(text):], " ")
			continue
		}
		var field string
		field, rest, _ = strings.Cut(rest, " ")
		if numbers == len(n) {
			return name, n, words, fmt.Errorf("bad order %q", order)
		}
		if n[numbers], err = strconv.Atoi(field); err != nil {
			return name, n, words, err
		}
		numbers++
	}
	return name, n, words, nil
}

// box turns x, y, width and height into a rectangle.
func box(n [5]int) image.Rectangle { return image.Rect(n[0], n[1], n[0]+n[2], n[1]+n[3]) }

// rectangle turns r into the protocol's.
func rectangle(r image.Rectangle) xproto.Rectangle {
	return xproto.Rectangle{X: int16(r.Min.X), Y: int16(r.Min.Y), Width: uint16(r.Dx()), Height: uint16(r.Dy())}
}

func (a *artist) fill(r image.Rectangle, pixel uint32) error {
	return errors.Join(
		xproto.ChangeGCChecked(a.x, a.gc, xproto.GcForeground, []uint32{pixel}).Check(),
		xproto.PolyFillRectangleChecked(a.x, xproto.Drawable(a.screen.Root), a.gc, []xproto.Rectangle{rectangle(r)}).Check())
}

// window shows a window with the given background attribute, with a frame or without.
func (a *artist) window(r image.Rectangle, attribute, value uint32, title string, framed bool) (uint32, error) {
	id, err := xproto.NewWindowId(a.x)
	if err != nil {
		return 0, err
	}
	err = errors.Join(
		xproto.CreateWindowChecked(a.x, xproto.WindowClassCopyFromParent, id, a.screen.Root, int16(r.Min.X), int16(r.Min.Y),
			uint16(r.Dx()), uint16(r.Dy()), 0, xproto.WindowClassInputOutput, a.screen.RootVisual, attribute, []uint32{value}).Check(),
		xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, id, xproto.AtomWmName, xproto.AtomString, 8, uint32(len(title)), []byte(title)).Check(),
		a.staticGravity(id),
		a.frame(id, framed),
		xproto.MapWindowChecked(a.x, id).Check())
	return uint32(id), err
}

// manage waits until a window manager takes windows into its care. While it starts it
// forgets those that come, so the window is shown again until it has its WM_STATE.
func (a *artist) manage() error {
	name := "WM_STATE"
	state, err := xproto.InternAtom(a.x, false, uint16(len(name)), name).Reply()
	if err != nil {
		return err
	}
	id, err := a.window(image.Rect(0, 0, 1, 1), xproto.CwBackPixel, 0, "first window", true)
	w := xproto.Window(id)
	for deadline := time.Now().Add(startTime); err == nil; time.Sleep(pollTime) {
		property, err := xproto.GetProperty(a.x, false, w, state.Atom, xproto.GetPropertyTypeAny, 0, 2).Reply()
		if err != nil {
			return err
		}
		if property.Format != 0 {
			return xproto.DestroyWindowChecked(a.x, w).Check()
		}
		if time.Now().After(deadline) {
			return errors.New("nobody manages windows")
		}
		if err := xproto.MapWindowChecked(a.x, w).Check(); err != nil {
			return err
		}
	}
	return err
}

// staticGravity has positions mean the inside's, as the toolkit's windows do:
// WM_NORMAL_HINTS with the flags USPosition and PWinGravity and gravity 10. Source:
// ICCCM 2.0, section 4.1.2.3.
func (a *artist) staticGravity(w xproto.Window) error {
	hints := make([]byte, 18*4)
	xgb.Put32(hints, 1|1<<9)
	xgb.Put32(hints[17*4:], xproto.GravityStatic)
	return xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, w, xproto.AtomWmNormalHints, xproto.AtomWmSizeHints, 32, 18, hints).Check()
}

// frame asks for no frame unless framed: _MOTIF_WM_HINTS with the flag for decorations
// and no decoration. Source: Motif's MwmUtil.h.
func (a *artist) frame(w xproto.Window, framed bool) error {
	if framed {
		return nil
	}
	name := "_MOTIF_WM_HINTS"
	kind, err := xproto.InternAtom(a.x, false, uint16(len(name)), name).Reply()
	if err != nil {
		return err
	}
	hints := make([]byte, 5*4)
	xgb.Put32(hints, 2)
	return xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, w, kind.Atom, kind.Atom, 32, 5, hints).Check()
}

func (a *artist) configure(w xproto.Window, mask uint16, values ...uint32) error {
	return xproto.ConfigureWindowChecked(a.x, w, mask, values).Check()
}

// iconify asks the window manager to minimise w. Source: ICCCM 2.0, section 4.1.4.
func (a *artist) iconify(w xproto.Window) error {
	name := "WM_CHANGE_STATE"
	kind, err := xproto.InternAtom(a.x, false, uint16(len(name)), name).Reply()
	if err != nil {
		return err
	}
	const iconicState = 3
	event := xproto.ClientMessageEvent{Format: 32, Window: w, Type: kind.Atom,
		Data: xproto.ClientMessageDataUnionData32New([]uint32{iconicState, 0, 0, 0, 0})}
	return xproto.SendEventChecked(a.x, false, a.screen.Root,
		xproto.EventMaskSubstructureRedirect|xproto.EventMaskSubstructureNotify, string(event.Bytes())).Check()
}

// flood sends n events about the root window.
func (a *artist) flood(n int) error {
	root := a.screen.Root
	event := xproto.ConfigureNotifyEvent{Event: root, Window: root, Width: 1, Height: 1} // the numbers are nobody's business
	bytes := string(event.Bytes())
	for range n {
		xproto.SendEvent(a.x, false, root, xproto.EventMaskStructureNotify, bytes)
	}
	_, err := xproto.GetInputFocus(a.x).Reply() // the server has had them all
	return err
}

// picture shows the PNG file path in a window.
func (a *artist) picture(at image.Point, path, title string) (uint32, error) {
	pixmap, size, err := a.load(path)
	if err != nil {
		return 0, err
	}
	return a.window(image.Rectangle{Max: size}.Add(at), xproto.CwBackPixmap, uint32(pixmap), title, true)
}

// repaint gives w another picture.
func (a *artist) repaint(w xproto.Window, path string) error {
	pixmap, _, err := a.load(path)
	if err != nil {
		return err
	}
	return errors.Join(
		xproto.ChangeWindowAttributesChecked(a.x, w, xproto.CwBackPixmap, []uint32{uint32(pixmap)}).Check(),
		xproto.ClearAreaChecked(a.x, false, w, 0, 0, 0, 0).Check(),
		xproto.FreePixmapChecked(a.x, pixmap).Check())
}

// load puts a PNG file into a new pixmap of depth 24.
func (a *artist) load(path string) (xproto.Pixmap, image.Point, error) {
	f, err := os.Open(path)
	if err != nil {
		return 0, image.Point{}, err
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		return 0, image.Point{}, err
	}
	size := img.Bounds().Size()
	pix := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(pix, pix.Rect, img, img.Bounds().Min, draw.Src)
	for i := 0; i < len(pix.Pix); i += 4 {
		pix.Pix[i], pix.Pix[i+2] = pix.Pix[i+2], pix.Pix[i]
	}
	pixmap, err := xproto.NewPixmapId(a.x)
	if err != nil {
		return 0, size, err
	}
	err = xproto.CreatePixmapChecked(a.x, 24, pixmap, xproto.Drawable(a.screen.Root), uint16(size.X), uint16(size.Y)).Check()
	for y := 0; y < size.Y && err == nil; y++ { // a row a request: none is longer than the protocol allows
		err = xproto.PutImageChecked(a.x, xproto.ImageFormatZPixmap, xproto.Drawable(pixmap), a.gc,
			uint16(size.X), 1, 0, int16(y), 0, 24, pix.Pix[y*pix.Stride:(y+1)*pix.Stride]).Check()
	}
	return pixmap, size, err
}

// savePNG writes img to a file.
func savePNG(t testing.TB, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err == nil {
		err = errors.Join(png.Encode(f, img), f.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
}
