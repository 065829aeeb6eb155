package stills

import (
	"image"
	"io"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// crowded are as many labels as a still may have, each with as many letters as it may have.
func crowded() []notes.Note {
	text := strings.Repeat("softer edge, ", 308)[:notes.MostText]
	list := make([]notes.Note, notes.Most)
	for i := range list {
		list[i] = notes.New(notes.Label{At: ink.Pt(float64(i%40), float64(20+i)), Size: 14}, text)
	}
	return list
}

// BenchmarkAnnotate draws the labels of the most crowded still. Budget: 1 s, half of what a
// sheet may take.
func BenchmarkAnnotate(b *testing.B) {
	img, list := image.NewRGBA(image.Rect(0, 0, 1920, 1080)), crowded()
	b.ReportAllocs()
	for b.Loop() {
		annotate(img, annotation(img.Rect, 1), list)
	}
}

// BenchmarkHandOn writes the most crowded still in the ways in which labels are drawn. Budget: 2 s.
func BenchmarkHandOn(b *testing.B) {
	p, list := analysis.Pixels{Pix: make([]uint8, 4*1920*1080), Stride: 4 * 1920, Width: 1920, Height: 1080, Layout: analysis.BGRX}, crowded()
	for name, write := range map[string]func() error{
		"png": func() error { return WritePNG(io.Discard, Annotated(p, list)) },
		"ora": func() error { return WriteORA(io.Discard, p, nil, list) },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := write(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
