package live

import (
	"cmp"
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/setup"
)

// Tracker follows local colours from one search to the next, by their colours and by where
// they lie, also where the picture pans: so rows keep their places and their verdicts don't
// flicker, and what the painter said of one holds. It is used on one goroutine.
type Tracker struct {
	last   Found
	tracks []Track
	ids    int // given so far; none is given twice
}

// Track is a local colour that is followed.
type Track struct {
	ID     int
	Family families.Family // as it was found last, or judged
	Index  int             // of it in the list found last; -1 where it wasn't found
	Sure   bool            // it is listed with its verdict
	Light  image.Point     // places in its sides, in pixels of the source
	Shadow image.Point

	sides  [2][]image.Point // points of its sides where it was found last; see grid
	moved  image.Point      // by how much they have moved since, in steps of the grid
	judged bool
	again  bool // it was not found in the search before either
}

// Limits of the tracker (our choice, no source).
const (
	staysSure      = 0.4  // confidence down to which what was sure stays so
	clearlySurer   = 0.1  // by how much a family must be surer than one in whose place it comes at once
	clearlyLarger  = 1.3  // by how much a family must be larger than the one above it to take its place
	stayedInPlace  = 0.5  // share of its cells that a family has where it was: its colours may be others then
	colourPerPlace = 20.0 // CIEDE2000 that count as much as all of a family's place
)

// Tracks are what is followed, in the order of the list. They are not to be written to, and
// hold until the next change.
func (t *Tracker) Tracks() []Track { return t.tracks }

// Track returns the track with an ID; nil for none.
func (t *Tracker) Track(id int) *Track {
	if i := slices.IndexFunc(t.tracks, func(r Track) bool { return r.ID == id }); i >= 0 {
		return &t.tracks[i]
	}
	return nil
}

// Last is what was found last.
func (t *Tracker) Last() Found { return t.last }

// Forget forgets all, since something else is watched.
func (t *Tracker) Forget() { t.last, t.tracks = Found{}, nil }

// Adopt follows local colours that were judged elsewhere, in a still, and returns them with
// their tracks.
func (t *Tracker) Adopt(list []setup.Judged) []setup.Judged {
	list = slices.Clone(list)
	for i := range list {
		list[i].Track = t.nextID()
	}
	t.Judge(list)
	return list
}

func (t *Tracker) nextID() int {
	t.ids++
	return t.ids
}

// Judge says which local colours are judged: these are followed also while they aren't found.
func (t *Tracker) Judge(judged []setup.Judged) {
	for i := range t.tracks {
		t.tracks[i].judged = false
	}
	for _, j := range judged {
		if r := t.Track(j.Track); r != nil {
			r.judged = true
			continue
		}
		f := families.Of(analysis.SpotOf(j.Light.Colour), analysis.SpotOf(j.Shadow.Colour), families.DefaultRules())
		t.tracks = append(t.tracks, Track{ID: j.Track, Family: f, Index: -1, Light: j.Light.At, Shadow: j.Shadow.At, judged: true})
	}
}

// Drop drops what was not found in the last search and is not judged, and reports whether
// anything was dropped.
func (t *Tracker) Drop() bool {
	n := len(t.tracks)
	t.tracks = slices.DeleteFunc(t.tracks, func(r Track) bool { return r.Index < 0 && !r.judged })
	return len(t.tracks) < n
}

// Take takes what was found and reports whether anything was not found that was before: it
// stays for one search more, since it may be back.
func (t *Tracker) Take(f Found) (missing bool) {
	if f.Found == nil || t.last.Found != nil && f.Source != t.last.Source {
		t.Forget()
	}
	if f.Found == nil {
		return false
	}
	g := gridOf(f)
	t.follow(g)
	taken := t.assign(g)
	var fresh []Track
	for i := range f.List {
		if !taken[i] && t.givesWay(g, i) {
			r := Track{}
			r.goOn(g, i)
			fresh = append(fresh, r)
		}
	}
	t.add(fresh)
	t.order()
	t.last = f
	return slices.ContainsFunc(t.tracks, func(r Track) bool { return r.Index < 0 && !r.judged })
}

// add follows new local colours from now on, whatever their order.
func (t *Tracker) add(fresh []Track) {
	slices.SortFunc(fresh, func(p, q Track) int {
		return cmp.Or(-cmp.Compare(share(p.Family), share(q.Family)), cmp.Compare(p.Light.Y, q.Light.Y), cmp.Compare(p.Light.X, q.Light.X))
	})
	for i := range fresh {
		fresh[i].ID = t.nextID()
	}
	t.tracks = append(t.tracks, fresh...)
}

