package native

import (
	"encoding/binary"
	"image"
	"slices"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// Actions of a _NET_WM_STATE message. Source: Extended Window Manager Hints 1.5.
const (
	stateRemove = 0
	stateAdd    = 1
	sourceApp   = 1 // from an ordinary program
)

// KeepAbove keeps the window above others, or no longer. The desktop forgets it when the
// window is hidden. ErrRefused: the desktop doesn't offer it.
func KeepAbove(handle uintptr, on bool) error {
	action := uint32(stateRemove)
	if on {
		action = stateAdd
	}
	return do(handle, func(c *xconn.Conn, w xproto.Window) error {
		return setState(c, w, action, "_NET_WM_STATE_ABOVE")
	})
}

// StaysAbove reports whether the desktop may keep windows above others. Only in a Wayland session is it
// asked: others do, or say so when it is wished.
func StaysAbove() bool {
	if !WaylandSession() {
		return true
	}
	const anyWindow = 1 // it is the desktop that is asked
	offered, err := ask(anyWindow, func(c *xconn.Conn, _ xproto.Window) (bool, error) { return honours(c, "_NET_WM_STATE_ABOVE") })
	return offered || err != nil
}

// honours reports whether a window manager runs that says it honours a state. Source: Extended Window
// Manager Hints 1.5, _NET_SUPPORTED.
func honours(c *xconn.Conn, name string) (bool, error) {
	state, err := atom(c, name)
	if err != nil {
		return false, err
	}
	supported, err := cardinals(c, c.Screen.Root, "_NET_SUPPORTED")
	return slices.Contains(supported, uint32(state)), err
}

// CoverDesktop makes a window without a frame lie over the whole desktop, above all
// others and on no task bar.
func CoverDesktop(handle uintptr, desktop image.Rectangle) error {
	return do(handle, func(c *xconn.Conn, w xproto.Window) error {
		for _, state := range []string{"_NET_WM_STATE_ABOVE", "_NET_WM_STATE_SKIP_TASKBAR"} {
			if err := setState(c, w, stateAdd, state); err != nil {
				return err
			}
		}
		return configure(c, w,
			xproto.ConfigWindowX|xproto.ConfigWindowY|xproto.ConfigWindowWidth|xproto.ConfigWindowHeight,
			desktop.Min.X, desktop.Min.Y, desktop.Dx(), desktop.Dy())
	})
}

// iconicState is the first number of WM_STATE for a minimised window. Source: ICCCM 2.0,
// section 4.1.3.1.
const iconicState = 3

// Hidden reports whether the window is minimised or not shown. Some window managers take
// a minimised window off the screen, others only say so in a property.
func Hidden(handle uintptr) (bool, error) {
	return ask(handle, func(c *xconn.Conn, w xproto.Window) (bool, error) {
		a, err := xproto.GetWindowAttributes(c.X, w).Reply()
		if err != nil {
			return false, noWindow("state of the window", err)
		}
		if a.MapState != xproto.MapStateViewable {
			return true, nil
		}
		if state, err := cardinals(c, w, "WM_STATE"); err != nil || len(state) > 0 && state[0] == iconicState {
			return err == nil, err
		}
		hidden, err := atom(c, "_NET_WM_STATE_HIDDEN")
		if err != nil {
			return false, err
		}
		states, err := cardinals(c, w, "_NET_WM_STATE")
		return slices.Contains(states, uint32(hidden)), err
	})
}

// setState asks the window manager to change a state of the window, if one runs that says
// it honours that.
func setState(c *xconn.Conn, w xproto.Window, action uint32, name string) error {
	state, err := atom(c, name)
	if err != nil {
		return err
	}
	if ok, err := honours(c, name); err != nil {
		return err
	} else if !ok {
		return ErrRefused
	}
	if _, err := xproto.GetWindowAttributes(c.X, w).Reply(); err != nil { // the message itself never fails
		return noWindow("state of the window", err)
	}
	kind, err := atom(c, "_NET_WM_STATE")
	if err != nil {
		return err
	}
	event := xproto.ClientMessageEvent{
		Format: 32, Window: w, Type: kind,
		Data: xproto.ClientMessageDataUnionData32New([]uint32{action, uint32(state), 0, sourceApp, 0}),
	}
	return xproto.SendEventChecked(c.X, false, c.Screen.Root,
		xproto.EventMaskSubstructureRedirect|xproto.EventMaskSubstructureNotify, string(event.Bytes())).Check()
}

func atom(c *xconn.Conn, name string) (xproto.Atom, error) {
	reply, err := xproto.InternAtom(c.X, false, uint16(len(name)), name).Reply()
	if err != nil {
		return 0, err
	}
	return reply.Atom, nil
}

// mostCardinals bounds what is read of a property, in numbers.
const mostCardinals = 4096

// cardinals reads a property of 32-bit numbers; none if it isn't there.
func cardinals(c *xconn.Conn, w xproto.Window, name string) ([]uint32, error) {
	property, err := atom(c, name)
	if err != nil {
		return nil, err
	}
	reply, err := xproto.GetProperty(c.X, false, w, property, xproto.GetPropertyTypeAny, 0, mostCardinals).Reply()
	if err != nil {
		return nil, err
	}
	return numbersIn(reply.Format, reply.Value), nil
}

// numbersIn returns the numbers in a property's value; none where they don't have 32 bits.
func numbersIn(format byte, value []byte) []uint32 {
	if format != 32 {
		return nil
	}
	numbers := make([]uint32, len(value)/4)
	for i := range numbers {
		numbers[i] = binary.LittleEndian.Uint32(value[4*i:])
	}
	return numbers
}
