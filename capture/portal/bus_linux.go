package portal

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture"
)

// Names of the portal. Source: XDP.
const (
	service     = "org.freedesktop.portal.Desktop"
	object      = dbus.ObjectPath("/org/freedesktop/portal/desktop")
	screenCast  = "org.freedesktop.portal.ScreenCast"
	shortcuts   = "org.freedesktop.portal.GlobalShortcuts"
	registry    = "org.freedesktop.host.portal.Registry"
	requestName = "org.freedesktop.portal.Request"
	sessionName = "org.freedesktop.portal.Session"
)

// waits are limits of patience.
type waits struct {
	call   time.Duration // for an answer that needs nobody
	people time.Duration // for the painter's answer to the desktop's question
}

// usual are our choices: a portal that is only started now takes a few seconds.
var usual = waits{call: 15 * time.Second, people: 3 * time.Minute}

// use is what a connection is for.
type use struct {
	of    string // the portal's interface whose methods are called
	waits waits
	ended func(session dbus.ObjectPath, why error) // a session has ended, or all have ("")
	heard func(*dbus.Signal)                       // a signal of that interface; nil: none is listened for
}

// bus is a connection to the session's bus, and what the portal tells us over it.
type bus struct {
	use
	conn  *dbus.Conn
	owner string // the portal's own name on the bus

	mu      sync.Mutex
	answers map[dbus.ObjectPath]chan answer // to requests, whoever comes first: the answer or who waits
}

// answer is the portal's to a request.
type answer struct {
	code    uint32
	results map[string]dbus.Variant
}

// The codes of answers. Source: XDP, org.freedesktop.portal.Request.
const (
	granted   = 0
	cancelled = 1
)

// mostAnswers bounds the answers that nobody has waited for yet. Our choice.
const mostAnswers = 16

// connect connects to the bus at an address and finds the portal.
func connect(ctx context.Context, address string, u use) (*bus, error) {
	ctx, cancel := context.WithTimeoutCause(ctx, u.waits.call, capture.ErrNotAnswering)
	defer cancel()
	type made struct {
		conn *dbus.Conn
		err  error
	}
	done := make(chan made, 1)
	go func() { // the library can't be told to give up
		conn, err := dbus.Connect(address)
		if err == nil && ctx.Err() != nil {
			conn.Close()
		}
		done <- made{conn, err}
	}()
	b := &bus{use: u, answers: map[dbus.ObjectPath]chan answer{}}
	select {
	case m := <-done:
		if m.err != nil {
			return nil, fmt.Errorf("%w: the session's bus: %v", capture.ErrNoPortal, m.err)
		}
		b.conn = m.conn
	case <-ctx.Done():
		return nil, fmt.Errorf("the session's bus: %w", context.Cause(ctx))
	}
	if err := b.find(ctx); err != nil {
		b.conn.Close()
		return nil, err
	}
	return b, nil
}

// find starts the portal where it doesn't run, and begins to listen to it.
func (b *bus) find(ctx context.Context) error {
	signals := make(chan *dbus.Signal, mostAnswers)
	b.conn.Signal(signals)
	matches := [][]dbus.MatchOption{
		{dbus.WithMatchSender(service), dbus.WithMatchInterface(requestName)},
		{dbus.WithMatchSender(service), dbus.WithMatchInterface(sessionName)},
		{dbus.WithMatchSender("org.freedesktop.DBus"), dbus.WithMatchMember("NameOwnerChanged"), dbus.WithMatchArg(0, service)},
	}
	if b.heard != nil {
		matches = append(matches, []dbus.MatchOption{dbus.WithMatchSender(service), dbus.WithMatchInterface(b.of)})
	}
	for _, match := range matches {
		if err := b.conn.AddMatchSignalContext(ctx, match...); err != nil {
			return said(ctx, err)
		}
	}
	daemon := b.conn.BusObject()
	owner := func() error {
		return daemon.CallWithContext(ctx, "org.freedesktop.DBus.GetNameOwner", 0, service).Store(&b.owner)
	}
	if owner() != nil { // it doesn't run yet
		if err := daemon.CallWithContext(ctx, "org.freedesktop.DBus.StartServiceByName", 0, service, uint32(0)).Err; err != nil {
			return said(ctx, err)
		}
		if err := owner(); err != nil {
			return said(ctx, err)
		}
	}
	go b.listen(signals)
	return nil
}

