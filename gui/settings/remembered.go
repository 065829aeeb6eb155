package settings

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/setup"
)

// Remembered is what lies on a picture that was watched: places, and the codes of the colours by
// which local colours and left-out colours are known again. It holds nothing of the picture. Places
// are in the coordinates of setup.Source.Region. Its slices are never written to.
type Remembered struct {
	Watched
	Width       int         `json:"width,omitempty"` // of the picture when it was seen last, in pixels; 0 if unknown
	Height      int         `json:"height,omitempty"`
	Spots       []spotAt    `json:"spots,omitempty"`
	ByHand      []sidesAt   `json:"by_hand,omitempty"` // local colours set by hand
	Focus       []spotAt    `json:"focus,omitempty"`   // where the eye should go
	LeftOut     []areaAt    `json:"left_out,omitempty"`
	Workspace   []areaAt    `json:"workspace,omitempty"`
	Seeds       []colourAt  `json:"left_out_colours,omitempty"`
	Judged      []judgement `json:"local_colours,omitempty"`
	Borders     []float64   `json:"borders,omitempty"` // of the groups, L*, rising
	Target      string      `json:"target,omitempty"`  // path of its file
	TargetStill string      `json:"target_still,omitempty"`
}

// spotAt is a spot, or a measured area.
type spotAt struct {
	X     int     `json:"x"`
	Y     int     `json:"y"`
	Area  *areaAt `json:"area,omitempty"`
	Moved bool    `json:"moved,omitempty"` // said to be lost
}

// sidesAt is a local colour set by hand.
type sidesAt struct {
	Light  spotAt `json:"light"`
	Shadow spotAt `json:"shadow"`
}

type areaAt files.Rect

// colourAt is a place with the colour that it had.
type colourAt struct {
	X      int        `json:"x"`
	Y      int        `json:"y"`
	Colour colour.RGB `json:"colour"`
}

// judgement is what was said of a local colour.
type judgement struct {
	Kept   bool     `json:"kept"`
	Light  colourAt `json:"light"`
	Shadow colourAt `json:"shadow"`
}

// What is remembered of one picture at most. What is left out by hand and said of local colours has
// no limit while it is worked with: what is older than this many is not remembered (our choice).
const (
	mostAreas     = 100
	mostJudged    = 126 // as a still keeps
	mostWorkspace = 4   // sides around a canvas
	mostBorders   = 3   // between four groups
	farthest      = 1 << 20
)

// RememberedOf returns what is to be remembered of a setup whose picture has a size, zero for one
// that is not known; judged is what was said of local colours, with the places of now.
func RememberedOf(s setup.Setup, judged []setup.Judged, size image.Point) Remembered {
	r := Remembered{Watched: WatchedOf(s.Source), Width: size.X, Height: size.Y}
	onIt := slices.DeleteFunc(slices.Clone(s.Places), func(p setup.Place) bool { return p.Fixed != nil }) // the others hold what the screen showed
	r.Spots = newest(onIt, setup.MaxSpots, spotOf)
	r.ByHand = newest(s.Families, setup.MaxManualFamilies, func(f setup.Family) sidesAt { return sidesAt{spotOf(f.Light), spotOf(f.Shadow)} })
	r.Focus = newest(s.Focus, setup.MaxFocus, spotOf)
	r.LeftOut, r.Workspace = newest(s.Areas, mostAreas, areaOf), newest(s.Workspace, mostWorkspace, areaOf)
	r.Seeds = newest(s.Seeds, analysis.MostSeeds, func(seed analysis.Seed) colourAt { return colourAt{seed.At.X, seed.At.Y, seed.Colour} })
	r.Judged = newest(judged, mostJudged, func(j setup.Judged) judgement { return judgement{j.Kept, sideOf(j.Light), sideOf(j.Shadow)} })
	if len(s.Borders) > 0 && bordersRise(s.Borders) {
		r.Borders = s.Borders
	}
	r.Target, r.TargetStill = s.Target.Origin()
	return r
}

// Setup returns a setup with what lies on the picture as it is remembered, in the place of all that
// lay on another; left-out colours reach as far as within. The target is to be read anew.
func (r Remembered) Setup(s setup.Setup, within float64) setup.Setup {
	s = s.Cleared()
	s.Source = r.Source()
	s.Places = each(r.Spots, spotAt.place)
	s.Families = each(r.ByHand, func(f sidesAt) setup.Family { return setup.Family{Light: f.Light.place(), Shadow: f.Shadow.place()} })
	s.Focus = each(r.Focus, spotAt.place)
	s.Areas, s.Workspace = each(r.LeftOut, areaAt.rectangle), each(r.Workspace, areaAt.rectangle)
	s.Seeds = each(r.Seeds, func(c colourAt) analysis.Seed {
		return analysis.Seed{At: image.Pt(c.X, c.Y), Colour: c.Colour, Within: within}
	})
	s.Judged = each(r.Judged, func(j judgement) setup.Judged {
		return setup.Judged{Kept: j.Kept, Light: j.Light.side(), Shadow: j.Shadow.side()}
	})
	s.Borders = r.Borders
	return s
}

