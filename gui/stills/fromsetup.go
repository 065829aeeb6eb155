package stills

import (
	"image"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/setup"
)

// kinds are how stills call the kinds of sources.
var kinds = map[setup.SourceKind]string{
	setup.SourceDemo: FromDemo, setup.SourcePicture: FromPicture, setup.SourceRegion: FromScreen,
}

// SourceOf is what a picture with those bounds was taken of, as a still names it.
func SourceOf(from setup.Source, bounds image.Rectangle) Source {
	return Source{Kind: kinds[from.Kind], Path: from.Path, Region: files.RectOf(bounds)}
}

// Parts are the parts that are left out as a setup has them: areas in the picture's pixels,
// and tones in L*.
func (l LeftOut) Parts() (areas []image.Rectangle, tones []float64) {
	for _, a := range l.Areas {
		areas = append(areas, a.Rectangle())
	}
	const reach = setup.ToneReach * colour.BinsPerLightness
	for _, r := range l.Lightness {
		for bin := float64(r[0]) + reach; ; bin += 2 * reach {
			tones = append(tones, min(bin, float64(r[1])-reach)/colour.BinsPerLightness)
			if bin+reach >= float64(r[1]) {
				break
			}
		}
	}
	return areas, tones
}
