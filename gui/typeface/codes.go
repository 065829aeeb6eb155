package typeface

import (
	"encoding/binary"
	"maps"
	"slices"
)

// Kinds of lists of codes (OTF, cmap): of up to 16 bits, and of any.
const (
	formatShort = 4
	formatLong  = 12
)

// mostCodes is how many codes a typeface may list: every number of a sign is one of 16 bits.
const mostCodes = 0xffff

// readCodes returns the number of the sign of each code, from the longest list of Unicode's that
// there is.
func readCodes(cmap []byte) (map[rune]uint32, error) {
	var best []byte
	for i := range int(u16(cmap, 2)) {
		entry := cmap[4+8*i:][:8]
		platform, list := u16(entry, 0), cmap[u32(entry, 4):]
		if platform != 0 && platform != 3 { // Unicode, Windows
			continue
		}
		if format := u16(list, 0); format == formatLong || format == formatShort && best == nil {
			best = list
		}
	}
	switch {
	case best == nil:
		return nil, ErrUnknown
	case u16(best, 0) == formatLong:
		return longCodes(best)
	}
	return shortCodes(best)
}

func longCodes(list []byte) (map[rune]uint32, error) {
	codes := map[rune]uint32{}
	for i := range int(u32(list, 12)) {
		group := list[16+12*i:][:12]
		first, last, number := u32(group, 0), u32(group, 4), u32(group, 8)
		if last < first || int(last-first)+len(codes) > mostCodes {
			return nil, ErrUnknown
		}
		for c := first; c <= last; c++ {
			codes[rune(c)] = number + c - first
		}
	}
	return codes, nil
}

// shortCodes reads parts of codes that follow each other: their signs' numbers do too, or are
// listed apart.
func shortCodes(list []byte) (map[rune]uint32, error) {
	codes := map[rune]uint32{}
	parts := int(u16(list, 6)) / 2
	ends, starts := list[14:], list[16+2*parts:]
	deltas, apart := list[16+4*parts:], list[16+6*parts:]
	for i := range parts {
		first, last, delta, offset := u16(starts, 2*i), u16(ends, 2*i), u16(deltas, 2*i), u16(apart, 2*i)
		if last < first {
			return nil, ErrUnknown
		}
		for c := int(first); c <= int(last) && c < mostCodes; c++ {
			number := uint16(c)
			if offset != 0 {
				number = u16(apart, 2*i+int(offset)+2*(c-int(first)))
			}
			if number != 0 || offset == 0 {
				number += delta
			}
			if number != 0 {
				codes[rune(c)] = uint32(number)
			}
		}
	}
	return codes, nil
}

// writeCodes returns the table of one list of any codes.
func writeCodes(codes map[rune]uint32) []byte {
	type run struct{ first, last, number uint32 }
	var runs []run
	for _, c := range slices.Sorted(maps.Keys(codes)) {
		at, number := uint32(c), codes[c]
		if n := len(runs); n > 0 && runs[n-1].last+1 == at && runs[n-1].number+at-runs[n-1].first == number {
			runs[n-1].last = at
			continue
		}
		runs = append(runs, run{at, at, number})
	}
	out := []byte{0, 0, 0, 1, 0, 3, 0, 10, 0, 0, 0, 12} // version 0, one list: Windows, all of Unicode, from byte 12
	out = append(out, 0, formatLong, 0, 0)
	for _, v := range []uint32{uint32(16 + 12*len(runs)), 0, uint32(len(runs))} {
		out = binary.BigEndian.AppendUint32(out, v)
	}
	for _, r := range runs {
		for _, v := range []uint32{r.first, r.last, r.number} {
			out = binary.BigEndian.AppendUint32(out, v)
		}
	}
	return out
}
