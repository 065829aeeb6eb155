package export

import (
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/sheet"
)

// wordy returns a subject with many notes, each with as many letters as one may have.
func wordy(n int, shape func(at ink.Point) notes.Shape) SheetSubject {
	s := someSubject()
	s.Notes = nil
	text := strings.Repeat("softer edge here, please ", 160)[:4000]
	r := rand.New(rand.NewPCG(1, 2))
	for range n {
		at := ink.Pt(r.Float64()*float64(s.Picture.Width), r.Float64()*float64(s.Picture.Height))
		s.Notes = append(s.Notes, notes.New(shape(at), text))
	}
	return s
}

func BenchmarkSheet(b *testing.B) {
	for name, shape := range map[string]func(ink.Point) notes.Shape{
		"arrows": func(at ink.Point) notes.Shape { return notes.Arrow{From: at, To: ink.Pt(10, 10), Width: 3} },
		"labels": func(at ink.Point) notes.Shape { return notes.Label{At: at, Size: 14} },
	} {
		s := wordy(2000, shape)
		for _, ending := range []string{".pdf", ".png"} {
			b.Run(fmt.Sprint(name, ending), func(b *testing.B) {
				for b.Loop() {
					if err := (Export{Page: sheet.A4}).write(io.Discard, ending, s); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
