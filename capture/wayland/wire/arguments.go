package wire

import (
	"bytes"
	"fmt"
)

// Arguments reads a message's arguments in order. One that is not there is zero, and so are those after
// it; Err tells then.
type Arguments struct {
	rest []byte
	err  error
}

// Arguments begins to read them.
func (m Message) Arguments() *Arguments { return &Arguments{rest: m.Body} }

// Err reports whether all that was read was there; it wraps ErrDamaged.
func (a *Arguments) Err() error { return a.err }

// Uint reads a number without a sign, or the number of an object.
func (a *Arguments) Uint() uint32 {
	b := a.take(word)
	if b == nil {
		return 0
	}
	return order.Uint32(b)
}

// Int reads a number with a sign.
func (a *Arguments) Int() int32 { return int32(a.Uint()) }

// Text reads a text. One that is none ("null") is empty.
func (a *Arguments) Text() string {
	b := a.Array()
	if len(b) == 0 {
		return ""
	}
	if end := bytes.IndexByte(b, 0); end != len(b)-1 {
		a.fail(fmt.Errorf("%w: a text that ends at %d of %d bytes", ErrDamaged, end, len(b)))
		return ""
	}
	return string(b[:len(b)-1])
}

// Array reads bytes, which stay the message's.
func (a *Arguments) Array() []byte {
	size := uint64(a.Uint())
	b := a.take((size + word - 1) / word * word)
	if b == nil {
		return nil
	}
	return b[:size:size]
}

// take takes the next bytes; nil where there are fewer.
func (a *Arguments) take(size uint64) []byte {
	if size > uint64(len(a.rest)) {
		a.fail(fmt.Errorf("%w: %d bytes of %d", ErrDamaged, len(a.rest), size))
		return nil
	}
	b := a.rest[:size]
	a.rest = a.rest[size:]
	return b
}

func (a *Arguments) fail(err error) {
	a.rest = nil
	if a.err == nil {
		a.err = err
	}
}
