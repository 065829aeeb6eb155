package live

import (
	"image"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	_ "app.tonedesk/analysis/lawtest" // how many cases
	"app.tonedesk/gui/setup"
)

// A made-up picture of cells of one colour, of which some are families: cells is its size, and
// a pixel is a cell.
const cellsAcross, cellsDown = 96, 64

// blob is a made-up family: the left half of a square is its light, the right half its shadow.
type blob struct {
	at            image.Point // top left
	side          int
	light, shadow colour.RGB
	confidence    float64
}

// Invented colours, far apart from each other.
var (
	skin  = blob{image.Pt(10, 10), 20, colour.RGB{R: 226, G: 171, B: 133}, colour.RGB{R: 178, G: 106, B: 92}, 0.9}
	coat  = blob{image.Pt(40, 12), 22, colour.RGB{R: 60, G: 150, B: 160}, colour.RGB{R: 30, G: 80, B: 120}, 0.8}
	scarf = blob{image.Pt(70, 40), 16, colour.RGB{R: 220, G: 200, B: 60}, colour.RGB{R: 150, G: 120, B: 30}, 0.7}
)

// foundOf is what a search finds of blobs, in that order, where the picture lies shifted by.
func foundOf(shift image.Point, blobs ...blob) Found {
	f := Found{Found: &families.Found{Width: cellsAcross, Height: cellsDown, Map: make([]uint8, cellsAcross*cellsDown)}, Size: image.Pt(cellsAcross, cellsDown)}
	for _, b := range blobs {
		k := len(f.List)
		var middle [2]image.Point
		cells := 0
		for y := b.at.Y + shift.Y; y < b.at.Y+b.side+shift.Y; y++ {
			for x := b.at.X + shift.X; x < b.at.X+b.side+shift.X; x++ {
				if x < 0 || y < 0 || x >= cellsAcross || y >= cellsDown {
					continue
				}
				side := 0
				if x-b.at.X-shift.X >= b.side/2 {
					side = 1
				}
				f.Map[y*cellsAcross+x] = uint8(4*k + 1 + side)
				middle[side] = image.Pt(x, y)
				cells++
			}
		}
		if cells == 0 {
			continue
		}
		family := families.Of(analysis.SpotOf(b.light), analysis.SpotOf(b.shadow), families.DefaultRules())
		family.Light.X, family.Light.Y = &middle[0].X, &middle[0].Y
		family.Shadow.X, family.Shadow.Y = &middle[1].X, &middle[1].Y
		family.Confidence, family.Share = &b.confidence, new(float64(cells)/(cellsAcross*cellsDown))
		f.List = append(f.List, family)
	}
	return f
}

// followed are the tracks that are listed as sure, by the light colour, in order.
func followed(t *Tracker) (list []colour.RGB) {
	for _, r := range t.Tracks() {
		if r.Sure {
			list = append(list, r.Family.Light.Colour)
		}
	}
	return list
}

// idOf is the track of a blob's colours; 0 for none.
func idOf(t *Tracker, b blob) int {
	for _, r := range t.Tracks() {
		if r.Family.Light.Colour == b.light {
			return r.ID
		}
	}
	return 0
}

// Whatever the order in which a search names them, the same families stand in the same rows.
func TestTrackerKnowsNoOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var tr Tracker
		tr.Take(foundOf(image.Point{}, skin, coat, scarf))
		before, ids := followed(&tr), []int{idOf(&tr, skin), idOf(&tr, coat), idOf(&tr, scarf)}
		tr.Take(foundOf(image.Point{}, rapid.Permutation([]blob{skin, coat, scarf}).Draw(t, "order")...))
		if !slices.Equal(followed(&tr), before) || !slices.Equal([]int{idOf(&tr, skin), idOf(&tr, coat), idOf(&tr, scarf)}, ids) {
			t.Fatalf("rows %v, before %v", followed(&tr), before)
		}
		var first Tracker
		first.Take(foundOf(image.Point{}, rapid.Permutation([]blob{skin, coat, scarf}).Draw(t, "first order")...))
		if !slices.Equal(followed(&first), before) {
			t.Fatalf("first rows %v, want %v", followed(&first), before)
		}
	})
}

