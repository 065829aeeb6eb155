package families

import (
	"cmp"
	"slices"

	"app.tonedesk/analysis"
)

// Form is one form of a local colour, which may have several: what hangs together of its light and
// its shadow side. Its JSON names and units are the command line's contract; what can't be known is
// nil.
type Form struct {
	Family int     `json:"family"` // the index of its local colour
	X      float64 `json:"x"`      // its middle, in parts of the picture's width, 0 to 1
	Y      float64 `json:"y"`      // of its height, from the top
	Share  float64 `json:"share"`  // of the counted pixels, 0 to 1

	Edge    *FormEdge    `json:"edge"`    // between its light and its shadow; nil where they don't meet
	Outline *FormOutline `json:"outline"` // nil where none of it can be judged
}

// FormEdge is the edge between the light and the shadow of a form, with the core shadow's accent.
type FormEdge struct {
	Length      float64        `json:"length"`       // in parts of the picture's width
	AccentShare float64        `json:"accent_share"` // of the edge, that has an accent
	LeavesShare float64        `json:"leaves_share"` // of the edge, that has one that leaves the lightness around it
	Accent      *analysis.Spot `json:"accent"`       // its mean colour; nil for none
	Accents     []Stretch      `json:"accents"`      // where it runs
	Leaves      []Stretch      `json:"leaves"`       // where it leaves the lightness, parts of the former
}

// FormOutline is what bounds a form from outside, with the drawn line. What lies at the picture's
// frame, or at what is left out, isn't counted.
type FormOutline struct {
	Length        float64   `json:"length"`                   // in parts of the picture's width
	LineShare     float64   `json:"line_share"`               // of the outline, that has a line
	VanishesLight float64   `json:"vanishes_in_light_share"`  // of the outline, that lies in the light and has none; 0 without a line
	VanishesDark  float64   `json:"vanishes_in_shadow_share"` // in the shadow
	Line          *Line     `json:"line"`                     // nil for none
	Vanishes      []Stretch `json:"vanishes"`                 // where the line vanishes; none without a line
}

// Stretch is a part of an edge or of an outline.
type Stretch struct {
	Length     float64  `json:"length"` // in parts of the picture's width
	From       At       `json:"from"`
	Middle     At       `json:"middle"`
	To         At       `json:"to"`
	Difference *float64 `json:"lightness_difference"` // L*, accent minus the side that is nearer in lightness, the mean; nil for a line
	// Way are the places along it, about a cell apart: to be drawn.
	Way []At `json:"-"`
}

// At is a place in parts of a picture's width and of its height from the top.
type At struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// FormsOf returns those of a family, of all forms.
func FormsOf(all []Form, family int) []Form {
	from, _ := slices.BinarySearchFunc(all, family, func(f Form, k int) int { return cmp.Compare(f.Family, k) })
	to, _ := slices.BinarySearchFunc(all, family+1, func(f Form, k int) int { return cmp.Compare(f.Family, k) })
	return all[from:to]
}

// FindForms finds the families of a picture on its own, as Find does, and their forms.
func FindForms(p analysis.Pixels, mask *analysis.Mask, rules Rules) (*Found, []Form) {
	f := NewFinder()
	defer f.Close()
	f.Take(p, mask)
	found := f.Find(rules)
	return found, f.Forms()
}

// forms is what Finder.Forms works on.
type forms struct {
	rules Rules // of the last Find
	found *Found
	of    []int16 // of each cell: twice its form, plus 1 in the shadow; noForm for none
	deep  []uint8 // cells to the nearest one that the finder is sure to be of the side
	queue []int32
	seen  []uint8 // borders that were followed, by the cell whose left side they run up
	trail trail

	piece   []crack // of an edge
	band    [bandOfThree + 1]station
	oldest  int        // of band
	accents []lightSum // by form

	bounds   []bound    // of an outline
	outlines []outlined // by form
}

// lightSum adds up linear light, in 1/LinearWhite.
type lightSum struct {
	sum   [3]int64
	count int
}

func (s *lightSum) add(light [3]int64) {
	s.count++
	for c := range s.sum {
		s.sum[c] += light[c]
	}
}

// noForm is of a cell that is of no form.
const noForm = -1

// mostForms is how many forms are judged, the largest of each local colour first.
const mostForms = 4096

