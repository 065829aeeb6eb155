package xconn

import (
	"context"
	"fmt"
)

// gate is held while somebody joins the connection or makes it. current, which it guards, is
// the newest connection; it may have ended.
var (
	gate    = make(chan struct{}, 1)
	current *Conn
)

// Acquire lends the connection to display, and makes it if there is none. Give it
// back with Release. If ctx ends first the error wraps ErrNotAnswering; while a
// connection to another display is in use it wraps ErrBusy.
func Acquire(ctx context.Context, display string) (*Conn, error) {
	c, err := acquire(ctx, display)
	if err != nil {
		return nil, fmt.Errorf("connect to display %q: %w", display, err)
	}
	return c, nil
}

func acquire(ctx context.Context, display string) (*Conn, error) {
	select {
	case gate <- struct{}{}:
	case <-ctx.Done():
		return nil, notAnswering(ctx)
	}
	defer func() { <-gate }()
	if c := current; c != nil {
		if joined, err := c.join(display); joined || err != nil {
			return c, err
		}
		select {
		case <-c.done: // the reader of what was given back has ended
		case <-ctx.Done():
			return nil, fmt.Errorf("%w: the connection before has not ended: %w", ErrNotAnswering, ctx.Err())
		}
	}
	c, err := connect(ctx, display)
	if err != nil {
		return nil, err
	}
	c.users, current = 1, c
	return c, nil
}

// join lends the connection once more, if it is in use and alive.
func (c *Conn) join(display string) (joined bool, err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.users == 0 || !c.Alive() {
		return false, nil
	}
	if !SameDisplay(c.display, display) {
		return false, fmt.Errorf("%w (%s)", ErrBusy, c.display)
	}
	c.users++
	return true, nil
}

// Release gives the connection back. The last to do so ends it, without waiting
// for the server; requests that still hang then return an error.
func (c *Conn) Release() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.users--; c.users == 0 {
		c.socket.Close()
	}
}

// Probe checks that display's server lets us in: it connects and closes. It does not
// touch the client library, so it may run at any time.
func Probe(ctx context.Context, display string) error {
	name, err := parseDisplay(display)
	if err == nil {
		var nc interface{ Close() error }
		if nc, _, err = handshake(ctx, name); err == nil {
			return nc.Close()
		}
	}
	return fmt.Errorf("connect to display %q: %w", display, err)
}