// Size is the picture's when it was seen last, in pixels; zero if it is not known.
func (r Remembered) Size() image.Point { return image.Pt(r.Width, r.Height) }

// Empty reports whether there is nothing to remember, or nothing by which it is found again.
func (r Remembered) Empty() bool {
	return r.Watched == (Watched{}) || len(r.Spots)+len(r.ByHand)+len(r.Focus)+len(r.LeftOut)+len(r.Workspace)+
		len(r.Seeds)+len(r.Judged)+len(r.Borders) == 0 && r.Target == "" && r.TargetStill == ""
}

// sound reports whether all of it is as RememberedOf makes it. What isn't comes from outside.
func (r *Remembered) sound() bool {
	one := confineBefore([]Watched{r.Watched})
	return !r.Empty() && len(one) == 1 && one[0].same(r.Watched) &&
		min(r.Width, r.Height) >= 0 && max(r.Width, r.Height) <= farthest &&
		fine(r.Spots, setup.MaxSpots) && fine(r.ByHand, setup.MaxManualFamilies) && fine(r.Focus, setup.MaxFocus) &&
		fine(r.LeftOut, mostAreas) && fine(r.Workspace, mostWorkspace) &&
		fine(r.Seeds, analysis.MostSeeds) && fine(r.Judged, mostJudged) && bordersRise(r.Borders) &&
		plainText(maxPath, "")(r.Target) == r.Target && plainText(maxNote, "")(r.TargetStill) == r.TargetStill
}

// lying is something that lies on a picture.
type lying interface{ near() bool }

// newest returns the newest of a list as they are remembered, without those so far away that no
// picture reaches there.
func newest[T any, L lying](list []T, most int, of func(T) L) []L {
	kept := slices.DeleteFunc(each(list, of), func(v L) bool { return !v.near() })
	return kept[max(0, len(kept)-most):]
}

// fine reports whether a list holds so many at most, and all where a picture may reach.
func fine[L lying](list []L, most int) bool {
	return len(list) <= most && !slices.ContainsFunc(list, func(v L) bool { return !v.near() })
}

func each[T, U any](list []T, of func(T) U) (made []U) {
	for _, v := range list {
		made = append(made, of(v))
	}
	return made
}

func spotOf(p setup.Place) spotAt {
	s := spotAt{X: p.At.X, Y: p.At.Y, Moved: p.Moved}
	if !p.Area.Empty() {
		s.Area = new(areaOf(p.Area))
	}
	return s
}

func (s spotAt) place() setup.Place {
	p := setup.Place{At: image.Pt(s.X, s.Y), Moved: s.Moved}
	if s.Area != nil {
		p.Area = s.Area.rectangle()
	}
	return p
}

func areaOf(r image.Rectangle) areaAt { return areaAt(files.RectOf(r)) }

func (a areaAt) rectangle() image.Rectangle { return (*files.Rect)(&a).Rectangle() }

func sideOf(s setup.Side) colourAt { return colourAt{s.At.X, s.At.Y, s.Colour} }

func (c colourAt) side() setup.Side { return setup.Side{Colour: c.Colour, At: image.Pt(c.X, c.Y)} }

func (s spotAt) near() bool    { return near(s.X, s.Y) && (s.Area == nil || s.Area.near()) }
func (s sidesAt) near() bool   { return s.Light.near() && s.Shadow.near() }
func (c colourAt) near() bool  { return near(c.X, c.Y) }
func (j judgement) near() bool { return j.Light.near() && j.Shadow.near() }
func (a areaAt) near() bool {
	return near(a.X, a.Y) && min(a.Width, a.Height) > 0 && max(a.Width, a.Height) <= farthest
}

// near reports whether a picture may reach to a place.
func near(x, y int) bool { return max(x, y) <= farthest && min(x, y) >= -farthest }

// bordersRise reports whether these can be borders of groups, or there are none.
func bordersRise(borders []float64) bool {
	last := 0.0
	for _, at := range borders {
		if !(at >= last && at <= 100) { // so written that NaN fails too
			return false
		}
		last = at
	}
	return len(borders) <= mostBorders
}
