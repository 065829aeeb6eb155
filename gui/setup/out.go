package setup

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Out is what isn't counted, in the coordinates of Source.Region.
type Out struct {
	Areas     []image.Rectangle // left out by hand
	Workspace []image.Rectangle // around the canvas: the last one that was left out
	Seeds     []analysis.Seed   // colours with what hangs together with them
	Tones     []float64         // lightness, L*: of stills that were kept by an older program
}

// Same reports whether two are the same one; what they hold is never written to.
func (o Out) Same(other Out) bool {
	return sameSlice(o.Areas, other.Areas) && sameSlice(o.Workspace, other.Workspace) &&
		sameSlice(o.Seeds, other.Seeds) && sameSlice(o.Tones, other.Tones)
}

func sameSlice[T any](a, b []T) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }

// LeavingOut returns the setup with one area more left out.
func (s Setup) LeavingOut(area image.Rectangle) Setup {
	s.Areas = append(slices.Clip(s.Areas), area)
	return s
}

// LeavingOutWorkspace returns the setup with what of bounds lies around a canvas left out, in
// the place of any other workspace.
func (s Setup) LeavingOutWorkspace(bounds, canvas image.Rectangle) Setup {
	s.Workspace = analysis.Around(bounds, canvas)
	return s
}

// LeavingOutColour returns the setup with one colour more left out, where it hangs together.
// There are analysis.MostSeeds at most: then the oldest is counted again.
func (s Setup) LeavingOutColour(seed analysis.Seed) Setup {
	s.Seeds = append(slices.Clip(s.Seeds[max(0, len(s.Seeds)+1-analysis.MostSeeds):]), seed)
	return s
}

// WithWithin returns the setup with all colours left out up to another distance.
func (s Setup) WithWithin(distance float64) Setup {
	s.Seeds = slices.Clone(s.Seeds)
	for i := range s.Seeds {
		s.Seeds[i].Within = distance
	}
	return s
}

// CountingAll returns the setup with nothing left out.
func (s Setup) CountingAll() Setup {
	s.Out = Out{}
	return s
}

// ToneReach is how far around a lightness is left out with it, in L* (common practice, no
// source).
const ToneReach = 1.0

// Mask sets dst to what isn't counted of a picture whose top left lies at origin, where
// covered hides a part of it, but for what is grown from the seeds.
func (s Setup) Mask(dst *analysis.Mask, origin image.Point, covered image.Rectangle) {
	dst.Areas = dst.Areas[:0]
	for _, areas := range [2][]image.Rectangle{s.Areas, s.Workspace} {
		for _, area := range areas {
			dst.Areas = append(dst.Areas, area.Sub(origin))
		}
	}
	if !covered.Empty() {
		dst.Areas = append(dst.Areas, covered.Sub(origin))
	}
	dst.Lightness = [256]bool{}
	for _, lightness := range s.Tones {
		from, to := toneBins(lightness)
		for bin := from; bin <= to; bin++ {
			dst.Lightness[bin] = true
		}
	}
}

// toneBins returns the first and the last bin left out around a lightness.
func toneBins(lightness float64) (from, to int) {
	return colour.BinOf(max(lightness-ToneReach, 0)), colour.BinOf(min(lightness+ToneReach, 100))
}

// LeavesOut reports whether anything is left out.
func (s Setup) LeavesOut() bool {
	return len(s.Areas)+len(s.Workspace)+len(s.Seeds)+len(s.Tones) > 0
}
