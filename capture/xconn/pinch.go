package xconn

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net"
)

// inputExtension is the extension that tells of pinches.
const inputExtension = "XInputExtension"

// ErrNoPinches: the server is older than pinches, or somebody else gets the window's.
var ErrNoPinches = errors.New("the display does not tell of pinches")

// PinchPhase says which part of a pinch an event is.
type PinchPhase uint8

const (
	PinchBegins PinchPhase = iota
	PinchGoesOn
	PinchEnds
	PinchIsCalledOff // it was none: the fingers do something else
)

// Pinch is one event of two or more fingers that move apart or together on a touchpad.
type Pinch struct {
	Phase  PinchPhase
	X, Y   float64 // the pointer's place in the window, pixels
	DX, DY float64 // how far the fingers' middle moved since the event before, pixels
	Scale  float64 // the fingers' distance now to that at the beginning; above 0, but for an end
}

// Numbers of the wire. Source: X Input Extension Protocol Specification, version 2.4
// (X.Org, 2021), and its encoding in XI2.h and XI2proto.h (xorgproto 2022.1).
const (
	opSelectEvents   = 46
	opQueryVersion   = 47
	allMasterDevices = 1
	pinchBegin       = 27
	pinchUpdate      = 28
	pinchEnd         = 29
	eventGeneric     = 35  // X11, extension "Generic Event": an event longer than 32 bytes
	pinchBytes       = 100 // a pinch's event, of which the last word are its flags
	pinchCancelled   = 1   // the flag XIGesturePinchEventCancelled
	mostEventBytes   = 1 << 20
)

// Pinches calls each with every pinch over a window, one after the other, until ctx ends or
// the connection does. It makes a socket of its own, beside the client library, which can't
// read events of this length. Errors wrap ErrNoPinches where there are none to be had, and
// else what Probe's do.
func Pinches(ctx context.Context, display string, window uint32, each func(Pinch)) error {
	name, err := parseDisplay(display)
	if err != nil {
		return fmt.Errorf("connect to display %q: %w", display, err)
	}
	nc, _, err := handshake(ctx, name)
	if err != nil {
		return fmt.Errorf("connect to display %q: %w", display, err)
	}
	defer nc.Close()
	_, err = wait(ctx, nc, func() (struct{}, error) {
		major, err := askForPinches(nc, window)
		if err != nil {
			return struct{}{}, err
		}
		return struct{}{}, readPinches(nc, major, each)
	})
	return fmt.Errorf("pinches on display %q: %w", display, err)
}

// askForPinches asks the server to tell of pinches over the window. It returns the
// extension's number.
func askForPinches(nc net.Conn, window uint32) (major byte, err error) {
	found, err := queryExtensions(nc, []string{inputExtension})
	if err != nil {
		return 0, err
	}
	if len(found) == 0 {
		return 0, ErrNoPinches
	}
	major = found[0].major
	request := []byte{major, opQueryVersion, 2, 0, 2, 0, 4, 0} // two words: version 2.4
	if _, err := nc.Write(request); err != nil {
		return 0, err
	}
	reply, err := readMessage(nc)
	for err == nil && reply[0] > 1 {
		reply, err = readMessage(nc)
	}
	if err != nil {
		return 0, err
	}
	if v := binary.LittleEndian.Uint16(reply[8:])<<8 | binary.LittleEndian.Uint16(reply[10:]); reply[0] == 0 || v < 2<<8|4 {
		return 0, ErrNoPinches
	}
	request = []byte{major, opSelectEvents, 5, 0}
	request = binary.LittleEndian.AppendUint32(request, window)
	request = append(request, 1, 0, 0, 0, allMasterDevices, 0, 1, 0) // one mask, of one word
	request = binary.LittleEndian.AppendUint32(request, 1<<pinchBegin|1<<pinchUpdate|1<<pinchEnd)
	_, err = nc.Write(request)
	return major, err
}

// readPinches reads what the server sends until it sends no more. An error that it sends is
// the answer to what was asked last.
func readPinches(r io.Reader, major byte, each func(Pinch)) error {
	for {
		message, err := readMessage(r)
		if err != nil {
			return err
		}
		if message[0] == 0 {
			return fmt.Errorf("%w: error %d", ErrNoPinches, message[1])
		}
		if p, ok := parsePinch(message, major); ok {
			each(p)
		}
	}
}

// readMessage reads one error, reply or event, 32 bytes and more.
func readMessage(r io.Reader) ([]byte, error) {
	message := make([]byte, 32)
	if _, err := io.ReadFull(r, message); err != nil {
		return nil, err
	}
	if message[0] != 1 && message[0]&0x7f != eventGeneric {
		return message, nil
	}
	more := 4 * int64(binary.LittleEndian.Uint32(message[4:]))
	if more > mostEventBytes {
		return nil, fmt.Errorf("a message of %d bytes", more)
	}
	message = append(message, make([]byte, more)...)
	_, err := io.ReadFull(r, message[32:])
	return message, err
}

// parsePinch reads an event; false for those that are no pinch, or make no sense.
func parsePinch(event []byte, major byte) (Pinch, bool) {
	if len(event) < pinchBytes || event[0]&0x7f != eventGeneric || event[1] != major {
		return Pinch{}, false
	}
	kind := binary.LittleEndian.Uint16(event[8:])
	if kind < pinchBegin || kind > pinchEnd {
		return Pinch{}, false
	}
	fixed := func(at int) float64 { // 16 digits of two after the point
		return float64(int32(binary.LittleEndian.Uint32(event[at:]))) / (1 << 16)
	}
	p := Pinch{
		Phase: PinchPhase(kind - pinchBegin),
		X:     fixed(40), Y: fixed(44), DX: fixed(48), DY: fixed(52), Scale: fixed(64),
	}
	if p.Phase == PinchEnds && binary.LittleEndian.Uint32(event[96:])&pinchCancelled != 0 {
		p.Phase = PinchIsCalledOff
	}
	return p, p.Scale > 0 || p.Phase >= PinchEnds
}
