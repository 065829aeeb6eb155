package families_test

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/scenetest"
)

// A family's places show its colours: a spot set there reads what the family says, as near
// as a painter would ask.
func TestFamilyPlacesShowTheirSides(t *testing.T) {
	paintsManyScenes(t)
	all, off := 0, 0
	for _, name := range scenetest.Names() {
		s := scenetest.Named(name)
		for _, f := range families.Find(s.Pixels(), nil, families.DefaultRules()).List {
			for _, side := range []analysis.Spot{f.Light, f.Shadow} {
				read, err := analysis.ReadSpot(s.Pixels(), *side.X, *side.Y, *side.Size)
				if err != nil {
					t.Fatal(err)
				}
				all++
				if d := math.Abs(read.Lightness - side.Lightness); d > 1.5 {
					off++
					t.Logf("%s: a side of lightness %.1f reads %.1f at its place", name, side.Lightness, read.Lightness)
				}
			}
		}
	}
	if 50*off > all { // grain and patterns may stand in the way in one of fifty
		t.Errorf("%d of %d places are off", off, all)
	}
}
