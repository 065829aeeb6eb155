package capture

import (
	"fmt"
	"image"
	"strings"

	"app.tonedesk/capture/xconn"
	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"
)

// x11Monitors lists the displays that show a part of the root window, in root
// pixels; where the server can't say, or all are off, one that stands for the whole
// root. It makes requests, so it may hang. Source: RandR protocol 1.5, GetMonitors.
func x11Monitors(c *xconn.Conn, bounds image.Rectangle) ([]Monitor, error) {
	whole := []Monitor{{Name: "screen", Bounds: bounds, Primary: true}}
	if !c.Has(xconn.RandR) {
		return whole, nil
	}
	version, err := randr.QueryVersion(c.X, 1, 5).Reply()
	if err != nil {
		return nil, fmt.Errorf("ask for RandR: %w", err)
	}
	if version.MajorVersion == 1 && version.MinorVersion < 5 {
		return whole, nil
	}
	reply, err := randr.GetMonitors(c.X, c.Screen.Root, true).Reply()
	if err != nil {
		return nil, fmt.Errorf("list the monitors: %w", err)
	}
	var monitors []Monitor
	for _, m := range reply.Monitors {
		name, err := xproto.GetAtomName(c.X, m.Name).Reply()
		if err != nil {
			return nil, fmt.Errorf("name of a monitor: %w", err)
		}
		x, y := int(m.X), int(m.Y)
		area := image.Rect(x, y, x+int(m.Width), y+int(m.Height))
		if !area.Empty() {
			monitors = append(monitors, Monitor{Name: name.Name, Bounds: area, Primary: m.Primary})
		}
	}
	if len(monitors) == 0 {
		return whole, nil
	}
	return monitors, nil
}

// refuseXWayland returns an error that wraps ErrWayland if c's server only serves
// old programs in a Wayland session: its root window shows nothing of the screen.
// Such a server has the extension XWAYLAND, or an output named XWAYLAND0.
func refuseXWayland(c *xconn.Conn, monitors []Monitor) error {
	is := c.Has(xconn.XWayland)
	for _, m := range monitors {
		is = is || strings.HasPrefix(m.Name, "XWAYLAND")
	}
	if is {
		return fmt.Errorf("%w: the X server is Xwayland, whose root window is not the screen", ErrWayland)
	}
	return nil
}
