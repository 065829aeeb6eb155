package portal

import (
	"encoding/binary"
	"strings"
)

// wire is the body of a message, little-endian, as far as it was read.
type wire struct {
	body []byte
	at   int
}

// Limits of messages (D-Bus Specification, Marshaling: an array is 64 MiB at most, and containers
// are nested 64 deep).
const (
	mostArray = 64 << 20
	mostDepth = 64
)

// sound reports whether a body is what a bus passes on: values of the signature, with no array or text
// longer than may be, or than what is there. The library (5.1.0) takes the memory that a length says
// before it looks.
func sound(signature string, body []byte) bool {
	w := wire{body: body}
	for signature != "" {
		first := firstType(signature)
		if !w.value(first, 0) {
			return false
		}
		signature = signature[len(first):]
	}
	return true
}

// firstType is the first whole type of a signature; "" where there is none.
func firstType(s string) string {
	depth := 0
	for i, c := range []byte(s) {
		switch c {
		case '(', '{':
			depth++
		case ')', '}':
			depth--
		}
		if depth < 0 {
			return ""
		}
		if depth == 0 && c != 'a' {
			return s[:i+1]
		}
	}
	return ""
}

// take moves past so many bytes, behind those that align the first, and returns them.
func (w *wire) take(align, n int) ([]byte, bool) {
	begin := (w.at + align - 1) / align * align
	if n < 0 || n > len(w.body)-begin {
		return nil, false
	}
	w.at = begin + n
	return w.body[begin:w.at], true
}

// value moves past a value of a type.
func (w *wire) value(of string, depth int) bool {
	if of == "" || depth > mostDepth {
		return false
	}
	switch of[0] {
	case 'y':
		return w.fixed(1)
	case 'n', 'q':
		return w.fixed(2)
	case 'b', 'i', 'u', 'h':
		return w.fixed(4)
	case 'x', 't', 'd':
		return w.fixed(8)
	case 's', 'o':
		n, ok := w.length()
		return ok && w.text(n)
	case 'g', 'v':
		n, ok := w.take(1, 1)
		begin := w.at
		if !ok || !w.text(int(n[0])) {
			return false
		}
		inside := string(w.body[begin : w.at-1])
		return of == "g" || firstType(inside) == inside && w.value(inside, depth+1)
	case 'a':
		return w.array(of[1:], depth)
	case '(', '{':
		return w.members(of[1:len(of)-1], depth)
	}
	return false
}

func (w *wire) fixed(size int) bool {
	_, ok := w.take(size, size)
	return ok
}

func (w *wire) length() (int, bool) {
	n, ok := w.take(4, 4)
	if !ok {
		return 0, false
	}
	return int(binary.LittleEndian.Uint32(n)), true
}

// text moves past so many bytes and the zero behind them.
func (w *wire) text(n int) bool {
	_, ok := w.take(1, n+1)
	return ok
}

func (w *wire) array(of string, depth int) bool {
	n, ok := w.length()
	align := 1
	switch {
	case of == "":
		return false
	case strings.IndexByte("({xtd", of[0]) >= 0:
		align = 8
	case strings.IndexByte("biuhsoa", of[0]) >= 0:
		align = 4
	case of[0] == 'n' || of[0] == 'q':
		align = 2
	}
	if !ok || n > mostArray {
		return false
	}
	if _, ok := w.take(align, 0); !ok || n > len(w.body)-w.at {
		return false
	}
	for end := w.at + n; w.at < end; {
		if !w.value(of, depth+1) {
			return false
		}
	}
	return true
}

// members moves past a structure, which has at least one, or an entry.
func (w *wire) members(all string, depth int) bool {
	if _, ok := w.take(8, 0); !ok || all == "" {
		return false
	}
	for all != "" {
		first := firstType(all)
		if !w.value(first, depth+1) {
			return false
		}
		all = all[len(first):]
	}
	return true
}