// A picture that pans keeps its rows, and the places of what is judged and not found go along:
// within the step of the grid.
func TestTrackerFollowsAPan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var tr Tracker
		tr.Take(foundOf(image.Point{}, skin, coat, scarf))
		before, lost := followed(&tr), idOf(&tr, scarf)
		at := tr.Track(lost).Light
		tr.Judge([]setup.Judged{{Track: lost, Kept: true}})
		var by image.Point
		for range rapid.IntRange(1, 4).Draw(t, "pans") {
			by = by.Add(image.Pt(rapid.IntRange(-8, 8).Draw(t, "x"), rapid.IntRange(-8, 8).Draw(t, "y")))
			by = image.Pt(min(max(by.X, -20), 20), min(max(by.Y, -15), 15)) // both stay in sight
			tr.Take(foundOf(by, skin, coat))
		}
		if len(followed(&tr)) != len(before) || len(tr.Tracks()) != len(before) { // what is cut off may move down a row
			t.Fatalf("after a pan by %v the rows are %v, before %v", by, followed(&tr), before)
		}
		if got := tr.Track(lost); got == nil || got.Light.Sub(at) != by {
			t.Fatalf("the place has gone to %v, want %v from %v", got.Light, by, at)
		}
		tr.Take(foundOf(by, scarf, coat, skin))
		if idOf(&tr, scarf) != lost {
			t.Fatal("what is found again is taken for another one")
		}
	})
}

// Colours, outlines and confidence that tremble change no row.
func TestTrackerDoesNotFlicker(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var tr Tracker
		random := rand.New(rand.NewPCG(uint64(rapid.IntRange(0, 1<<20).Draw(t, "seed")), 1))
		all := []blob{skin, coat, scarf}
		for i := range all {
			all[i].confidence = 0.55
		}
		tr.Take(foundOf(image.Point{}, all...))
		before := []int{idOf(&tr, skin), idOf(&tr, coat), idOf(&tr, scarf)}
		for range 12 {
			var some []blob
			for _, b := range all {
				b.at = b.at.Add(image.Pt(random.IntN(3)-1, random.IntN(3)-1))
				b.side += random.IntN(3) - 1
				b.light.G += uint8(random.IntN(4))
				b.shadow.B += uint8(random.IntN(4))
				b.confidence = 0.41 + 0.2*random.Float64()
				some = append(some, b)
			}
			random.Shuffle(3, func(i, k int) { some[i], some[k] = some[k], some[i] })
			tr.Take(foundOf(image.Point{}, some...))
			var ids []int
			for _, r := range tr.Tracks() {
				if r.Sure {
					ids = append(ids, r.ID)
				}
			}
			slices.Sort(ids)
			want := slices.Sorted(slices.Values(before))
			if !slices.Equal(ids, want) {
				t.Fatalf("tracks %v, want %v", ids, want)
			}
		}
	})
}

// Listed from 0.5 on, and until it falls under 0.4 (SureFrom; our choice).
func TestTrackerHoldsConfidence(t *testing.T) {
	var tr Tracker
	b := skin
	for _, step := range []struct {
		confidence float64
		sure       bool
	}{{0.45, false}, {0.49, false}, {0.5, true}, {0.45, true}, {0.4, true}, {0.39, false}, {0.45, false}, {0.6, true}} {
		b.confidence = step.confidence
		tr.Take(foundOf(image.Point{}, b))
		if len(tr.Tracks()) != 1 || tr.Tracks()[0].Sure != step.sure {
			t.Fatalf("at %g: %+v, want sure: %v", step.confidence, tr.Tracks(), step.sure)
		}
	}
}

// What is missing in one search stays, and goes with the second; what lies in its place waits,
// unless it is clearly surer.
func TestTrackerHoldsWhatIsMissing(t *testing.T) {
	var tr Tracker
	tr.Take(foundOf(image.Point{}, skin, coat))
	id := idOf(&tr, skin)
	if !tr.Take(foundOf(image.Point{}, coat)) || idOf(&tr, skin) != id {
		t.Fatal("what is missing once has gone, or nobody is told")
	}
	if tr.Take(foundOf(image.Point{}, skin, coat)) || idOf(&tr, skin) != id {
		t.Fatal("what was missing once is another one")
	}
	tr.Take(foundOf(image.Point{}, coat))
	tr.Take(foundOf(image.Point{}, coat))
	if idOf(&tr, skin) != 0 {
		t.Fatal("what is missing twice stays")
	}
	other := skin // in the same place, of other colours
	other.light, other.shadow = colour.RGB{R: 120, G: 200, B: 90}, colour.RGB{R: 40, G: 90, B: 60}
	for _, tt := range []struct {
		confidence float64
		wait       bool
	}{{skin.confidence, true}, {1, false}} {
		tr = Tracker{}
		tr.Take(foundOf(image.Point{}, skin))
		other.confidence = tt.confidence
		tr.Take(foundOf(image.Point{}, other))
		if got := idOf(&tr, other) == 0; got != tt.wait || (idOf(&tr, skin) == 0) == tt.wait {
			t.Errorf("with confidence %g it waits: %v", tt.confidence, got)
		}
		tr.Take(foundOf(image.Point{}, other))
		if idOf(&tr, other) == 0 || idOf(&tr, skin) != 0 {
			t.Error("the second search does not settle it")
		}
	}
}

