package capture

import (
	"errors"
	"image"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// An outline is a light line between two dark ones, so that it shows on any ground. Widths are in
// pixels; our choice.
const (
	outlineDark  = 3 // on each side of the light line
	outlineLight = 4
)

// x11Outline outlines a place on the screen by thin windows that no manager touches.
type x11Outline struct {
	conn  *xconn.Conn
	bars  []xproto.Window // four dark ones, and four light ones over them
	shown bool
}

// make makes the windows; none is shown yet.
func (o *x11Outline) make(c *xconn.Conn) error {
	o.conn = c
	var failed []error
	for _, pixel := range []uint32{c.Screen.BlackPixel, c.Screen.WhitePixel} {
		for range 4 {
			w, err := xproto.NewWindowId(c.X)
			if err != nil {
				return err
			}
			const mask = xproto.CwBackPixel | xproto.CwOverrideRedirect
			failed = append(failed, xproto.CreateWindowChecked(c.X, 0, w, c.Screen.Root, 0, 0, 1, 1, 0,
				xproto.WindowClassInputOutput, 0, mask, []uint32{pixel, 1}).Check())
			o.bars = append(o.bars, w)
		}
	}
	return errors.Join(failed...)
}

// show outlines a place, on its inner side: a window may be as large as the screen.
func (o *x11Outline) show(r image.Rectangle) {
	dark := sidesOf(r, 2*outlineDark+outlineLight)
	light := sidesOf(r.Inset(outlineDark), outlineLight)
	if light == nil {
		o.hide()
		return
	}
	for i, bar := range append(dark, light...) {
		const mask = xproto.ConfigWindowX | xproto.ConfigWindowY | xproto.ConfigWindowWidth | xproto.ConfigWindowHeight | xproto.ConfigWindowStackMode
		values := []uint32{uint32(int32(bar.Min.X)), uint32(int32(bar.Min.Y)), uint32(bar.Dx()), uint32(bar.Dy()), xproto.StackModeAbove}
		xproto.ConfigureWindow(o.conn.X, o.bars[i], mask, values)
		xproto.MapWindow(o.conn.X, o.bars[i])
	}
	o.shown = true
}

// sidesOf returns the four bars along the inner side of r; nil where it has no room for them.
func sidesOf(r image.Rectangle, width int) []image.Rectangle {
	if r.Dx() < 2*width || r.Dy() < 2*width {
		return nil
	}
	return []image.Rectangle{
		{r.Min, image.Pt(r.Max.X, r.Min.Y+width)},
		{image.Pt(r.Min.X, r.Max.Y-width), r.Max},
		{r.Min, image.Pt(r.Min.X+width, r.Max.Y)},
		{image.Pt(r.Max.X-width, r.Min.Y), r.Max},
	}
}

// hide takes the outline off the screen.
func (o *x11Outline) hide() {
	if o.shown {
		for _, w := range o.bars {
			xproto.UnmapWindow(o.conn.X, w)
		}
		o.shown = false
	}
}

// end gives the windows back.
func (o *x11Outline) end() {
	for _, w := range o.bars {
		xproto.DestroyWindow(o.conn.X, w)
	}
	o.bars = nil
}
