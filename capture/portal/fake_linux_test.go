package portal

import (
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"
)

// patience is how long something may take in a test, far more than a busy machine needs.
const patience = 20 * time.Second

// startBus starts a session's bus of the test's own, and returns its address.
func startBus(t *testing.T) string {
	t.Helper()
	if _, err := exec.LookPath("dbus-daemon"); err != nil {
		t.Skip("dbus-daemon is not installed: install Debian's dbus to try this")
	}
	dir, err := os.MkdirTemp("", "bus") // a socket's path is short
	if err != nil {
		t.Fatal(err)
	}
	config := filepath.Join(dir, "bus.conf")
	socket := filepath.Join(dir, "bus")
	text := `<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN" "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig><type>session</type><listen>unix:path=` + socket + `</listen><auth>EXTERNAL</auth>
<policy context="default"><allow send_destination="*" eavesdrop="true"/><allow eavesdrop="true"/><allow own="*"/></policy></busconfig>`
	if err := os.WriteFile(config, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("dbus-daemon", "--config-file="+config, "--nofork", "--nopidfile")
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		os.RemoveAll(dir)
	})
	waitFor(t, "the bus", func() bool {
		c, err := net.Dial("unix", socket)
		return err == nil && c.Close() == nil
	})
	return "unix:path=" + socket
}

// waitFor asks again and again until ok, and fails the test if that takes too long.
func waitFor(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); !ok(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s", what)
		}
	}
}

// fake is a portal. Its fields say how it behaves, and are set before it is asked.
type fake struct {
	conn *dbus.Conn

	kinds, version uint32
	silent         string // the method that is never returned from
	lacks          string // an interface that it doesn't have
	unanswered     string // the one whose request is never answered
	codes          map[string]uint32
	results        map[string]map[string]dbus.Variant // instead of the usual ones
	socket         func() int                         // to a PipeWire server
	node           uint32
	oldPaths       bool // requests have names of the portal's own choice, as of old

	mu      sync.Mutex
	client  string           // who asked for keys last
	given   map[string][]any // what a method was called with last
	closed  []dbus.ObjectPath
	tokens  int
	sockets []int
	release chan struct{}
}

// startFake starts a portal on a bus.
func startFake(t *testing.T, address string, set func(*fake)) *fake {
	t.Helper()
	conn, err := dbus.Connect(address)
	if err != nil {
		t.Fatal(err)
	}
	f := &fake{conn: conn, kinds: monitors | windows, version: 4, given: map[string][]any{}, release: make(chan struct{})}
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
		if f.lacks == name {
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

func (f *fake) get(_, name string) (dbus.Variant, *dbus.Error) {
	f.halt("Get")
	switch name {
	case "AvailableSourceTypes":
		return dbus.MakeVariant(f.kinds), nil
	case "AvailableCursorModes":
		return dbus.MakeVariant(uint32(7)), nil
	case "version":
		return dbus.MakeVariant(f.version), nil
	}
	return dbus.Variant{}, dbus.NewError("org.freedesktop.DBus.Error.InvalidArgs", nil)
}

func (f *fake) createSession(from dbus.Sender, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	path := string(object) + "/session/s/" + options["session_handle_token"].Value().(string)
	return f.request("CreateSession", from, options, map[string]dbus.Variant{"session_handle": dbus.MakeVariant(path)}, options)
}

func (f *fake) selectSources(from dbus.Sender, session dbus.ObjectPath, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	return f.request("SelectSources", from, options, nil, session, options)
}

func (f *fake) start(from dbus.Sender, session dbus.ObjectPath, parent string, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	type stream struct {
		Node  uint32
		About map[string]dbus.Variant
	}
	f.mu.Lock()
	f.tokens++
	token := "token" + string(rune('0'+f.tokens))
	f.mu.Unlock()
	return f.request("Start", from, options, map[string]dbus.Variant{
		"streams":       dbus.MakeVariant([]stream{{f.node, map[string]dbus.Variant{"source_type": dbus.MakeVariant(uint32(1))}}}),
		"restore_token": dbus.MakeVariant(token),
	}, session, parent, options)
}

func (f *fake) register(app string, options map[string]dbus.Variant) *dbus.Error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.given["Register"] = []any{app, options}
	return nil
}

// bindShortcuts gives every key but the last, and calls them in its own way.
func (f *fake) bindShortcuts(from dbus.Sender, session dbus.ObjectPath, list []bound, parent string, options map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	var given []bound
	for _, b := range list[:max(len(list)-1, 0)] {
		given = append(given, bound{b.ID, map[string]dbus.Variant{"trigger_description": dbus.MakeVariant("Press " + b.About["preferred_trigger"].Value().(string))}})
	}
	f.mu.Lock()
	f.client = string(from)
	f.mu.Unlock()
	return f.request("BindShortcuts", from, options, map[string]dbus.Variant{"shortcuts": dbus.MakeVariant(given)}, session, list, parent)
}

func (f *fake) open(_ dbus.ObjectPath, _ map[string]dbus.Variant) (dbus.UnixFD, *dbus.Error) {
	f.halt("OpenPipeWireRemote")
	if f.socket == nil {
		return 0, dbus.NewError("org.freedesktop.portal.Error.Failed", nil)
	}
	fd := f.socket()
	f.mu.Lock()
	defer f.mu.Unlock()
	f.sockets = append(f.sockets, fd) // until the session is closed
	return dbus.UnixFD(fd), nil
}

func (f *fake) close(m dbus.Message) *dbus.Error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.closed = append(f.closed, m.Headers[dbus.FieldPath].Value().(dbus.ObjectPath))
	for _, fd := range f.sockets {
		syscall.Close(fd)
	}
	f.sockets = nil
	return nil
}

