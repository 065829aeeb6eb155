package capture

import (
	"encoding/binary"
	"image"
	"os"
	"strings"

	"github.com/jezek/xgb/xproto"
)

// mostWords is how much of a property is read, in units of four bytes: enough for 1,024
// windows, or a title of 4,096 bytes. Our choice.
const mostWords = 1024

// ask asks for a property. It doesn't wait.
func (s *x11Session) property(w xproto.Window, name xproto.Atom) xproto.GetPropertyCookie {
	return xproto.GetProperty(s.conn.X, false, w, name, xproto.GetPropertyTypeAny, 0, mostWords)
}

// numbers returns a property's 32-bit numbers; none where it isn't there.
func numbers(c xproto.GetPropertyCookie) []uint32 {
	reply, err := c.Reply()
	if err != nil || reply.Format != 32 {
		return nil
	}
	all := make([]uint32, len(reply.Value)/4)
	for i := range all {
		all[i] = binary.LittleEndian.Uint32(reply.Value[4*i:])
	}
	return all
}

// first returns the first of numbers, or 0.
func first(numbers []uint32) uint32 {
	if len(numbers) == 0 {
		return 0
	}
	return numbers[0]
}

// text returns a property's text; none where it isn't there.
func (a *x11Atoms) text(c xproto.GetPropertyCookie) string {
	reply, err := c.Reply()
	if err != nil || reply.Format != 8 {
		return ""
	}
	return textIn(reply.Value, reply.Type == a.utf8)
}

// textIn returns the text in a property's value: of UTF-8 where its type says so, else Latin-1
// (ICCCM, section 2.7.1). Zeros part what it lists.
func textIn(value []byte, utf8 bool) string {
	if utf8 {
		return strings.ToValidUTF8(string(value), "")
	}
	letters := make([]rune, len(value))
	for i, b := range value {
		letters[i] = rune(b)
	}
	return string(letters)
}

// x11WindowCookie is a question about a window on its way.
type x11WindowCookie struct {
	id                                                xproto.Window
	attributes                                        xproto.GetWindowAttributesCookie
	geometry                                          xproto.GetGeometryCookie
	place                                             xproto.TranslateCoordinatesCookie
	title, oldTitle, class, state, pid, machine, kind xproto.GetPropertyCookie
}

// x11About is what is known of a window.
type x11About struct {
	Window
	viewable, picture bool // it is shown; it is of the kind that can be
	override          bool // window managers leave it alone
	managed           bool // a window manager gave it a state
	ours              bool // of this process
	furniture         bool // a panel or the desktop's own
}

// describe asks all about a window. It doesn't wait.
func (s *x11Session) describe(w xproto.Window) x11WindowCookie {
	x, a := s.conn.X, &s.atoms
	return x11WindowCookie{
		id:         w,
		attributes: xproto.GetWindowAttributes(x, w),
		geometry:   xproto.GetGeometry(x, xproto.Drawable(w)),
		place:      xproto.TranslateCoordinates(x, w, s.conn.Screen.Root, 0, 0),
		title:      s.property(w, a.name),
		oldTitle:   s.property(w, xproto.AtomWmName),
		class:      s.property(w, xproto.AtomWmClass),
		state:      s.property(w, a.state),
		pid:        s.property(w, a.pid),
		machine:    s.property(w, a.machine),
		kind:       s.property(w, a.kind),
	}
}

// about returns what the server said of a window; the error is the window's that has gone
// meanwhile.
func (s *x11Session) about(c x11WindowCookie) (about x11About, err error) {
	a := &s.atoms
	attributes, err := c.attributes.Reply()
	geometry, failed := c.geometry.Reply()
	place, lost := c.place.Reply()
	about.ID = uint64(c.id)
	about.Title = oneLine(a.text(c.title))
	if old := oneLine(a.text(c.oldTitle)); about.Title == "" {
		about.Title = old
	}
	about.Class = classOf(a.text(c.class))
	state, pid := numbers(c.state), first(numbers(c.pid))
	machine, kind := a.text(c.machine), xproto.Atom(first(numbers(c.kind)))
	for _, e := range []error{err, failed, lost} {
		if e != nil {
			return about, e
		}
	}
	const iconic = 3 // ICCCM, section 4.1.3.1
	about.managed, about.Minimised = len(state) > 0, first(state) == iconic
	about.viewable = attributes.MapState == xproto.MapStateViewable
	about.picture = attributes.Class == xproto.WindowClassInputOutput
	about.override = attributes.OverrideRedirect
	about.furniture = kind == a.dock || kind == a.desktop
	host, _ := os.Hostname()
	about.ours = int(pid) == os.Getpid() && (machine == "" || machine == host)
	about.Rect = image.Rect(0, 0, int(geometry.Width), int(geometry.Height)).Add(image.Pt(int(place.DstX), int(place.DstY)))
	return about, nil
}

// classOf returns the class of a WM_CLASS: the second of its two texts (ICCCM, section
// 4.1.2.5), or the first where that is missing.
func classOf(text string) string {
	instance, rest, _ := strings.Cut(text, "\x00")
	class, _, _ := strings.Cut(rest, "\x00")
	if class == "" {
		class = instance
	}
	return oneLine(class)
}
