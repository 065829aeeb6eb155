package xconn

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net"
	"strings"
	"time"
)

const (
	byteOrderLSB     = 'l' // least significant byte first, whatever this machine does (X11, chapter 8)
	setupFailed      = 0
	setupSuccess     = 1
	opQueryExtension = 98
)

// handshake opens a socket to d's server and is let in. It returns the server's
// answer, the bytes of its setup. Errors wrap ErrNoDisplay, ErrRefused,
// ErrNotAnswering or ErrBroken.
func handshake(ctx context.Context, d displayName) (nc net.Conn, setup []byte, err error) {
	if nc, err = d.dial(ctx); err != nil {
		return nil, nil, err
	}
	setup, err = wait(ctx, nc, func() ([]byte, error) { return letIn(nc, d.cookie(nc.RemoteAddr())) })
	if err != nil {
		nc.Close()
		return nil, nil, err
	}
	return nc, setup, nil
}

// wait runs f, which reads and writes nc, until it is done or ctx ends.
func wait[T any](ctx context.Context, nc net.Conn, f func() (T, error)) (T, error) {
	cut := context.AfterFunc(ctx, func() { nc.SetDeadline(time.Unix(1, 0)) })
	v, err := f()
	if !cut() { // the deadline is set or being set: nc can't be used any more
		return v, fmt.Errorf("%w: %w", ErrNotAnswering, context.Cause(ctx))
	}
	if err != nil && !errors.Is(err, ErrRefused) {
		err = fmt.Errorf("%w: %w", ErrBroken, err)
	}
	return v, err
}

// letIn asks for a connection and returns the server's setup (X11, chapter 8).
func letIn(nc net.Conn, cookie []byte) ([]byte, error) {
	name := ""
	if cookie != nil {
		name = cookieName
	}
	ask := make([]byte, 12, 12+pad4(len(name))+pad4(len(cookie)))
	ask[0] = byteOrderLSB
	binary.LittleEndian.PutUint16(ask[2:], 11) // protocol's major version
	binary.LittleEndian.PutUint16(ask[6:], uint16(len(name)))
	binary.LittleEndian.PutUint16(ask[8:], uint16(len(cookie)))
	ask = append(ask, name...)
	ask = append(ask, make([]byte, pad4(len(ask))-len(ask))...)
	ask = append(ask, cookie...)
	ask = append(ask, make([]byte, pad4(len(ask))-len(ask))...)
	if _, err := nc.Write(ask); err != nil {
		return nil, err
	}
	head := make([]byte, 8)
	if _, err := io.ReadFull(nc, head); err != nil {
		return nil, err
	}
	setup := make([]byte, 8+4*int(binary.LittleEndian.Uint16(head[6:])))
	copy(setup, head)
	if _, err := io.ReadFull(nc, setup[8:]); err != nil {
		return nil, err
	}
	if setup[0] != setupSuccess {
		return nil, fmt.Errorf("%w: %s", ErrRefused, refusal(setup))
	}
	if major := binary.LittleEndian.Uint16(setup[2:]); major != 11 || len(setup) < 40 {
		return nil, fmt.Errorf("setup of %d bytes for protocol version %d", len(setup), major)
	}
	return setup, nil
}

// refusal returns the server's reason for a refusal, in one line.
func refusal(setup []byte) string {
	reason := setup[8:]
	if n := int(setup[1]); setup[0] == setupFailed && n < len(reason) {
		reason = reason[:n]
	}
	return strings.Join(strings.Fields(strings.Trim(string(reason), "\x00")), " ")
}

// extension is what a server says of one of its extensions.
type extension struct {
	name                          string
	major, firstEvent, firstError byte
}

// queryExtensions asks the server behind nc, which has let us in, which of names it has.
func queryExtensions(nc net.Conn, names []string) ([]extension, error) {
	var found []extension
	for _, name := range names {
		ask := make([]byte, 8+pad4(len(name)))
		ask[0] = opQueryExtension
		binary.LittleEndian.PutUint16(ask[2:], uint16(len(ask)/4))
		binary.LittleEndian.PutUint16(ask[4:], uint16(len(name)))
		copy(ask[8:], name)
		if _, err := nc.Write(ask); err != nil {
			return nil, err
		}
		reply := make([]byte, 32)
		for reply[0] != 1 { // an event may come first
			if _, err := io.ReadFull(nc, reply); err != nil {
				return nil, err
			}
			if reply[0] == 0 {
				return nil, fmt.Errorf("error %d to a question for %s", reply[1], name)
			}
		}
		if reply[8] != 0 {
			found = append(found, extension{name, reply[9], reply[10], reply[11]})
		}
	}
	return found, nil
}

// pad4 rounds n up to a multiple of 4.
func pad4(n int) int { return (n + 3) &^ 3 }

// replay is a connection whose handshake is done already: it swallows the request
// that the client library sends for a setup and reads the known answer to it, then
// the wire. So the library starts on a connection that we have opened our way.
type replay struct {
	net.Conn
	asked bool   // the library's request has been swallowed
	setup []byte // what is left of the answer
}

// Write sends b, except for the first time.
func (r *replay) Write(b []byte) (int, error) {
	if !r.asked {
		r.asked = true
		return len(b), nil
	}
	return r.Conn.Write(b)
}

// Read reads what is left of the answer first.
func (r *replay) Read(b []byte) (int, error) {
	if len(r.setup) > 0 {
		n := copy(b, r.setup)
		r.setup = r.setup[n:]
		return n, nil
	}
	return r.Conn.Read(b)
}
