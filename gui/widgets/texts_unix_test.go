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

// hardTexts are letters of which long notes are hard to lay out, each in its way. What joins, or has no
// typeface, was laid out in minutes once.
var hardTexts = []struct{ what, letters string }{
	{"words", inWords},
	{"without a space", wide},
	{"emoji", emoji},
	{"emoji of many parts", "\U0001F468\u200D\U0001F469\U0001F3FD"},
	{"flags", "\U0001F1E6\U0001F1E7"},
	{"ends of lines", "\n"},
	{"marks over letters", "e\u0301\u0323a\u0308"},
	{"marks alone", "\u0301"},
	{"without width", "\u200B\u200C\u2060"},
	{"from right to left", "ابجدهوز "},
	{"both ways", "\u202Eab\u202Cאב "},
	{"Japanese", "漢字仮名かな"},
	{"Hindi", "किखिगी "},
	{"Thai", "ภาษาไทย"},
	{"tabs", "\t"},
	{"no letters", "\U0010FFFD\uE000"},
	{"control characters", "\u0001\u0002\u007F"},
	{"of all kinds", "a漢\U0001F600ا\u0301\u200DW\n "},
	{"thousands of different ones", allLetters()},
}

func allLetters() string {
	var all []rune
	for r := rune(0x100); r < 0x2000; r += 2 {
		all = append(all, r)
	}
	return string(all)
}

// A note of as many letters as it may have, pasted or one more typed, in a row as the window has it, holds
// up the processor for little: by the clock it would be the other programs' time too. To be reached are
// 100 ms; four times as much is allowed, our choice: a loaded machine's processor is slower too, by half
// at least, and what goes wrong takes seconds. The window's first note of its letters has them measured besides.
func TestLongNotesAreQuick(t *testing.T) {
	const most = 400 * time.Millisecond
	for _, hard := range hardTexts {
		t.Run(hard.what, func(t *testing.T) {
			test.NewTempApp(t)
			clear(letterWidths)
			e := NewTextEntry(new(heardKeys), "")
			e.Most = func() int { return 4002 }
			w := test.NewTempWindow(t, container.NewVBox(e))
			w.Resize(fyne.NewSize(340, 400))
			first, all, one := time.Duration(0), time.Hour, time.Hour
			for try := range 3 {
				begun := analysistest.Processor()
				pasted(e, w.Canvas(), hard.letters, 4000)
				if n := len([]rune(e.Text)); n != 4000 {
					t.Fatalf("%d letters are there", n)
				}
				there := analysistest.Processor()
				e.TypedRune([]rune(hard.letters + hard.letters)[1])
				w.Canvas().Capture()
				if try == 0 {
					first = there - begun
				}
				all, one = min(all, there-begun), min(one, analysistest.Processor()-there)
			}
			if t.Logf("%v, the first %v, one more %v", all, first, one); max(all, one) > most {
				t.Errorf("it took %v, one more %v", all, one)
			}
		})
	}
}
