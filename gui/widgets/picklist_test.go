package widgets

import (
	"runtime"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// A list that holds a word in letters of a square is as wide as with them, and reads no typeface
// for them: that of a system took 20 MB.
func TestPicklistReadsNoTypeface(t *testing.T) {
	test.NewTempApp(t)
	textWidth("as the system") // what is read once
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	p := NewPicklist([]string{"Deutsch", "日本語日本語日本語日本語"}, 0, new(heardKeys), func([]MenuRow, fyne.Position) {}, func(int) {})
	size := p.MinSize()
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; took > 2_000_000 {
		t.Errorf("its size alone took %d bytes", took)
	}
	if want := entrySide + 12*TextSize() + Step/2 + SmallIcon() + Step; size.Width != want {
		t.Errorf("it is %g wide, want %g", size.Width, want)
	}
	for _, words := range []string{"Deutsch", "Español", ""} {
		if unreadWidth(words) != textWidth(words) {
			t.Errorf("%q is %g wide, want %g", words, unreadWidth(words), textWidth(words))
		}
	}
}
