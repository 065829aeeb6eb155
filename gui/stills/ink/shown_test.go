package ink

import (
	"image"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

func TestShown(t *testing.T) {
	for _, tt := range []struct{ source, text, want string }{
		{"Unicode 15, a face above U+FFFF", "soft \U0001F600 edge", "soft □ edge"},
		{"UTS 51, 1.4.5, a family joined by U+200D", "\U0001F468\u200d\U0001F469\u200d\U0001F467", "□"},
		{"UTS 51, 1.4.4, a thumb with a colour of skin", "\U0001F44D\U0001F3FD", "□"},
		{"two faces side by side", "\U0001F600\U0001F600", "□□"},
		{"UAX 15, an accent written apart, as macOS writes names", "cafe\u0301", "café"},
		{"a mark that no letter is joined with", "q\u0301", "q"},
		{"Hebrew, which the typefaces lack", "\u05d0\u05d1", "□□"},
		{"UAX 9, marks of direction", "a\u202eb\u200f", "ab"},
		{"U+FEFF and U+00AD show nothing", "\ufeffsoft\u00aden", "soften"},
		{"a null, a tab, a carriage return", "a\x00b\tc\rd", "a b c d"},
		{"ends of lines", "a\r\nb\nc", "a\nb\nc"},
		{"UAX 14, class GL", "1\u202f2\u20073", "1\u00a02\u00a03"},
		{"bytes that are no UTF-8, a half pair among them", "a\xffb\xed\xa0\x80", "a\ufffdb\ufffd"},
	} {
		if got := Shown(tt.text); got != tt.want {
			t.Errorf("%s: %q is shown as %q, want %q", tt.source, tt.text, got, tt.want)
		}
	}
}

// Whatever text is made of, it is shown in letters that there are, and shown again the same.
func checkShown(t interface{ Errorf(string, ...any) }, text string) {
	shown := Shown(text)
	if !utf8.ValidString(shown) || Shown(shown) != shown {
		t.Errorf("%q is shown as %q, and that as %q", text, shown, Shown(shown))
	}
	for _, r := range shown {
		if r != '\n' && !(Advance(Regular, r) > 0 && Advance(Bold, r) > 0) || r > 0xffff {
			t.Errorf("%q is shown with %q", text, r)
		}
	}
}

func TestShownAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkShown(t, rapid.String().Draw(t, "text")) })
	rapid.Check(t, func(t *rapid.T) { checkShown(t, string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))) })
}

func FuzzShown(f *testing.F) {
	f.Add("soft \U0001F600 e\u0301 \u202e\xff")
	f.Fuzz(func(t *testing.T, text string) { checkShown(t, text) })
}

// What is left off of a text that runs out of a picture would not be seen in it.
func TestLettersIn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zA-Z, \n]{0,80}`).Draw(t, "text")
		at := Pt(rapid.Float64Range(-300, 100).Draw(t, "x"), rapid.Float64Range(-60, 140).Draw(t, "y"))
		size := rapid.Float64Range(6, 40).Draw(t, "size")
		all, part := image.NewRGBA(image.Rect(0, 0, 96, 96)), image.NewRGBA(image.Rect(0, 0, 96, 96))
		mark := Mark{Shapes: Letters(Bold, text, at, size), Grey: LightGrey, Rim: size / 9}
		new(Drawer).Draw(all, all.Rect, []Mark{mark})
		mark.Shapes = LettersIn(all.Rect, Bold, text, at, size)
		new(Drawer).Draw(part, part.Rect, []Mark{mark})
		for i := range all.Pix { // the rasterizer rounds by where a mark begins
			if d := int(all.Pix[i]) - int(part.Pix[i]); d < -4 || d > 4 {
				t.Fatalf("%q at %v looks different at %d: %d, not %d", text, at, i/4, part.Pix[i], all.Pix[i])
			}
		}
	})
	long := strings.Repeat("softer edge here, please ", 160)
	if n, all := len(LettersIn(image.Rect(0, 0, 400, 300), Bold, long, Pt(0, 100), 18)), len(Letters(Bold, long, Pt(0, 100), 18)); n*20 > all {
		t.Errorf("of %d shapes %d are drawn", all, n)
	}
}
