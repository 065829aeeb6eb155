package ink

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Lines are no wider than they may be, say all that was said, and are no more than allowed.
func TestWrap(t *testing.T) {
	l := Letters{Regular, 3.2}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zäß ]{0,60}`).Draw(t, "text")
		width := rapid.Float64Range(8, 60).Draw(t, "width")
		most := rapid.IntRange(1, 30).Draw(t, "most")
		lines := l.Wrap(text, width, most)
		if len(lines) > most {
			t.Fatalf("%d lines, %d are allowed", len(lines), most)
		}
		for _, line := range lines {
			if Width(l.Face, line, l.Size) > width+1e-9 {
				t.Fatalf("%q is wider than %g", line, width)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if all := bare(strings.Join(lines, "")); all != bare(text) && !strings.HasSuffix(all, "…") {
			t.Fatalf("%q becomes %q", text, lines)
		}
	})
	if got := l.Wrap("one\ntwo", 50, 9); len(got) != 2 || got[1] != "two" {
		t.Errorf("%q", got)
	}
	// No line ends at a space that forbids it (Unicode, UAX 14, class GL).
	for _, space := range []string{"\u00a0", "\u202f", "\u2007"} {
		text := "apart by 12.5" + space + "tones"
		for width := 20.0; width < 60; width++ {
			whole := slices.ContainsFunc(l.Wrap(text, width, 9), func(line string) bool {
				return strings.HasSuffix(line, Shown("12.5"+space+"tones"))
			})
			if !whole && Width(l.Face, "12.5"+space+"tones", l.Size) <= width {
				t.Errorf("%+q in a width of %g: %q", text, width, l.Wrap(text, width, 9))
			}
		}
	}
}
