package xconn

import (
	"context"
	"fmt"
	"log"
	"maps"
	"net"
	"slices"
	"sync"

	"github.com/jezek/xgb"
	_ "github.com/jezek/xgb/composite" // fill the library's tables of events and errors
	_ "github.com/jezek/xgb/damage"
	_ "github.com/jezek/xgb/randr"
	_ "github.com/jezek/xgb/shm"
	_ "github.com/jezek/xgb/xfixes"
	"github.com/jezek/xgb/xproto"
)

// Names of the extensions that Conn.Has knows.
const (
	SHM       = "MIT-SHM"
	RandR     = "RANDR"
	Composite = "Composite"
	Damage    = "DAMAGE"
	XFixes    = "XFIXES"
	XWayland  = "XWAYLAND" // only to see that the server is one for old programs in a Wayland session
)

// known are the extensions that a server is asked for.
var known = []string{SHM, RandR, Composite, Damage, XFixes, XWayland}

func init() { xgb.Logger = log.New(toStandard{}, "xgb: ", 0) }

// toStandard hands the library's messages to the standard logger.
type toStandard struct{}

func (toStandard) Write(message []byte) (int, error) {
	log.Print(string(message))
	return len(message), nil
}

// Conn is a connection in use. Its requests may be made from any goroutine; each
// may wait for ever, so make them on a Line.
type Conn struct {
	X      *xgb.Conn
	Setup  *xproto.SetupInfo
	Screen *xproto.ScreenInfo // the one that the display's name chooses

	display string
	socket  net.Conn
	has     map[string]bool
	done    chan struct{} // closed when the event loop has ended

	mu    sync.Mutex // guards what follows
	users int        // who have it and will give it back
	subs  map[int]func(xgb.Event)
	next  int
}

// Has says whether the server has the extension.
func (c *Conn) Has(name string) bool { return c.has[name] }

// Done is closed when the connection has ended and its reader with it.
func (c *Conn) Done() <-chan struct{} { return c.done }

// Alive says whether the connection has not ended.
func (c *Conn) Alive() bool {
	select {
	case <-c.done:
		return false
	default:
		return true
	}
}

// Subscribe has f called with every event, on the goroutine that drains them, and with nil
// once the connection has ended: f returns at once and makes no request. cancel ends that.
func (c *Conn) Subscribe(f func(xgb.Event)) (cancel func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	id := c.next
	c.next++
	c.subs[id] = f
	return func() {
		c.mu.Lock()
		defer c.mu.Unlock()
		delete(c.subs, id)
	}
}

// connect makes the connection. No other may be alive, not even its reader.
func connect(ctx context.Context, display string) (*Conn, error) {
	name, err := parseDisplay(display)
	if err != nil {
		return nil, err
	}
	socket, setup, err := handshake(ctx, name)
	if err != nil {
		return nil, err
	}
	// A second socket, closed at once, asks for the extensions: the first is to begin
	// with request 1 when the library gets it, and its reader must find its tables
	// complete, since it reads them without a lock.
	found, err := askExtensions(ctx, name)
	if err != nil {
		socket.Close()
		return nil, err
	}
	for _, e := range found {
		register(e)
	}
	x, err := xgb.NewConnNet(&replay{Conn: socket, setup: setup})
	if err != nil {
		socket.Close()
		return nil, fmt.Errorf("%w: %w", ErrBroken, err)
	}
	return start(x, display, name.screen, socket, found)
}

// askExtensions asks d's server on a socket of its own what it has of ours.
func askExtensions(ctx context.Context, d displayName) ([]extension, error) {
	nc, _, err := handshake(ctx, d)
	if err != nil {
		return nil, err
	}
	defer nc.Close()
	return wait(ctx, nc, func() ([]extension, error) {
		return queryExtensions(nc, known)
	})
}

// register enters an extension's events and errors into the library's tables, as
// the Init functions of its packages would do with the reader already running.
func register(e extension) {
	for n, f := range xgb.NewExtEventFuncs[e.name] {
		xgb.NewEventFuncs[int(e.firstEvent)+n] = f
	}
	for n, f := range xgb.NewExtErrorFuncs[e.name] {
		xgb.NewErrorFuncs[int(e.firstError)+n] = f
	}
}

// start drains x's events and reads its setup. On an error everything has ended.
func start(x *xgb.Conn, display string, screen int, socket net.Conn, found []extension) (*Conn, error) {
	c := &Conn{X: x, display: display, socket: socket, has: map[string]bool{},
		done: make(chan struct{}), subs: map[int]func(xgb.Event){}}
	go c.drain()
	x.ExtLock.Lock()
	for _, e := range found {
		x.Extensions[e.name] = e.major
		c.has[e.name] = true
	}
	x.ExtLock.Unlock()
	err := guard(func() error { // the library trusts every length in the setup
		c.Setup = xproto.Setup(x)
		if screen >= len(c.Setup.Roots) {
			return fmt.Errorf("%w: it has no screen %d", ErrNoDisplay, screen)
		}
		c.Screen = &c.Setup.Roots[screen]
		return nil
	})
	if err != nil {
		socket.Close()
		<-c.done
		return nil, err
	}
	return c, nil
}

// drain hands every event to the subscribers until the connection ends. Without it
// the library's reader stops after 5,000 events, and every reply with it.
func (c *Conn) drain() {
	var subs []func(xgb.Event)
	for {
		event, err := c.X.WaitForEvent()
		ended := event == nil && err == nil
		if ended {
			c.socket.Close()
			close(c.done)
		}
		if event == nil && !ended {
			continue // the late error of a request that nobody waits for
		}
		c.mu.Lock()
		subs = slices.AppendSeq(subs[:0], maps.Values(c.subs))
		c.mu.Unlock()
		for _, f := range subs {
			f(event)
		}
		if ended {
			return
		}
	}
}
