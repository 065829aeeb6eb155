package monitors

import (
	"strings"
	"unicode"
)

// Parts of an EDID's first block, in bytes. Source: EDID, 3.10.
const (
	edidBytes       = 128
	firstDescriptor = 54
	descriptorBytes = 18
	nameTag         = 0xfc // display product name
)

// edidName returns the name that a monitor gives itself; "" where it gives none, or the bytes are no
// EDID. At most 13 letters.
func edidName(edid []byte) string {
	if len(edid) < edidBytes || string(edid[:8]) != "\x00\xff\xff\xff\xff\xff\xff\x00" {
		return ""
	}
	for at := firstDescriptor; at+descriptorBytes < edidBytes; at += descriptorBytes {
		d := edid[at : at+descriptorBytes]
		if d[0] == 0 && d[1] == 0 && d[2] == 0 && d[3] == nameTag {
			name, _, _ := strings.Cut(string(d[5:]), "\n")
			return trimmed(name)
		}
	}
	return ""
}

// longestName is how many letters of a name are kept (our choice).
const longestName = 40

// trimmed makes one line of valid text of a name, without blanks at its ends.
func trimmed(name string) string {
	letters := []rune(strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) && r != unicode.ReplacementChar {
			return r
		}
		return ' '
	}, strings.ToValidUTF8(name, "")))
	letters = letters[:min(len(letters), longestName)]
	return strings.Join(strings.Fields(string(letters)), " ")
}