// tells sends a signal to who asked for keys last.
func (f *fake) tells(path dbus.ObjectPath, of, name string, body ...any) {
	f.mu.Lock()
	client := f.client
	f.mu.Unlock()
	f.send(client, path, of, name, body...)
}

// wasClosed reports whether something whose path has a part was closed.
func (f *fake) wasClosed(part string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, path := range f.closed {
		if matched, _ := filepath.Match("/*/*/*/*/"+part+"/*/*", string(path)); matched {
			return true
		}
	}
	return false
}

// gave returns what a method was called with last.
func (f *fake) gave(method string) []any {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.given[method]
}

// halt waits for the test's end where the portal says nothing to a method.
func (f *fake) halt(method string) {
	if f.silent == method {
		<-f.release
	}
}

// request notes what a method was called with, and answers it as is wished.
func (f *fake) request(method string, from dbus.Sender, options map[string]dbus.Variant, results map[string]dbus.Variant, given ...any) (dbus.ObjectPath, *dbus.Error) {
	f.halt(method)
	f.mu.Lock()
	f.given[method] = given
	f.mu.Unlock()
	path := dbus.ObjectPath(string(object) + "/request/s/" + options["handle_token"].Value().(string))
	if f.oldPaths {
		path += "_old"
	}
	if other, ok := f.results[method]; ok {
		results = other
	}
	if results == nil {
		results = map[string]dbus.Variant{}
	}
	if f.unanswered != method {
		f.send(string(from), path, requestName, "Response", f.codes[method], results)
	}
	return path, nil
}

// send sends a signal to one client, as the portal does. It may come before the method has returned.
func (f *fake) send(to string, path dbus.ObjectPath, of, name string, body ...any) {
	f.conn.Send(&dbus.Message{
		Type: dbus.TypeSignal, Flags: dbus.FlagNoReplyExpected, Body: body,
		Headers: map[dbus.HeaderField]dbus.Variant{
			dbus.FieldDestination: dbus.MakeVariant(to), dbus.FieldPath: dbus.MakeVariant(path),
			dbus.FieldInterface: dbus.MakeVariant(of), dbus.FieldMember: dbus.MakeVariant(name),
			dbus.FieldSignature: dbus.MakeVariant(dbus.SignatureOf(body...)),
		},
	}, nil)
}