// Forms judges the forms of what the last Find found: the accent along the whole of their edges,
// and the line around each for itself. Nothing that was found changes. The result is the caller's
// own, in the order of the families, the largest of each first; it is never nil.
func (f *Finder) Forms() []Form {
	list, w := []Form{}, &f.forms
	if w.found == nil || len(w.found.List) == 0 {
		return list
	}
	list = f.fillForms(list)
	w.accents, w.outlines = append(w.accents[:0], make([]lightSum, len(list))...), make([]outlined, len(list))
	w.seen = append(w.seen[:0], make([]uint8, len(w.of))...)
	for i, of := range w.of {
		if of == noForm {
			continue
		}
		if w.begins(f.source.across, int32(i), wholeForm) {
			f.followOutline(list, int32(i))
		}
		if of&1 == 0 && w.begins(f.source.across, int32(i), oneSide) {
			f.followEdge(list, int32(i))
		}
	}
	for i := range list {
		family := &w.found.List[list[i].Family]
		list[i].Outline = f.outline(&w.outlines[i], family)
		if e, sum := list[i].Edge, &w.accents[i]; sum.count > 0 {
			spot := spotOfSum(sum.sum, sum.count)
			spot.PointAtHue()
			e.Accent = &spot
			if e.share(); family.Accent == nil && e.AccentShare < leastAccent {
				*e = FormEdge{Length: e.Length, Accents: []Stretch{}, Leaves: []Stretch{}}
			}
		}
	}
	return list
}

// leastAccent is the part of an edge from which on an accent counts that the whole local colour
// hasn't: less may be a detail (our choice).
const leastAccent = 0.1

// share turns lengths into shares of the edge.
func (e *FormEdge) share() {
	part := func(list []Stretch) (sum float64) {
		for _, s := range list {
			sum += s.Length
		}
		return min(1, sum/e.Length)
	}
	e.AccentShare, e.LeavesShare = part(e.Accents), part(e.Leaves)
}

// gathered is what is counted of a form.
type gathered struct {
	family, n int
	x, y      int64
	root      int32
}

// fillForms lists the forms, and says of each cell of which it is. What is on neither side but
// belongs to a local colour (a half-tone, an accent, a line) is of the side that is nearer.
func (f *Finder) fillForms(list []Form) []Form {
	w, s := &f.forms, &f.source
	blobs := BlobsOf(w.found, nil)
	w.of, w.deep = append(w.of[:0], make([]int16, len(w.found.Map))...), append(w.deep[:0], make([]uint8, len(w.found.Map))...)
	at := map[int32]int{}
	var all []gathered
	last, own := int32(-1), 0
	for i := range w.of {
		w.of[i] = noForm
		part := blobs.At(i)
		if part.Place > InShadow {
			continue
		}
		if root := blobs.Form(int32(i)); root != last {
			k, ok := at[root]
			if !ok {
				k = len(all)
				at[root] = k
				all = append(all, gathered{family: int(part.Family), root: root})
			}
			last, own = root, k
		}
		g := &all[own]
		g.n, g.x, g.y = g.n+1, g.x+int64(i%s.across), g.y+int64(i/s.across)
	}
	least := f.leastArea()
	all = slices.DeleteFunc(all, func(g gathered) bool { return g.n < least })
	slices.SortStableFunc(all, func(p, q gathered) int { return cmp.Or(cmp.Compare(p.family, q.family), cmp.Compare(q.n, p.n)) })
	all = all[:min(len(all), mostForms)]
	clear(at)
	for k, g := range all {
		at[g.root] = k
		list = append(list, Form{
			Family: g.family, Share: float64(g.n) / s.whole,
			X: s.grid.X.Part(float64(g.x)/float64(g.n) + 0.5), Y: s.grid.Y.Part(float64(g.y)/float64(g.n) + 0.5),
		})
	}
	last, own = -1, noForm
	for i := range w.of {
		part := blobs.At(i)
		if part.Place > InShadow {
			continue
		}
		if root := blobs.Form(int32(i)); root != last {
			last, own = root, noForm
			if k, ok := at[root]; ok {
				own = k
			}
		}
		if own != noForm {
			w.of[i] = int16(2*own + int(part.Place))
		}
	}
	f.spread(list)
	return list
}

// spread gives the cells of a local colour that are on neither side to the nearest of its sides.
func (f *Finder) spread(list []Form) {
	w := &f.forms
	w.queue = w.queue[:0]
	free := func(i int32) int { // of which local colour a cell is that is on neither side; -1 for none
		if l := f.areas.label[i]; w.of[i] == noForm && l != noArea {
			return int(f.areas.family[l])
		}
		return -1
	}
	for i := range int32(len(w.of)) {
		if family := free(i); family >= 0 {
			f.around(i, func(k int32) {
				if w.of[i] == noForm && w.of[k] != noForm && w.deep[k] == 0 && list[w.of[k]>>1].Family == family {
					w.of[i], w.deep[i] = w.of[k], 1
					w.queue = append(w.queue, i)
				}
			})
		}
	}
	for at := 0; at < len(w.queue); at++ {
		i := w.queue[at]
		family, deep := list[w.of[i]>>1].Family, min(w.deep[i], 254)+1
		f.around(i, func(k int32) {
			if free(k) == family {
				w.of[k], w.deep[k] = w.of[i], deep
				w.queue = append(w.queue, k)
			}
		})
	}
}
