package widgets

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// A text is cut to as much as fits, with an ellipsis; what fits is left alone.
func TestCutTo(t *testing.T) {
	test.NewTempApp(t)
	for _, text := range []string{"", "a", "short", "a short sentence.", strings.Repeat("W", 14) + "ll", strings.Repeat("word ", 9), strings.Repeat("ш", 200), strings.Repeat("x", 10_000)} {
		for _, width := range []float32{1, 30, 100, 180, smallWidth(text)} {
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

// heldUp is how long a long text may hold up the window, and noise how many times longer the
// quickest of some tries may take on a machine that others use too (our choices).
const (
	heldUp = 100 * time.Millisecond
	noise  = 8
)

// quickest returns how long the quickest of some tries took.
func quickest(try func(k int)) time.Duration {
	least := time.Hour
	for k := range 5 {
		begun := time.Now()
		try(k)
		least = min(least, time.Since(begun))
	}
	return least
}

// pasted pastes another text of n letters of an alphabet every time, and draws it: what was
// measured before costs nothing.
func pasted(e *Entry, on fyne.Canvas, alphabet string, n int) {
	letters, text := []rune(alphabet), make([]rune, n)
	for i := range text {
		text[i] = letters[rand.IntN(len(letters))]
	}
	clipboard := fyne.CurrentApp().Clipboard()
	clipboard.SetContent(string(text))
	e.SetText("")
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clipboard})
	on.Capture()
}

// alphabets of words, of wide letters without an end of a word, and of what the carried typeface
// lacks.
const (
	inWords = "soft  edges, light  by dark "
	wide    = "WMÄ"
	emoji   = "\U0001F600\U0001F601\U0001F602\U0001F3A8\U0001F317"
)

// Long texts don't hold up the window: cut letter by letter one of 10,000 took half a minute,
// and a message of as many three seconds.
func TestLongTextsAreQuick(t *testing.T) {
	item, bar := NewStillItem(), NewMessages(nil, nil)
	name := NewEntry(new(heardKeys), "")
	shown := shownIn(t, container.NewVBox(item, container.NewGridWrap(fyne.NewSize(360, 200), bar), name), 660, 400).Canvas()
	for what, try := range map[string]func(k int){
		"the lines of a still": func(k int) {
			long := strconv.Itoa(k) + strings.Repeat("long letters ", 770)
			item.Set(long, long, nil, true)
		},
		"a message": func(k int) {
			bar.Set(nil, Message{Words: strconv.Itoa(k) + strings.Repeat("long letters ", 770)}, Message{})
		},
		"a name of wide letters": func(int) { pasted(name, shown, wide, 200) },
		"a name of emoji":        func(int) { pasted(name, shown, emoji, 200) },
	} {
		if took := quickest(try); took > noise*heldUp {
			t.Errorf("%s: it took %v", what, took)
		}
	}
}

// BenchmarkNotePasted pastes as much as a note may have. To be reached: 100 ms.
func BenchmarkNotePasted(b *testing.B) {
	for what, alphabet := range map[string]string{"words": inWords, "wide": wide, "emoji": emoji} {
		b.Run(what, func(b *testing.B) {
			test.NewTempApp(b)
			e := NewTextEntry(new(heardKeys), "")
			e.Most = func() int { return 4000 }
			w := test.NewTempWindow(b, container.NewVBox(e))
			w.Resize(fyne.NewSize(340, 400))
			for b.Loop() {
				pasted(e, w.Canvas(), alphabet, 4000)
			}
		})
	}
}

func BenchmarkCutTo(b *testing.B) { // budget: 1 ms
	test.NewTempApp(b)
	long := strings.Repeat("long letters ", 770)
	for b.Loop() {
		cutTo(long, stillWide)
	}
}
