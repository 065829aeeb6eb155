package capture

import (
	"image"

	"github.com/jezek/xgb/damage"
	"github.com/jezek/xgb/xfixes"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// everywhere is around all coordinates of the protocol.
var everywhere = image.Rect(-1<<16, -1<<16, 1<<17, 1<<17)

// x11Damage tells what of a window has changed since it was last asked. Source: The Damage
// Extension, version 1.1. The server adds up what is painted, and sends one event when the sum
// is no longer empty; so many changes cost no more than one. A nil *x11Damage takes everything
// for changed.
type x11Damage struct {
	conn *xconn.Conn
	id   damage.Damage
	sum  xfixes.Region // what the last question took over
}

// newX11Damage begins to add up what changes in w, or returns nil where the server can't.
func newX11Damage(s *x11Session, w xproto.Window) (*x11Damage, error) {
	if !s.damages {
		return nil, nil
	}
	d := &x11Damage{conn: s.conn}
	var err error
	if d.id, err = damage.NewDamageId(s.conn.X); err != nil {
		return nil, err
	}
	if d.sum, err = xfixes.NewRegionId(s.conn.X); err != nil {
		return nil, err
	}
	xfixes.CreateRegion(s.conn.X, d.sum, nil)
	err = damage.CreateChecked(s.conn.X, d.id, xproto.Drawable(w), damage.ReportLevelNonEmpty).Check()
	if err != nil {
		xfixes.DestroyRegion(s.conn.X, d.sum)
		return nil, err
	}
	return d, nil
}

// x11DamageCookie is a question on its way.
type x11DamageCookie struct {
	taken damage.SubtractCookie
	sum   xfixes.FetchRegionCookie
}

// ask asks for what has changed up to now. It doesn't wait.
func (d *x11Damage) ask() (c x11DamageCookie) {
	if d != nil {
		c.taken = damage.SubtractChecked(d.conn.X, d.id, 0, d.sum)
		c.sum = xfixes.FetchRegion(d.conn.X, d.sum)
	}
	return c
}

// box returns the smallest box around what of within has changed.
func (c x11DamageCookie) box(within image.Rectangle) (box image.Rectangle, err error) {
	if c.sum.Cookie == nil {
		return within, nil
	}
	reply, err := c.sum.Reply()
	if late := c.taken.Check(); late != nil {
		return box, late
	}
	if err != nil {
		return box, err
	}
	for _, r := range reply.Rectangles {
		box = box.Union(rectOf(r.X, r.Y, r.Width, r.Height).Intersect(within))
	}
	return box, nil
}

// is says whether an event is about d. It may be asked from any goroutine.
func (d *x11Damage) is(e damage.NotifyEvent) bool { return d != nil && e.Damage == d.id }

// end stops adding up.
func (d *x11Damage) end() {
	if d != nil {
		damage.Destroy(d.conn.X, d.id)
		xfixes.DestroyRegion(d.conn.X, d.sum)
	}
}

// rectOf returns a rectangle of the protocol.
func rectOf(x, y int16, width, height uint16) image.Rectangle {
	return image.Rect(int(x), int(y), int(x)+int(width), int(y)+int(height))
}
