package portaltest

import (
	"maps"
	"path/filepath"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"
)

// Names of the portal. Source: xdg-desktop-portal 1.16.
const (
	service     = "org.freedesktop.portal.Desktop"
	object      = dbus.ObjectPath("/org/freedesktop/portal/desktop")
	screenCast  = "org.freedesktop.portal.ScreenCast"
	shortcuts   = "org.freedesktop.portal.GlobalShortcuts"
	registry    = "org.freedesktop.host.portal.Registry"
	requestName = "org.freedesktop.portal.Request"
	sessionName = "org.freedesktop.portal.Session"

	monitors, windows = 1, 2
)

// Bound is a key as the portal writes it.
type Bound struct {
	ID    string
	About map[string]dbus.Variant
}

// Fake is a portal. Its fields say how it behaves, and are set before it is asked.
type Fake struct {
	conn *dbus.Conn

	Kinds, Version uint32
	Silent         string // the method that is never returned from
	Lacks          string // an interface that it doesn't have
	Unanswered     string // the one whose request is never answered
	Codes          map[string]uint32
	Results        map[string]map[string]dbus.Variant // instead of the usual ones
	Socket         func() int                         // to a PipeWire server
	Node           uint32
	About          map[string]dbus.Variant // more about what is shared
	OldPaths       bool                    // requests have names of the portal's own choice, as of old

	mu      sync.Mutex
	client  string           // who asked for keys or a screen last
	session dbus.ObjectPath  // of who asked for a screen last
	granted time.Time        // when a screen was, last
	given   map[string][]any // what a method was called with last
	closed  []dbus.ObjectPath
	tokens  int
	sockets []int
	release chan struct{}
}

// StartFake starts a portal on a bus, which ends with the test.
func StartFake(t testing.TB, address string, set func(*Fake)) *Fake {
	t.Helper()
	conn, err := dbus.Connect(address)
	if err != nil {
		t.Fatal(err)
	}
	f := &Fake{conn: conn, Kinds: monitors | windows, Version: 4, given: map[string][]any{}, release: make(chan struct{})}
	if set != nil {
		set(f)
	}
	t.Cleanup(func() {
		close(f.release)
		conn.Close()
	})
	for name, methods := range map[string]any{
		screenCast:                        map[string]any{"CreateSession": f.createSession, "SelectSources": f.selectSources, "Start": f.start, "OpenPipeWireRemote": f.open},
		shortcuts:                         map[string]any{"CreateSession": f.createSession, "BindShortcuts": f.bindShortcuts},
		registry:                          map[string]any{"Register": f.register},
		"org.freedesktop.DBus.Properties": map[string]any{"Get": f.get},
	} {
		if f.Lacks == name {
			continue
		}
		if err := conn.ExportMethodTable(methods.(map[string]any), object, name); err != nil {
			t.Fatal(err)
		}
	}
	closing := map[string]any{"Close": f.close}
	for _, name := range []string{requestName, sessionName} {
		if err := conn.ExportSubtreeMethodTable(closing, object, name); err != nil {
			t.Fatal(err)
		}
	}
	if reply, err := conn.RequestName(service, dbus.NameFlagDoNotQueue); err != nil || reply != dbus.RequestNameReplyPrimaryOwner {
		t.Fatalf("own the portal's name: %v, %v", reply, err)
	}
	return f
}

func (f *Fake) get(_, name string) (dbus.Variant, *dbus.Error) {
	f.halt("Get")
	switch name {
	case "AvailableSourceTypes":
		return dbus.MakeVariant(f.Kinds), nil
	case "AvailableCursorModes":
		return dbus.MakeVariant(uint32(7)), nil
	case "version":
		return dbus.MakeVariant(f.Version), nil
	}
	return dbus.Variant{}, dbus.NewError("org.freedesktop.DBus.Error.InvalidArgs", nil)
}

func (f *Fake) createSession(from dbus.Sender, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	path := string(object) + "/session/s/" + options["session_handle_token"].Value().(string)
	return f.request("CreateSession", from, options, map[string]dbus.Variant{"session_handle": dbus.MakeVariant(path)}, options)
}

func (f *Fake) selectSources(from dbus.Sender, session dbus.ObjectPath, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	return f.request("SelectSources", from, options, nil, session, options)
}

func (f *Fake) start(from dbus.Sender, session dbus.ObjectPath, parent string, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	type stream struct {
		Node  uint32
		About map[string]dbus.Variant
	}
	f.mu.Lock()
	f.tokens++
	f.client, f.session, f.granted = string(from), session, time.Now()
	token := "token" + string(rune('0'+f.tokens))
	f.mu.Unlock()
	about := map[string]dbus.Variant{"source_type": dbus.MakeVariant(uint32(1))}
	maps.Copy(about, f.About)
	return f.request("Start", from, options, map[string]dbus.Variant{
		"streams":       dbus.MakeVariant([]stream{{f.Node, about}}),
		"restore_token": dbus.MakeVariant(token),
	}, session, parent, options)
}

