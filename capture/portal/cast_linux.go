package portal

import (
	"context"
	"fmt"
	"image"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture"
)

// Kinds of sources, of pointers, and how long a token holds. Source: XDP, SelectSources.
const (
	monitors, windows  = 1, 2
	hiddenPointer      = 1
	untilRevoked       = 2
	firstWithTokens    = 4 // version of the interface
	firstWithNoPointer = 2
)

// wish is what is asked of the portal.
type wish struct {
	token string // of the time before; "": the painter is to be asked
	own   uint64 // our own window; 0: none
	began func(session dbus.ObjectPath)
}

// cast is what the portal granted.
type cast struct {
	socket int // to the PipeWire server; whoever has the cast closes it
	shown
	token string // for the next time; "": none
}

// shown is a stream that the portal lists.
type shown struct {
	node uint32
	at   image.Rectangle // where the screen lies in the compositor's own measure; empty where that isn't told
}

// begin has the portal share something, from the first question to the connection to the server. Its
// errors wrap those of capture.Sharer.
func (b *bus) begin(ctx context.Context, w wish) (cast, error) {
	kinds, err := b.property(ctx, "AvailableSourceTypes")
	if err != nil {
		return cast{}, err
	}
	if kinds &= monitors | windows; kinds == 0 {
		return cast{}, fmt.Errorf("%w: it shares neither screens nor windows", capture.ErrNoPortal)
	}
	version, err := b.property(ctx, "version")
	if err != nil {
		return cast{}, err
	}
	results, err := b.request(ctx, b.waits.call, capture.ErrNotAnswering, "CreateSession", map[string]any{"session_handle_token": token()})
	if err != nil {
		return cast{}, err
	}
	session, err := handle(results["session_handle"])
	if err != nil {
		return cast{}, err
	}
	w.began(session)
	options := map[string]any{"types": kinds, "multiple": false}
	if version >= firstWithNoPointer {
		if pointers, err := b.property(ctx, "AvailableCursorModes"); err == nil && pointers&hiddenPointer != 0 {
			options["cursor_mode"] = uint32(hiddenPointer)
		}
	}
	if version >= firstWithTokens {
		options["persist_mode"] = uint32(untilRevoked)
		if w.token != "" {
			options["restore_token"] = w.token
		}
	}
	if _, err := b.request(ctx, b.waits.call, capture.ErrNotAnswering, "SelectSources", options, session); err != nil {
		return cast{}, err
	}
	results, err = b.request(ctx, b.waits.people, capture.ErrUnanswered, "Start", nil, session, parent(w.own))
	if err != nil {
		return cast{}, err
	}
	c := cast{}
	c.token, _ = results["restore_token"].Value().(string)
	if c.shown, err = firstOf(results["streams"]); err != nil {
		return cast{}, err
	}
	var fd dbus.UnixFD
	if err := b.call(ctx, "OpenPipeWireRemote", []any{session, map[string]dbus.Variant{}}, &fd); err != nil {
		return cast{}, err
	}
	c.socket = int(fd)
	return c, nil
}

// parent names our own window, which a question of the desktop's belongs to; 0: none. Source: XDP,
// "Parent window identifiers".
func parent(own uint64) string {
	if own == 0 {
		return ""
	}
	return fmt.Sprintf("x11:%x", own)
}

// handle is the name of a session, which some portals give as a string, others as a path.
func handle(v dbus.Variant) (dbus.ObjectPath, error) {
	var path dbus.ObjectPath
	switch p := v.Value().(type) {
	case string:
		path = dbus.ObjectPath(p)
	case dbus.ObjectPath:
		path = p // which may still be none
	}
	if path.IsValid() {
		return path, nil
	}
	return "", fmt.Errorf("%w: the portal names no session", capture.ErrSharing)
}

// firstOf is the first stream of a list.
func firstOf(v dbus.Variant) (shown, error) {
	var streams []struct {
		Node  uint32
		About map[string]dbus.Variant
	}
	if v.Value() != nil {
		if err := dbus.Store([]any{v.Value()}, &streams); err != nil {
			return shown{}, fmt.Errorf("%w: the portal lists what it shares in another way: %v", capture.ErrSharing, err)
		}
	}
	if len(streams) == 0 {
		return shown{}, fmt.Errorf("%w: the portal shares nothing", capture.ErrSharing)
	}
	first := streams[0]
	return shown{first.Node, placeOf(first.About)}, nil
}

// mostSide bounds what the portal says of places and sizes, in its own measure. Our choice.
const mostSide = 1 << 20

// placeOf is where a shared screen lies, by what the portal says about its stream; empty for a window,
// and where it doesn't say. Source: XDP, Start.
func placeOf(about map[string]dbus.Variant) image.Rectangle {
	pair := func(name string) (p image.Point, ok bool) {
		two, _ := about[name].Value().([]any)
		if len(two) != 2 {
			return p, false
		}
		x, isX := two[0].(int32)
		y, isY := two[1].(int32)
		p = image.Pt(int(x), int(y))
		return p, isX && isY && p.In(image.Rect(-mostSide, -mostSide, mostSide, mostSide))
	}
	kind, told := about["source_type"]
	at, placed := pair("position")
	size, sized := pair("size")
	if told && kind.Value() != uint32(monitors) || !placed || !sized || size.X < 1 || size.Y < 1 {
		return image.Rectangle{}
	}
	return image.Rectangle{Min: at, Max: at.Add(size)}
}

// close closes a session of the portal's, and the connection.
func (b *bus) close(session dbus.ObjectPath) {
	if session != "" {
		b.conn.Object(service, session).Go(sessionName+".Close", dbus.FlagNoReplyExpected, nil)
	}
	b.conn.Close()
}