// follow moves the tracks by as much as the picture has panned. Where it has another size, only
// the places of their sides are known.
func (t *Tracker) follow(g *grid) {
	f, last := g.found, t.last
	if last.Found == nil || last.Origin != f.Origin || last.Size != f.Size || last.Width != f.Width || last.Height != f.Height {
		for i := range t.tracks {
			t.tracks[i].sides, t.tracks[i].moved = [2][]image.Point{}, image.Point{}
		}
		return
	}
	steps := g.panned(t.tracks, f.List)
	by := g.pixels(steps)
	for i := range t.tracks {
		r := &t.tracks[i]
		r.moved = r.moved.Add(steps)
		r.Light, r.Shadow = r.Light.Add(by), r.Shadow.Add(by)
	}
}

// pairing is a track and a family that may be the same.
type pairing struct {
	track, family int
	score         float64
}

// assign gives the tracks the families that they go on as, the likeliest first, drops what is
// missing again, and reports which families were given away.
func (t *Tracker) assign(g *grid) (taken []bool) {
	f := g.found
	var pairs []pairing
	for i := range t.tracks {
		place := g.places(&t.tracks[i], len(f.List))
		for k := range f.List {
			if score, same := t.tracks[i].likeness(&f.List[k], place[k]); same {
				pairs = append(pairs, pairing{i, k, score})
			}
		}
	}
	slices.SortStableFunc(pairs, func(p, q pairing) int { return cmp.Compare(q.score, p.score) })
	taken = make([]bool, len(f.List))
	for i := range t.tracks {
		r := &t.tracks[i]
		r.again, r.Index = r.Index < 0, -1
	}
	for _, p := range pairs {
		if r := &t.tracks[p.track]; r.Index < 0 && !taken[p.family] {
			taken[p.family] = true
			r.goOn(g, p.family)
		}
	}
	t.tracks = slices.DeleteFunc(t.tracks, func(r Track) bool { return r.Index < 0 && r.again && !r.judged })
	return taken
}

// likeness says how likely a family is the one that is followed, of which it has a share of
// its place; same is false if it is another one.
func (r *Track) likeness(f *families.Family, place float64) (score float64, same bool) {
	apart := setup.Apart(r.Family.Light.Lab, r.Family.Shadow.Lab, f.Light.Lab, f.Shadow.Lab)
	same = apart <= setup.SameColour || place >= stayedInPlace && apart <= setup.StillThere
	return place - apart/colourPerPlace, same
}

// goOn takes family i of what was found as what is followed.
func (r *Track) goOn(g *grid, i int) {
	f := g.found
	r.Family, r.Index = f.List[i], i
	r.Light, r.Shadow = f.placeOf(r.Family.Light), f.placeOf(r.Family.Shadow)
	r.sides, r.moved = g.sides[i], image.Point{}
	r.Sure = r.Family.Sure() || r.Sure && confidence(r.Family) >= staysSure
}

// givesWay reports whether a new family may be followed. One that lies where another was, which
// is only missing, waits until that is dropped; if it is clearly surer the other one is.
func (t *Tracker) givesWay(g *grid, i int) bool {
	sure := confidence(g.found.List[i])
	waits := false
	t.tracks = slices.DeleteFunc(t.tracks, func(r Track) bool {
		if r.Index >= 0 || r.judged || !r.Sure || !g.inPlaceOf(&r, i) {
			return false
		}
		gone := sure >= confidence(r.Family)+clearlySurer
		waits = waits || !gone
		return gone
	})
	return !waits
}

func confidence(f families.Family) float64 {
	if f.Confidence == nil {
		return 1
	}
	return *f.Confidence
}

// Judge is the last word on a track, as it is now.
func (r *Track) Judge(kept bool) setup.Judged {
	return setup.Judged{Track: r.ID, Kept: kept, Light: setup.Side{Colour: r.Family.Light.Colour, At: r.Light}, Shadow: setup.Side{Colour: r.Family.Shadow.Colour, At: r.Shadow}}
}

// ReadsAs reports whether what is read where a track is followed to may still be what is
// followed: painted over, but no other colours.
func (r *Track) ReadsAs(f families.Family) bool {
	return setup.Apart(r.Family.Light.Lab, r.Family.Shadow.Lab, f.Light.Lab, f.Shadow.Lab) <= setup.StillThere
}

// order lets a family that is clearly larger than the one above it take its place: rows that
// change places at every stroke can't be read.
func (t *Tracker) order() {
	for sorted := false; !sorted; {
		sorted = true
		for i := 1; i < len(t.tracks); i++ {
			if share(t.tracks[i].Family) > clearlyLarger*share(t.tracks[i-1].Family) {
				t.tracks[i-1], t.tracks[i] = t.tracks[i], t.tracks[i-1]
				sorted = false
			}
		}
	}
}

// share is how much of the picture a family covers; 0 where that is unknown.
func share(f families.Family) float64 {
	if f.Share == nil {
		return 0
	}
	return *f.Share
}

// placeOf is where a side was found, in pixels of the source.
func (f Found) placeOf(s analysis.Spot) image.Point {
	if s.X == nil || s.Y == nil {
		return f.Origin
	}
	return image.Pt(*s.X, *s.Y).Add(f.Origin)
}