func (f *Fake) register(app string, options map[string]dbus.Variant) *dbus.Error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.given["Register"] = []any{app, options}
	return nil
}

// bindShortcuts gives every key but the last, and calls them in its own way.
func (f *Fake) bindShortcuts(from dbus.Sender, session dbus.ObjectPath, list []Bound, parent string, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	var given []Bound
	for _, b := range list[:max(len(list)-1, 0)] {
		given = append(given, Bound{b.ID, map[string]dbus.Variant{"trigger_description": dbus.MakeVariant("Press " + b.About["preferred_trigger"].Value().(string))}})
	}
	f.mu.Lock()
	f.client = string(from)
	f.mu.Unlock()
	return f.request("BindShortcuts", from, options, map[string]dbus.Variant{"shortcuts": dbus.MakeVariant(given)}, session, list, parent)
}

func (f *Fake) open(_ dbus.ObjectPath, _ map[string]dbus.Variant) (dbus.UnixFD, *dbus.Error) {
	f.halt("OpenPipeWireRemote")
	if f.Socket == nil {
		return 0, dbus.NewError("org.freedesktop.portal.Error.Failed", nil)
	}
	fd := f.Socket()
	f.mu.Lock()
	defer f.mu.Unlock()
	f.sockets = append(f.sockets, fd) // until the session is closed
	return dbus.UnixFD(fd), nil
}

func (f *Fake) close(m dbus.Message) *dbus.Error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.closed = append(f.closed, m.Headers[dbus.FieldPath].Value().(dbus.ObjectPath))
	f.drop()
	return nil
}

// CloseSession ends the sharing that was granted last, as the painter does by the desktop's own sign.
func (f *Fake) CloseSession() {
	f.mu.Lock()
	session := f.session
	f.mu.Unlock()
	f.Tells(session, sessionName, "Closed", map[string]dbus.Variant{})
}

// Granted returns when a screen was granted last.
func (f *Fake) Granted() time.Time {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.granted
}

// Tells sends a signal to who asked for keys or a screen last.
func (f *Fake) Tells(path dbus.ObjectPath, of, name string, body ...any) {
	f.mu.Lock()
	client := f.client
	f.mu.Unlock()
	f.Send(client, path, of, name, body...)
}

// WasClosed reports whether something whose path has a part was closed.
func (f *Fake) WasClosed(part string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, path := range f.closed {
		if matched, _ := filepath.Match("/*/*/*/*/"+part+"/*/*", string(path)); matched {
			return true
		}
	}
	return false
}

// Gave returns what a method was called with last.
func (f *Fake) Gave(method string) []any {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.given[method]
}

// halt waits for the test's end where the portal says nothing to a method.
func (f *Fake) halt(method string) {
	if f.Silent == method {
		<-f.release
	}
}

// request notes what a method was called with, and answers it as is wished.
func (f *Fake) request(method string, from dbus.Sender, options map[string]dbus.Variant, results map[string]dbus.Variant, given ...any) (dbus.ObjectPath, *dbus.Error) {
	f.halt(method)
	f.mu.Lock()
	f.given[method] = given
	f.mu.Unlock()
	path := dbus.ObjectPath(string(object) + "/request/s/" + options["handle_token"].Value().(string))
	if f.OldPaths {
		path += "_old"
	}
	if other, ok := f.Results[method]; ok {
		results = other
	}
	if results == nil {
		results = map[string]dbus.Variant{}
	}
	if f.Unanswered != method {
		f.Send(string(from), path, requestName, "Response", f.Codes[method], results)
	}
	return path, nil
}

// Send sends a signal to one client, as the portal does. It may come before the method has returned.
func (f *Fake) Send(to string, path dbus.ObjectPath, of, name string, body ...any) {
	f.conn.Send(&dbus.Message{
		Type: dbus.TypeSignal, Flags: dbus.FlagNoReplyExpected, Body: body,
		Headers: map[dbus.HeaderField]dbus.Variant{
			dbus.FieldDestination: dbus.MakeVariant(to), dbus.FieldPath: dbus.MakeVariant(path),
			dbus.FieldInterface: dbus.MakeVariant(of), dbus.FieldMember: dbus.MakeVariant(name),
			dbus.FieldSignature: dbus.MakeVariant(dbus.SignatureOf(body...)),
		},
	}, nil)
}

// Gone ends the portal's service, and what it holds.
func (f *Fake) Gone() {
	f.conn.Close()
	f.mu.Lock()
	defer f.mu.Unlock()
	f.drop()
}

// drop closes what it holds of connections to the PipeWire server. f.mu is held.
func (f *Fake) drop() {
	for _, fd := range f.sockets {
		syscall.Close(fd)
	}
	f.sockets = nil
}