// A local colour that is painted over in place by another hue of light is still the one that
// was judged; one that is somewhere else and of other colours is not.
func TestTrackerKnowsWhatWasJudged(t *testing.T) {
	var tr Tracker
	tr.Take(foundOf(image.Point{}, skin, coat))
	id := idOf(&tr, skin)
	tr.Judge([]setup.Judged{{Track: id}})
	warmer := skin
	warmer.light, warmer.shadow = colour.RGB{R: 236, G: 150, B: 110}, colour.RGB{R: 190, G: 84, B: 70}
	tr.Take(foundOf(image.Point{}, warmer, coat))
	if tr.Track(id).Index != 0 {
		t.Error("repainted in place it is another one")
	}
	for range 5 {
		tr.Take(foundOf(image.Point{}, coat, scarf))
	}
	if r := tr.Track(id); r == nil || r.Index >= 0 {
		t.Errorf("what is judged and gone is %+v", r)
	}
	if tr.Take(foundOf(image.Point{}, coat, scarf)) {
		t.Error("what is judged counts as missing")
	}
	tr = Tracker{}
	list := tr.Adopt([]setup.Judged{{Kept: true, Light: setup.Side{Colour: skin.light, At: skin.at}, Shadow: setup.Side{Colour: skin.shadow, At: skin.at}}})
	tr.Judge(list)
	tr.Take(foundOf(image.Pt(3, 0), coat, skin))
	if r := tr.Track(list[0].Track); r == nil || r.Index != 1 {
		t.Errorf("what was judged elsewhere is not known again by its colours: %+v", r)
	}
}

// Rows keep their places while families grow and shrink a little, and change them when one
// is clearly larger.
func TestTrackerOrder(t *testing.T) {
	var tr Tracker
	a, b := skin, coat
	b.side = 19
	tr.Take(foundOf(image.Point{}, a, b))
	for _, tt := range []struct {
		sides [2]int
		first colour.RGB
	}{{[2]int{20, 22}, a.light}, {[2]int{18, 22}, b.light}, {[2]int{20, 20}, b.light}} { // 1.21 and 1.49 times as large
		a.side, b.side = tt.sides[0], tt.sides[1]
		tr.Take(foundOf(image.Point{}, a, b))
		if got := followed(&tr)[0]; got != tt.first {
			t.Errorf("sides %v: first is %v", tt.sides, got)
		}
	}
}

// BenchmarkTracker has as many families as a busy picture, with a pan every time; budget: 5 ms,
// since it runs where the window is drawn.
func BenchmarkTracker(b *testing.B) {
	const width, height, most = 413, 232, 15
	found := func(by int) Found {
		f := Found{Found: &families.Found{Width: width, Height: height, Map: make([]uint8, width*height)}, Size: image.Pt(1920, 1080)}
		for k := range most {
			at := image.Pt(10+k%5*80, 10+k/5*70)
			for y := range 60 {
				for x := range 60 {
					f.Map[(at.Y+y)*width+at.X+x+by] = uint8(4*k + 1 + x/30)
				}
			}
			f.List = append(f.List, families.Of(analysis.SpotOf(colour.RGB{R: 200, G: uint8(10 * k), B: 100}), analysis.SpotOf(colour.RGB{R: 100, G: uint8(5 * k), B: 60}), families.DefaultRules()))
			f.List[k].Light.X, f.List[k].Light.Y = new(at.X), new(at.Y)
		}
		return f
	}
	both := [2]Found{found(0), found(9)}
	var tr Tracker
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		tr.Take(both[i%2])
	}
}
