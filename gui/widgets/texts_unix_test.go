//go:build unix

package widgets

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/analysistest"
)

// A note of as many letters as it may have, pasted or one more typed, in a row as the window has it, holds
// up the processor for little: by the clock it would be the other programs' time too. To be reached are
// 100 ms; three times as much is allowed, our choice, since a loaded machine's processor is slower too.
func TestLongNotesAreQuick(t *testing.T) {
	const most = 300 * time.Millisecond
	test.NewTempApp(t)
	e := NewTextEntry(new(heardKeys), "")
	e.Most = func() int { return 4001 }
	w := test.NewTempWindow(t, container.NewVBox(e))
	w.Resize(fyne.NewSize(340, 400))
	for what, alphabet := range map[string]string{"words": inWords, "without a space": wide, "emoji": emoji} {
		all, one := time.Hour, time.Hour
		for range 2 {
			begun := analysistest.Processor()
			pasted(e, w.Canvas(), alphabet, 4000)
			if n := len([]rune(e.Text)); n != 4000 {
				t.Fatalf("%d letters are there", n)
			}
			there := analysistest.Processor()
			e.TypedRune([]rune(alphabet)[1])
			w.Canvas().Capture()
			all, one = min(all, there-begun), min(one, analysistest.Processor()-there)
		}
		if t.Logf("%s: %v, one more %v", what, all, one); max(all, one) > most {
			t.Errorf("%s: it took %v, one more %v", what, all, one)
		}
	}
}
