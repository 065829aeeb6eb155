package wire

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// ErrDamaged: bytes that are no message, or arguments that are none of what was to come.
var ErrDamaged = errors.New("damaged message")

var order = binary.NativeEndian

const (
	head = 8         // bytes before the arguments
	most = 1<<16 - 1 // bytes of a message: its size has 16 bits
	word = 4         // bytes of a number, and what all else is filled up to
)

// Message is one message: a request to an object, or an event of one.
type Message struct {
	Object uint32
	Op     uint16 // the number of the request or event, in its interface
	Body   []byte // the arguments, whole words
}

// Cut takes the first message off bytes. While it is not all there ok is false. The error wraps ErrDamaged.
func Cut(b []byte) (m Message, rest []byte, ok bool, err error) {
	if len(b) < head {
		return m, b, false, nil
	}
	size := int(order.Uint32(b[word:]) >> 16)
	if size < head || size%word != 0 {
		return m, b, false, fmt.Errorf("%w: %d bytes", ErrDamaged, size)
	}
	if len(b) < size {
		return m, b, false, nil
	}
	return Message{Object: order.Uint32(b), Op: uint16(order.Uint32(b[word:])), Body: b[head:size:size]}, b[size:], true, nil
}

// Bytes is the message as it is sent.
func (m Message) Bytes() ([]byte, error) {
	size := head + len(m.Body)
	if size > most || size%word != 0 {
		return nil, fmt.Errorf("%w: %d bytes", ErrDamaged, size)
	}
	b := order.AppendUint32(make([]byte, 0, size), m.Object)
	b = order.AppendUint32(b, uint32(size)<<16|uint32(m.Op))
	return append(b, m.Body...), nil
}

// New begins a message without arguments.
func New(object uint32, op uint16) Message { return Message{Object: object, Op: op} }

// Uint adds a number without a sign, or the number of an object.
func (m Message) Uint(v ...uint32) Message {
	for _, n := range v {
		m.Body = order.AppendUint32(m.Body, n)
	}
	return m
}

// Int adds numbers with a sign.
func (m Message) Int(v ...int32) Message {
	for _, n := range v {
		m = m.Uint(uint32(n))
	}
	return m
}

// Text adds a text.
func (m Message) Text(s string) Message { return m.Array(append([]byte(s), 0)) }

// Array adds bytes.
func (m Message) Array(b []byte) Message {
	m = m.Uint(uint32(len(b)))
	m.Body = append(m.Body, b...)
	for len(m.Body)%word != 0 {
		m.Body = append(m.Body, 0)
	}
	return m
}
