package xvfbtest

import (
	"errors"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// Show shows a window of one colour, or with a picture, and returns its id.
func (a *artist) Show(o Order, id *uint32) error {
	w, err := xproto.NewWindowId(a.x)
	if err != nil {
		return err
	}
	*id = uint32(w)
	mask, values := uint32(xproto.CwBackPixel), []uint32{o.Pixel}
	if o.Picture != nil {
		pixmap, err := a.load(o.Picture)
		if err != nil {
			return err
		}
		mask, values = xproto.CwBackPixmap, []uint32{uint32(pixmap)}
	}
	parent, depth, visual := a.screen.Root, byte(0), a.screen.RootVisual // depth 0: the parent's
	if o.Parent != 0 {
		parent = o.Parent
	}
	if o.Alpha {
		var colours xproto.Colormap
		if visual, colours, err = a.alpha(); err != nil {
			return err
		}
		depth, mask, values = 32, mask|xproto.CwBorderPixel|xproto.CwColormap, append(values, 0, uint32(colours))
	}
	return errors.Join(
		xproto.CreateWindowChecked(a.x, depth, w, parent, int16(o.Box.Min.X), int16(o.Box.Min.Y),
			uint16(o.Box.Dx()), uint16(o.Box.Dy()), uint16(o.Border), xproto.WindowClassInputOutput, visual, mask, values).Check(),
		a.describe(w, o),
		a.hint(w, o.Bare),
		xproto.MapWindowChecked(a.x, w).Check())
}

// alpha returns the visual of depth 32, and colours for it.
func (a *artist) alpha() (visual xproto.Visualid, colours xproto.Colormap, err error) {
	for _, d := range a.screen.AllowedDepths {
		if d.Depth == 32 && len(d.Visuals) > 0 {
			visual = d.Visuals[0].VisualId
		}
	}
	if colours, err = xproto.NewColormapId(a.x); err != nil {
		return 0, 0, err
	}
	return visual, colours, xproto.CreateColormapChecked(a.x, xproto.ColormapAllocNone, colours, a.screen.Root, visual).Check()
}

// describe says whose the window is: title, class and process.
func (a *artist) describe(w xproto.Window, o Order) error {
	text := func(atom, kind xproto.Atom, s string) error {
		return xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, w, atom, kind, 8, uint32(len(s)), []byte(s)).Check()
	}
	err := text(xproto.AtomWmName, xproto.AtomString, o.Title)
	if o.Class != "" {
		err = errors.Join(err,
			text(a.atom("_NET_WM_NAME"), a.atom("UTF8_STRING"), o.Title),
			text(xproto.AtomWmClass, xproto.AtomString, "instance\x00"+o.Class+"\x00"))
	}
	if o.PID != 0 {
		pid := make([]byte, 4)
		xgb.Put32(pid, uint32(o.PID))
		err = errors.Join(err, xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, w, a.atom("_NET_WM_PID"), xproto.AtomCardinal, 32, 1, pid).Check())
	}
	return err
}

// hint has positions mean the inside's, as the toolkit's windows do: WM_NORMAL_HINTS with
// the flags USPosition and PWinGravity and gravity 10 (ICCCM 2.0, section 4.1.2.3). A bare
// window asks for no frame: _MOTIF_WM_HINTS with the flag for decorations and no decoration
// (Motif's MwmUtil.h).
func (a *artist) hint(w xproto.Window, bare bool) error {
	hints := make([]byte, 18*4)
	xgb.Put32(hints, 1|1<<9)
	xgb.Put32(hints[17*4:], xproto.GravityStatic)
	err := xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, w, xproto.AtomWmNormalHints, xproto.AtomWmSizeHints, 32, 18, hints).Check()
	if err != nil || !bare {
		return err
	}
	hints = make([]byte, 5*4)
	xgb.Put32(hints, 2)
	motif := a.atom("_MOTIF_WM_HINTS")
	return xproto.ChangePropertyChecked(a.x, xproto.PropModeReplace, w, motif, motif, 32, 5, hints).Check()
}
