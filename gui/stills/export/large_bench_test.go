//go:build unix

package export

import (
	"io"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/sheet"
)

// large is a painting of a size, with so many notes of a kind of fifty letters.
func large(w, h, n int, shape func(at ink.Point) notes.Shape) SheetSubject {
	s := said("large", "", "")
	s.Picture, s.Notes = analysistest.Painting(w, h, analysis.RGBA), nil
	r := rand.New(rand.NewPCG(1, 2))
	for range n {
		at := ink.Pt(r.Float64()*float64(w), r.Float64()*float64(h))
		s.Notes = append(s.Notes, notes.New(shape(at), "softer edge here, please, and a darker shadow side"))
	}
	return s
}

// BenchmarkLarge hands a large picture on. Budget: 2 s.
func BenchmarkLarge(b *testing.B) {
	label := func(at ink.Point) notes.Shape { return notes.Label{At: at, Size: 40} }
	spot := func(at ink.Point) notes.Shape {
		return notes.Spot{At: at, Reading: analysis.SpotOf(colour.RGB{R: 200, G: 190, B: 180})}
	}
	for _, bb := range []struct {
		name, ending string
		s            func() SheetSubject
	}{
		{"8000x2000, no notes", ".ora", func() SheetSubject { return large(8000, 2000, 0, nil) }},
		{"8000x2000, 1000 labels", ".ora", func() SheetSubject { return large(8000, 2000, notes.Most, label) }},
		{"8000x2000, 1000 spots", ".ora", func() SheetSubject { return large(8000, 2000, notes.Most, spot) }},
		{"8000x8000", ".pdf", func() SheetSubject { return large(8000, 8000, 0, nil) }},
		{"8000x8000", ".png", func() SheetSubject { return large(8000, 8000, 0, nil) }},
		{"8000x8000, 1000 labels", ".pdf", func() SheetSubject { return large(8000, 8000, notes.Most, label) }},
	} {
		b.Run(bb.name+bb.ending, func(b *testing.B) {
			s := bb.s()
			b.ReportAllocs()
			b.ResetTimer()
			start := analysistest.Processor()
			for b.Loop() {
				if err := (Export{Page: sheet.A4}).write(io.Discard, bb.ending, s); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric((analysistest.Processor()-start).Seconds()/float64(b.N), "processor-s/op")
		})
	}
}
