package xconn

import "errors"

// What can go wrong with the connection. Errors of this package wrap one of these.
var (
	// ErrNoDisplay: no display is named, the name makes no sense, or nothing listens there.
	ErrNoDisplay = errors.New("no such display")
	// ErrRefused: the server answered, and does not let us in.
	ErrRefused = errors.New("refused by the display")
	// ErrNotAnswering: the wait was ended before the server answered.
	ErrNotAnswering = errors.New("display not answering")
	// ErrBroken: the connection ended, or what came over it makes no sense.
	ErrBroken = errors.New("connection broken")
	// ErrBusy: the one connection is in use for another display.
	ErrBusy = errors.New("connection in use for another display")
	// ErrShut: a request on a Line after its Close.
	ErrShut = errors.New("closed by its owner")
)
