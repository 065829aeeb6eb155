package light_test

import (
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/scenetest"
)

// Budget: a quarter of the search for local colours, which is 60 ms.
func BenchmarkLight(b *testing.B) { // a painted scene with several forms
	benchmark(b, scenetest.OneLight(scenetest.FirstOpen, false).Pixels())
}
func BenchmarkLightOfPainting(b *testing.B) {
	benchmark(b, analysistest.Painting(1920, 1080, analysis.BGRX))
}

func benchmark(b *testing.B, p analysis.Pixels) {
	found, cells := families.Find(p, nil, families.DefaultRules()), light.Take(p, nil)
	b.ReportAllocs()
	for b.Loop() {
		light.OfPicture(found, cells, func(int) bool { return true }, light.DefaultOptions())
	}
}
