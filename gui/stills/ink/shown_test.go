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

// A text that runs out of a picture looks as it does in one where there is room for all of it.
func TestTextRunsOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Mark{Grey: LightGrey, Rim: rapid.Float64Range(0, 5).Draw(t, "rim"), Text: Text{
			Bold, rapid.StringMatching(`[a-zA-Zgjö, \n]{0,80}`).Draw(t, "text"),
			Pt(rapid.Float64Range(-300, 100).Draw(t, "x"), rapid.Float64Range(-60, 140).Draw(t, "y")),
			rapid.Float64Range(6, 80).Draw(t, "size"),
		}}
		all, part := image.NewRGBA(image.Rect(-256, -128, 512, 192)), image.NewRGBA(image.Rect(0, 0, 96, 96))
		new(Drawer).Draw(all, all.Rect, []Mark{m})
		new(Drawer).Draw(part, part.Rect, []Mark{m})
		for y := range 96 {
			for x := range 96 {
				if got, want := part.RGBAAt(x, y), all.RGBAAt(x, y); got != want {
					t.Fatalf("pixel %d,%d is %v, not %v", x, y, got, want)
				}
			}
		}
	})
	long, n := Text{Bold, strings.Repeat("softer edge here, please ", 160), Pt(0, 100), 18}, 0
	long.each(boxOf(image.Rect(0, 0, 400, 300)), 0, func(letter) { n++ })
	if n < 20 || n > 60 { // 0.4 to 1 of their size wide
		t.Errorf("%d letters are drawn", n)
	}
}

// Stamped a letter looks as it does drawn by itself, where it is a little too large to be stamped.
func TestStampsLookAsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Mark{Grey: 255, Rim: float64(rapid.IntRange(0, 16).Draw(t, "rim")) / 4, RimGrey: 128, Text: Text{
			Face(rapid.IntRange(0, 1).Draw(t, "face")), rapid.StringMatching(`[a-zA-Z0-9ßжΩ&@]`).Draw(t, "letter"),
			Pt(float64(rapid.IntRange(0, 160).Draw(t, "x"))/4, float64(rapid.IntRange(800, 1400).Draw(t, "y"))/4), mostStamped,
		}}
		stamped, drawn := ground(300, 400, 0), ground(300, 400, 0)
		new(Drawer).Draw(stamped, stamped.Rect, []Mark{m})
		m.Text.Size += 1.0 / 1024
		new(Drawer).Draw(drawn, drawn.Rect, []Mark{m})
		for i := range drawn.Pix { // rounded by where the mask begins
			if d := int(drawn.Pix[i]) - int(stamped.Pix[i]); d < -8 || d > 8 {
				t.Fatalf("pixel %d is %d stamped, %d drawn", i/4, stamped.Pix[i], drawn.Pix[i])
			}
		}
	})
}
