//go:build unix

package widgets

import (
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// A note of as many letters as it may have holds up the processor for less than half a second, where
// it was 1.2 to 2.4 before lines were broken by known widths: by the clock it would be the other
// programs' time too. What is to be reached says BenchmarkNotePasted.
func TestLongNotesAreQuick(t *testing.T) {
	const most = 500 * time.Millisecond // our choice
	test.NewTempApp(t)
	e := NewTextEntry(new(heardKeys), "")
	w := test.NewTempWindow(t, e)
	w.Resize(fyne.NewSize(340, 400))
	for what, alphabet := range map[string]string{"words": inWords, "without a space": wide, "emoji": emoji} {
		least := time.Hour
		for range 3 {
			begun := processor()
			pasted(e, w.Canvas(), alphabet, 4000)
			least = min(least, processor()-begun)
		}
		if t.Logf("%s: %v", what, least); least > most {
			t.Errorf("%s: it took %v", what, least)
		}
	}
}

// processor is the time of the processor that the program took.
func processor() time.Duration {
	var r syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
