package wayland

import (
	"errors"
	"fmt"
	"io"
	"net"
	"sync"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland/wire"
)

// The numbers of the first objects, and of what they hear and say. Source: WL.
const (
	displayObject  = 1
	registryObject = 2

	displaySync, displayRegistry = 0, 1
	displayError, displayDeleted = 0, 1
	registryBind                 = 0
	registryGlobal, registryGone = 0, 1
)

// hearer takes an event of an object. It is called while the display's mu is held.
type hearer func(op uint16, a *wire.Arguments)

// global is something that the compositor offers.
type global struct {
	of      string // its interface
	version uint32
}

// display is a connection to a compositor. What is said here of objects holds while mu is held, but for
// dial, sync and close.
type display struct {
	socket *wire.Socket
	told   func() // that it has ended; called while mu is held

	mu      sync.Mutex
	last    uint32   // number given to an object
	free    []uint32 // numbers that can be given again
	hearers map[uint32]hearer
	globals map[uint32]global // by their numbers
	gone    func(number uint32)
	why     error         // it has ended
	ended   chan struct{} // closed then
}

// newDisplay takes over a connection, and asks what the compositor offers.
func newDisplay(conn *net.UnixConn) *display {
	d := &display{
		socket: wire.NewSocket(conn), last: registryObject,
		globals: map[uint32]global{}, ended: make(chan struct{}),
		told: func() {}, gone: func(uint32) {},
	}
	d.hearers = map[uint32]hearer{displayObject: d.hear, registryObject: d.hearRegistry}
	go d.listen()
	d.mu.Lock()
	defer d.mu.Unlock()
	d.send(wire.New(displayObject, displayRegistry).Uint(registryObject))
	return d
}

// listen takes events until the connection ends.
func (d *display) listen() {
	for {
		m, err := d.socket.Receive()
		d.mu.Lock()
		d.socket.DropFiles() // none was asked for
		if err != nil {
			d.end(ended(err))
			d.mu.Unlock()
			return
		}
		if hear := d.hearers[m.Object]; hear != nil { // else it is of one that we have left
			a := m.Arguments()
			hear(m.Op, a)
			if a.Err() != nil {
				d.end(fmt.Errorf("%w: %w", capture.ErrSharing, a.Err()))
			}
		}
		d.mu.Unlock()
	}
}

// ended turns what ends a connection into an error of package capture's.
func ended(err error) error {
	if errors.Is(err, wire.ErrDamaged) {
		return fmt.Errorf("%w: %w", capture.ErrSharing, err)
	}
	if errors.Is(err, io.EOF) {
		return fmt.Errorf("%w: the compositor went", capture.ErrDisconnected)
	}
	return fmt.Errorf("%w: the compositor: %w", capture.ErrDisconnected, err)
}

// end ends it, the first time.
func (d *display) end(why error) {
	if d.why != nil {
		return
	}
	d.why = why
	close(d.ended)
	_ = d.socket.Close()
	d.told()
}

// close ends it.
func (d *display) close() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.end(capture.ErrClosed)
}

// send sends requests. Where that fails the connection ends.
func (d *display) send(requests ...wire.Message) { d.sendWith(nil, requests...) }

// sendWith is send with open files, which stay the caller's.
func (d *display) sendWith(files []int, requests ...wire.Message) {
	if d.why != nil {
		return
	}
	if err := d.socket.Send(files, requests...); err != nil {
		d.end(ended(err))
	}
}

// object gives a number to a new object, whose events hear takes.
func (d *display) object(hear hearer) (number uint32) {
	if n := len(d.free); n > 0 {
		number, d.free = d.free[n-1], d.free[:n-1]
	} else {
		d.last++
		number = d.last
	}
	if hear == nil {
		hear = func(uint16, *wire.Arguments) {}
	}
	d.hearers[number] = hear
	return number
}

// leave destroys an object by a request of its own. Its number is free when the compositor says so.
func (d *display) leave(number uint32, op uint16) {
	if number != 0 {
		d.hearers[number] = nil
		d.send(wire.New(number, op))
	}
}

// hear takes events of the display itself.
func (d *display) hear(op uint16, a *wire.Arguments) {
	switch op {
	case displayError:
		object, code, words := a.Uint(), a.Uint(), a.Text()
		d.end(fmt.Errorf("%w: the compositor says of object %d: error %d, %q", capture.ErrSharing, object, code, words))
	case displayDeleted:
		if number := a.Uint(); number > registryObject && number <= d.last {
			if _, known := d.hearers[number]; known {
				delete(d.hearers, number)
				d.free = append(d.free, number)
			}
		}
	}
}

// hearRegistry takes what is offered, and what is no more.
func (d *display) hearRegistry(op uint16, a *wire.Arguments) {
	number := a.Uint()
	switch op {
	case registryGlobal:
		d.globals[number] = global{a.Text(), a.Uint()}
	case registryGone:
		delete(d.globals, number)
		d.gone(number)
	}
}

// bind makes an object of something that is offered.
func (d *display) bind(number uint32, as global, hear hearer) (object uint32) {
	object = d.object(hear)
	d.send(wire.New(registryObject, registryBind).Uint(number).Text(as.of).Uint(as.version, object))
	return object
}

// find returns the number of something offered in at least a version; ok is false where it isn't.
func (d *display) find(of string, version uint32) (number uint32, ok bool) {
	for number, g := range d.globals {
		if g.of == of && g.version >= version {
			return number, true
		}
	}
	return 0, false
}

// sync waits until the compositor has done all that was asked of it.
func (d *display) sync() error {
	done := make(chan struct{})
	d.mu.Lock()
	d.send(wire.New(displayObject, displaySync).Uint(d.object(func(uint16, *wire.Arguments) {
		select {
		case <-done:
		default:
			close(done)
		}
	})))
	d.mu.Unlock()
	select {
	case <-done:
		return nil
	case <-d.ended:
		d.mu.Lock()
		defer d.mu.Unlock()
		return d.why
	}
}