// listen takes what the portal tells until the connection ends.
func (b *bus) listen(signals <-chan *dbus.Signal) {
	for s := range signals {
		switch {
		case s.Name == "org.freedesktop.DBus.NameOwnerChanged" && s.Sender == "org.freedesktop.DBus":
			var name, was, now string
			if err := dbus.Store(s.Body, &name, &was, &now); err == nil && was == b.owner && name == service {
				b.ended("", fmt.Errorf("%w: the portal's service went", capture.ErrStopped))
			}
		case s.Sender != b.owner: // anybody can send anything
		case s.Name == sessionName+".Closed":
			b.ended(s.Path, fmt.Errorf("%w: the portal closed the session", capture.ErrStopped))
		case b.heard != nil && strings.HasPrefix(s.Name, b.of+"."):
			b.heard(s)
		case s.Name == requestName+".Response":
			var a answer
			if err := dbus.Store(s.Body, &a.code, &a.results); err != nil {
				a.code, a.results = 2, nil // as one that failed
			}
			select {
			case b.answersTo(s.Path) <- a:
			default: // a second answer, or too many
			}
		}
	}
	b.ended("", fmt.Errorf("%w: the session's bus went", capture.ErrStopped))
}

// answersTo is where the answer to a request comes; nil, where nothing ever does, when too many wait.
func (b *bus) answersTo(request dbus.ObjectPath) chan answer {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.answers[request] == nil && len(b.answers) < mostAnswers {
		b.answers[request] = make(chan answer, 1)
	}
	return b.answers[request]
}

// property reads a number of the portal's; 0 where it has none of that name.
func (b *bus) property(ctx context.Context, name string) (uint32, error) {
	ctx, cancel := context.WithTimeoutCause(ctx, b.waits.call, capture.ErrNotAnswering)
	defer cancel()
	var v dbus.Variant
	err := b.conn.Object(service, object).CallWithContext(ctx, "org.freedesktop.DBus.Properties.Get", 0, b.of, name).Store(&v)
	if err != nil {
		return 0, said(ctx, err)
	}
	n, _ := v.Value().(uint32)
	return n, nil
}

// request calls a method that is answered later, with its options last, and waits for the answer.
func (b *bus) request(ctx context.Context, wait time.Duration, late error, method string, options map[string]any, args ...any) (map[string]dbus.Variant, error) {
	ctx, cancel := context.WithTimeoutCause(ctx, wait, late)
	defer cancel()
	given := map[string]dbus.Variant{"handle_token": dbus.MakeVariant(token())}
	for name, value := range options {
		given[name] = dbus.MakeVariant(value)
	}
	var path dbus.ObjectPath
	err := b.call(ctx, method, append(args, given), &path)
	if err != nil {
		return nil, err
	}
	answers := b.answersTo(path)
	defer func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		delete(b.answers, path)
	}()
	select {
	case a := <-answers:
		switch a.code {
		case granted:
			return a.results, nil
		case cancelled:
			return nil, fmt.Errorf("%s: %w", method, capture.ErrGivenUp)
		}
		return nil, fmt.Errorf("%s: %w: the portal answers %d", method, capture.ErrSharing, a.code)
	case <-b.conn.Context().Done():
		return nil, fmt.Errorf("%s: %w: the session's bus went", method, capture.ErrStopped)
	case <-ctx.Done():
		b.conn.Object(service, path).Go(requestName+".Close", dbus.FlagNoReplyExpected, nil)
		return nil, fmt.Errorf("%s: %w", method, context.Cause(ctx))
	}
}

// call calls a method of the portal's and takes what it returns at once.
func (b *bus) call(ctx context.Context, method string, args []any, returned any) error {
	// Its own end, so that a portal that says nothing is told from a painter who does.
	quick, cancel := context.WithTimeoutCause(ctx, b.waits.call, capture.ErrNotAnswering)
	defer cancel()
	if err := b.conn.Object(service, object).CallWithContext(quick, b.of+"."+method, 0, args...).Store(returned); err != nil {
		return fmt.Errorf("%s: %w", method, said(quick, err))
	}
	return nil
}

// token is a name for a request that nobody can guess.
func token() string { return "tonedesk_" + strings.ToLower(rand.Text()) }

// said turns what the bus says into an error of package capture's.
func said(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	var e dbus.Error
	if !errors.As(err, &e) { // the connection, or an answer of wrong types
		return fmt.Errorf("%w: %v", capture.ErrSharing, err)
	}
	switch name := strings.TrimPrefix(e.Name, "org.freedesktop.DBus.Error."); {
	case name == "ServiceUnknown", name == "NameHasNoOwner", name == "UnknownInterface", name == "UnknownMethod",
		name == "UnknownObject", name == "UnknownProperty", name == "InvalidArgs", strings.HasPrefix(name, "Spawn."):
		return fmt.Errorf("%w: %v", capture.ErrNoPortal, err)
	case name == "NoReply", name == "Timeout", name == "TimedOut":
		return fmt.Errorf("%w: %v", capture.ErrNotAnswering, err)
	}
	return fmt.Errorf("%w: %v", capture.ErrSharing, err)
}
