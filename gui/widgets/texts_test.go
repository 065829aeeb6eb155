package widgets

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
)

// A text is cut to as much as fits, with an ellipsis; what fits is left alone.
func TestCutTo(t *testing.T) {
	test.NewTempApp(t)
	for _, text := range []string{"", "a", "short", strings.Repeat("word ", 9), strings.Repeat("ш", 200), strings.Repeat("x", 10_000)} {
		for _, width := range []float32{1, 30, 100, 180} {
			got := cutTo(text, width)
			kept := len([]rune(strings.TrimSuffix(got, "…")))
			switch {
			case smallWidth(text) <= width:
				if got != text {
					t.Errorf("%.9q in %g becomes %q", text, width, got)
				}
			case kept > 0 && (smallWidth(got) > width || !strings.HasPrefix(text, strings.TrimSuffix(got, "…"))):
				t.Errorf("%.9q in %g becomes %q", text, width, got)
			case smallWidth(string([]rune(text)[:kept+1])+"…") <= width:
				t.Errorf("%.9q in %g becomes %q, and one more would fit", text, width, got)
			}
		}
	}
}

// Long texts don't hold up the window: cut letter by letter one of 10,000 took half a minute,
// and a message of as many three seconds.
func TestLongTextsAreQuick(t *testing.T) {
	test.NewTempApp(t)
	long := strings.Repeat("long letters ", 770)
	item, bar := NewShelfItem(), NewMessageBar(nil, func() {})
	begun := time.Now()
	item.Set([]string{long, long, long}, nil)
	bar.Set(long, "Close", func() {})
	bar.MinSize()
	if took := time.Since(begun); took > time.Second { // on a busy machine; 100 ms is the aim
		t.Errorf("it took %v", took)
	}
}

func BenchmarkCutTo(b *testing.B) { // budget: 1 ms
	test.NewTempApp(b)
	long := strings.Repeat("long letters ", 770)
	for b.Loop() {
		cutTo(long, shelfWidth-Step)
	}
}
