package pod

import (
	"encoding/binary"
	"errors"
)

// Numbers of types, choices, objects, parameters, keys and values. Source: PipeWire 0.3.65, SPA, spa/utils/type.h, spa/pod/pod.h, spa/param/param.h,
// spa/param/format.h, spa/param/video/raw.h, spa/param/buffers.h, spa/buffer/buffer.h, meta.h.
const (
	TypeID, TypeInt, TypeRectangle, TypeFraction, TypeObject, TypeChoice = 3, 4, 10, 11, 15, 19

	ChoiceNone, ChoiceRange, ChoiceEnum, ChoiceFlags = 0, 1, 3, 4

	ObjectFormat, ObjectBuffers, ObjectMeta = 0x40003, 0x40004, 0x40005

	ParamEnumFormat, ParamFormat, ParamBuffers, ParamMeta = 3, 4, 5, 6

	KeyMediaType, KeyMediaSubtype                          = 1, 2
	KeyVideoFormat, KeyVideoSize, KeyVideoRate             = 0x20001, 0x20003, 0x20004
	KeyBuffers, KeyBlocks, KeySize, KeyStride, KeyDataType = 1, 2, 3, 4, 6
	KeyMetaType, KeyMetaSize                               = 1, 2

	MediaVideo, MediaRaw = 2, 1

	DataMemPtr, DataMemFd = 1, 2

	MetaHeader, MetaCrop         = 1, 2
	MetaHeaderSize, MetaCropSize = 32, 16
)

// Pod is a value as it is sent: its size and its type, four bytes each, and the value, padded to
// eight bytes. Source: SPA, spa/pod/pod.h.
type Pod []byte

// Order is the order of bytes in it: this machine's, since both ends are on it.
var Order = binary.NativeEndian

// Err: the bytes are not a value.
var Err = errors.New("not a value of the pictures' server")

// build puts a value of a type together.
func build(kind uint32, body []byte) Pod {
	p := Pod(Order.AppendUint32(nil, uint32(len(body))))
	p = append(Order.AppendUint32(p, kind), body...)
	for len(p)%8 != 0 {
		p = append(p, 0)
	}
	return p
}

// words are whole numbers one after the other.
func words(of ...uint32) (b []byte) {
	for _, w := range of {
		b = Order.AppendUint32(b, w)
	}
	return b
}

// ID is the number of something, Int a number.
func ID(v uint32) Pod  { return build(TypeID, words(v)) }
func Int(v uint32) Pod { return build(TypeInt, words(v)) }

// Choice is a choice among values of size bytes each: of a range the one to begin with, the least
// and the greatest; of others the one that is liked best, then all.
func Choice(choice, kind, size uint32, values ...uint32) Pod {
	return build(TypeChoice, append(words(choice, 0, size, kind), words(values...)...))
}

// Property is one key of an object with its value.
type Property struct {
	Key   uint32
	Value Pod
}

// With is a property.
func With(key uint32, value Pod) Property { return Property{key, value} }

// Object is a set of properties, of a type, for a parameter.
func Object(kind, id uint32, of ...Property) Pod {
	body := words(kind, id)
	for _, p := range of {
		body = append(append(body, words(p.Key, 0)...), p.Value...)
	}
	return build(TypeObject, body)
}

// Cut takes the first value off: its type, its body, and what comes after it.
func (p Pod) Cut() (kind uint32, body, after []byte, err error) {
	if len(p) < 8 {
		return 0, nil, nil, Err
	}
	size := uint64(Order.Uint32(p))
	if size > uint64(len(p)-8) {
		return 0, nil, nil, Err
	}
	whole := min((8+size+7)&^7, uint64(len(p)))
	return Order.Uint32(p[4:]), p[8 : 8+size], p[whole:], nil
}

// Settled returns what a choice that leaves none stands for, and anything else as it is.
func Settled(kind uint32, value []byte) (uint32, []byte) {
	if kind != TypeChoice || len(value) < 16 || Order.Uint32(value) != ChoiceNone {
		return kind, value
	}
	return Order.Uint32(value[12:]), value[16:]
}
