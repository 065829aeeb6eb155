package xconn

import (
	"context"
	"fmt"
	"sync"
)

// share is the one connection and who may make or break it.
var share = struct {
	gate chan struct{} // held while a connection is made, or while somebody is alone
	mu   sync.Mutex    // guards cur and every refs
	cur  *Conn         // the newest connection; it may have ended
}{gate: make(chan struct{}, 1)}

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
	if c, err := join(display); c != nil || err != nil {
		return c, err
	}
	if err := enter(ctx); err != nil {
		return nil, err
	}
	defer leave()
	if c, err := join(display); c != nil || err != nil { // somebody else was quicker
		return c, err
	}
	if err := waitForEnd(ctx); err != nil {
		return nil, err
	}
	c, err := connect(ctx, display)
	if err != nil {
		return nil, err
	}
	share.mu.Lock()
	defer share.mu.Unlock()
	c.refs = 1
	share.cur = c
	return c, nil
}

// join lends the connection if there is one in use; without one it returns nil.
func join(display string) (*Conn, error) {
	share.mu.Lock()
	defer share.mu.Unlock()
	c := share.cur
	if c == nil || c.refs == 0 || !c.Alive() {
		return nil, nil
	}
	if !SameDisplay(c.display, display) {
		return nil, fmt.Errorf("%w (%s)", ErrBusy, c.display)
	}
	c.refs++
	return c, nil
}

// Release gives the connection back. The last to do so ends it, without waiting
// for the server; requests that still hang then return an error.
func (c *Conn) Release() {
	share.mu.Lock()
	defer share.mu.Unlock()
	if c.refs--; c.refs == 0 {
		c.socket.Close()
	}
}

// Alone runs f while no connection of ours is alive and none is made: for code of
// others that makes its own through the same library. It waits until the
// connection has been given back by everybody, or until ctx ends.
func Alone(ctx context.Context, f func() error) error {
	for {
		if err := enter(ctx); err != nil {
			return err
		}
		share.mu.Lock()
		c := share.cur
		share.mu.Unlock()
		if c == nil || !c.Alive() {
			defer leave()
			return f()
		}
		leave()
		select {
		case <-c.Done():
		case <-ctx.Done():
			return fmt.Errorf("%w: %w", ErrBusy, ctx.Err())
		}
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

// enter takes the gate.
func enter(ctx context.Context) error {
	select {
	case share.gate <- struct{}{}:
		return nil
	case <-ctx.Done():
		return fmt.Errorf("%w: %w", ErrNotAnswering, ctx.Err())
	}
}

// leave opens the gate.
func leave() { <-share.gate }

// waitForEnd waits until the reader of a connection that was given back has ended.
func waitForEnd(ctx context.Context) error {
	share.mu.Lock()
	c := share.cur
	share.mu.Unlock()
	if c == nil {
		return nil
	}
	select {
	case <-c.Done():
		return nil
	case <-ctx.Done():
		return fmt.Errorf("%w: the connection before has not ended: %w", ErrNotAnswering, ctx.Err())
	}
}
