package monitors

import (
	"cmp"
	"context"
	"fmt"
	"image"
	"os"
	"strconv"

	"github.com/jezek/xgb/randr"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xconn"
)

// line keeps requests that hang from piling up.
var line xconn.Line

// ask runs f with the watched display.
func ask(ctx context.Context, f func(*xconn.Conn) error) error {
	return line.Do(ctx, func() error {
		c, err := xconn.Acquire(ctx, cmp.Or(os.Getenv(capture.DisplayVariable), os.Getenv("DISPLAY")))
		if err != nil {
			return err
		}
		defer c.Release()
		return f(c)
	})
}

// List returns the monitors; a display that tells of none is one. Any goroutine may call it, and it
// waits no longer than ctx. Errors wrap those of xconn.
func List(ctx context.Context) (list []Monitor, err error) {
	var found []Monitor // line's own until it has returned
	err = ask(ctx, func(c *xconn.Conn) (err error) {
		found, err = listed(c)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("monitors: %w", err)
	}
	return found, nil
}

func listed(c *xconn.Conn) ([]Monitor, error) {
	whole := []Monitor{{Name: "screen", Rect: image.Rect(0, 0, int(c.Screen.WidthInPixels), int(c.Screen.HeightInPixels)), key: propertyOf(0)}}
	if !c.Has(xconn.RandR) {
		return whole, nil
	}
	reply, err := randr.GetMonitors(c.X, c.Screen.Root, true).Reply()
	if err != nil || len(reply.Monitors) == 0 {
		return whole, nil // an old server: one monitor, as it was when we connected
	}
	edid, err := xproto.InternAtom(c.X, true, uint16(len("EDID")), "EDID").Reply()
	if err != nil {
		return nil, err
	}
	var names, outputs []string
	var list []Monitor
	for i, m := range reply.Monitors {
		output := ""
		if name, err := xproto.GetAtomName(c.X, m.Name).Reply(); err == nil {
			output = trimmed(name.Name)
		}
		own := ""
		if len(m.Outputs) > 0 && edid.Atom != 0 {
			p, err := randr.GetOutputProperty(c.X, m.Outputs[0], edid.Atom, xproto.AtomAny, 0, edidBytes/4, false, false).Reply()
			if err == nil && p.Format == 8 {
				own = edidName(p.Data)
			}
		}
		names, outputs = append(names, cmp.Or(own, output)), append(outputs, output)
		list = append(list, Monitor{Rect: image.Rect(0, 0, int(m.Width), int(m.Height)).Add(image.Pt(int(m.X), int(m.Y))), key: propertyOf(i)})
	}
	for i, name := range apart(names, outputs) {
		list[i].Name = name
	}
	return list, nil
}

// propertyOf is the property for the profile of a monitor, by its place in the server's order (ICCX).
func propertyOf(i int) string {
	if i == 0 {
		return "_ICC_PROFILE"
	}
	return "_ICC_PROFILE_" + strconv.Itoa(i)
}

// Profile returns the bytes of the profile that the desktop keeps for a monitor; they may be damaged.
// The error wraps ErrNone where there is none, or one of xconn.
func Profile(ctx context.Context, m Monitor) ([]byte, error) {
	name := m.key
	var found []byte
	err := ask(ctx, func(c *xconn.Conn) error {
		atom, err := xproto.InternAtom(c.X, true, uint16(len(name)), name).Reply()
		if err != nil || atom.Atom == 0 {
			return cmp.Or(err, ErrNone)
		}
		reply, err := xproto.GetProperty(c.X, false, c.Screen.Root, atom.Atom, xproto.GetPropertyTypeAny, 0, (MostProfile+3)/4).Reply()
		if err != nil {
			return err
		}
		if len(reply.Value) == 0 {
			return ErrNone
		}
		found = reply.Value // of another format it is no profile, which its reader says
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("profile of %s: %w", m.Name, err)
	}
	return found, nil
}
