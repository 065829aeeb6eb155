package typeface

import (
	"encoding/binary"
	"maps"
	"slices"
)

// u16 and u32 read a number of a table at a place.
func u16(b []byte, at int) uint16 { return binary.BigEndian.Uint16(b[at:]) }
func u32(b []byte, at int) uint32 { return binary.BigEndian.Uint32(b[at:]) }

// trueType are the first bytes of a file of one typeface with TrueType outlines (OTF).
const trueType = 0x00010000

// readTables returns a file's tables by their names; they share its bytes.
func readTables(ttf []byte) (map[string][]byte, error) {
	if len(ttf) < 12 || u32(ttf, 0) != trueType {
		return nil, ErrUnknown
	}
	tables := map[string][]byte{}
	for i := range int(u16(ttf, 4)) {
		entry := ttf[12+16*i:][:16]
		from, long := u32(entry, 8), u32(entry, 12)
		tables[string(entry[:4])] = ttf[from:][:long:long]
	}
	for _, needed := range []string{"cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp"} {
		if len(tables[needed]) == 0 {
			return nil, ErrUnknown
		}
	}
	return tables, nil
}

// writeTables returns a file of such tables, with the numbers of the old one's directory that are
// for a search by halving. Sums are left zero: what draws the window doesn't ask for them.
func writeTables(old []byte, tables map[string][]byte) []byte {
	out := slices.Clone(old[:12])
	at := 12 + 16*len(tables)
	var body []byte
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		table := tables[name]
		out = append(out, name...)
		out = binary.BigEndian.AppendUint32(out, 0)
		out = binary.BigEndian.AppendUint32(out, uint32(at+len(body)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(table)))
		body = padded(append(body, table...))
	}
	return append(out, body...)
}

// metric is how far a sign moves the next one, and how far its outline is from its left.
type metric struct {
	advance uint16
	left    int16
}

// face is a typeface's signs by their numbers.
type face struct {
	glyf    []byte
	from    []uint32 // where each begins in glyf, and where the last ends
	metrics []metric
}

func readFace(tables map[string][]byte) *face {
	n := int(u16(tables["maxp"], 4))
	f := &face{glyf: tables["glyf"]}
	loca, long := tables["loca"], u16(tables["head"], 50) == 1
	for i := range n + 1 {
		if long {
			f.from = append(f.from, u32(loca, 4*i))
		} else {
			f.from = append(f.from, 2*uint32(u16(loca, 2*i)))
		}
	}
	hmtx, full := tables["hmtx"], int(u16(tables["hhea"], 34)) // those with an advance of their own
	for i := range n {
		if i < full {
			f.metrics = append(f.metrics, metric{u16(hmtx, 4*i), int16(u16(hmtx, 4*i+2))})
		} else {
			f.metrics = append(f.metrics, metric{f.metrics[full-1].advance, int16(u16(hmtx, 4*full+2*(i-full)))})
		}
	}
	return f
}

// box is around a sign's outline: left, foot, right, head.
func (f *face) box(number uint32) (box [4]int16) {
	outline := f.glyf[f.from[number]:f.from[number+1]]
	for i := range box {
		box[i] = int16(u16(outline, 2+2*i))
	}
	return box
}

// add appends a sign and returns its number.
func (f *face) add(d drawing) uint32 {
	f.glyf = append(padded(slices.Clone(f.glyf[:f.from[len(f.from)-1]])), d.glyph()...)
	f.from[len(f.from)-1] = uint32(len(f.glyf) - len(d.glyph()))
	f.from = append(f.from, uint32(len(f.glyf)))
	left := d.outline[0].x
	for _, p := range d.outline {
		left = min(left, p.x)
	}
	f.metrics = append(f.metrics, metric{d.advance, left})
	return uint32(len(f.metrics) - 1)
}

// write puts the signs back into tables; those that it changes are new ones.
func (f *face) write(tables map[string][]byte) {
	n := uint16(len(f.metrics))
	changed := func(name string, at int, to uint16) {
		tables[name] = slices.Clone(tables[name])
		binary.BigEndian.PutUint16(tables[name][at:], to)
	}
	changed("maxp", 4, n)
	changed("hhea", 34, n)
	changed("head", 50, 1) // long offsets
	var loca, hmtx []byte
	for _, from := range f.from {
		loca = binary.BigEndian.AppendUint32(loca, from)
	}
	for _, m := range f.metrics {
		hmtx = binary.BigEndian.AppendUint16(hmtx, m.advance)
		hmtx = binary.BigEndian.AppendUint16(hmtx, uint16(m.left))
	}
	tables["glyf"], tables["loca"], tables["hmtx"] = f.glyf, loca, hmtx
}
