package capture

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// ICCCM, sections 2.7.1 (STRING is Latin-1) and 4.1.2.5 (WM_CLASS: instance, class, each ended by a zero).
func TestTextIn(t *testing.T) {
	for _, tt := range []struct {
		value       string
		utf8        bool
		title, kind string
	}{
		{"Gr\xfcn", false, "Grün", "Grün"},
		{"Grün", true, "Grün", "Grün"},
		{"a\xffb", true, "ab", "ab"},
		{"painter\x00Painter\x00", false, "painterPainter", "Painter"},
		{"painter\x00", false, "painter", "painter"},
		{"a\x1b]0;b\a\nc", false, "a]0;b c", "a]0;b c"},
	} {
		text := textIn([]byte(tt.value), tt.utf8)
		if title, kind := oneLine(text), classOf(text); title != tt.title || kind != tt.kind {
			t.Errorf("%q is the title %q and the class %q, want %q and %q", tt.value, title, kind, tt.title, tt.kind)
		}
	}
}

// Whatever a window calls itself: its title and its class are one short line of text each, which
// steers no terminal and stays as it is.
func FuzzWindowTexts(f *testing.F) {
	f.Add([]byte("painter\x00Painter\x00"), false)
	f.Add([]byte("\x1b]0;a\a\u009b\u202e\u2028\xff"), true)
	f.Add([]byte(strings.Repeat("e\u0301", mostTitle)), true)
	f.Fuzz(func(t *testing.T, value []byte, isUTF8 bool) {
		text := textIn(value, isUTF8)
		for _, said := range []string{oneLine(text), classOf(text)} {
			odd := func(r rune) bool { return !unicode.IsPrint(r) }
			if !utf8.ValidString(said) || strings.ContainsFunc(said, odd) || utf8.RuneCountInString(said) > mostTitle || oneLine(said) != said {
				t.Errorf("%q is called %q", value, said)
			}
		}
	})
}
