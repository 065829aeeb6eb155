package profile

import (
	"encoding/binary"
	"strings"
	"unicode"
	"unicode/utf16"
)

// nameless is the name of a profile that doesn't give itself one.
const nameless = "colour profile"

// longestName is how many letters of a name are kept (our choice).
const longestName = 60

// name returns the name that a profile gives itself, in one line.
func (f file) name() string {
	tag, ok := f.tag("desc")
	if !ok || len(tag) < 12 {
		return nameless
	}
	text := ""
	switch string(tag[:4]) {
	case "desc": // ICC2, 6.5.17: a count, and as many letters of ASCII
		if count := uint64(binary.BigEndian.Uint32(tag[8:])); 12+count <= uint64(len(tag)) {
			text, _, _ = strings.Cut(string(tag[12:12+count]), "\x00")
		}
	case "mluc": // ICC4, 10.15: of several languages we take the first
		if len(tag) >= 28 && binary.BigEndian.Uint32(tag[8:]) > 0 {
			size, from := uint64(binary.BigEndian.Uint32(tag[20:])), uint64(binary.BigEndian.Uint32(tag[24:]))
			if from+size <= uint64(len(tag)) {
				text = utf16Text(tag[from : from+size])
			}
		}
	}
	return oneLine(text)
}

func utf16Text(b []byte) string {
	b = b[:min(len(b), 4*longestName)&^1]
	codes := make([]uint16, len(b)/2)
	for i := range codes {
		codes[i] = binary.BigEndian.Uint16(b[2*i:])
	}
	return string(utf16.Decode(codes))
}

// oneLine keeps what may stand in a sentence.
func oneLine(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) && r != unicode.ReplacementChar {
			return r
		}
		return ' '
	}, strings.ToValidUTF8(text, ""))
	letters := []rune(strings.Join(strings.Fields(text), " "))
	if len(letters) == 0 {
		return nameless
	}
	return string(letters[:min(len(letters), longestName)])
}
