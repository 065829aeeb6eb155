package movement

import (
	"image"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/testkit"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// panCase is a view, a pan from there and a dab, from whatever deals whole numbers.
func panCase(within func(least, most int, name string) int, reach int) (width, height int, from, to view, dab func(x, y, v float64) float64) {
	width, height = within(500, 700, "width"), within(400, 550, "height")
	from = view{
		dx: float64(within(-150, 150, "x")), dy: float64(within(-100, 100, "y")),
		zoom: float64(within(70, 130, "zoom in percent")) / 100,
	}
	to = from
	dx, dy := within(-width*reach/100, width*reach/100, "dx"), within(-height*reach/100, height*reach/100, "dy")
	if dx*dx+dy*dy < 16 {
		dx += 8 // else hardly a pan
	}
	to.dx, to.dy = to.dx+float64(dx), to.dy+float64(dy)
	dab = disc(float64(within(0, width, "of the dab, x")), float64(within(0, height, "y")), float64(within(1, 120, "radius")), 90)
	return width, height, from, to, dab
}

// Any pan of a line drawing by up to a tenth of the view is seen, in any view; a dab is none.
func TestAnyPan(t *testing.T) {
	t.Parallel()
	c := scenes()["lines"]
	rapid.Check(t, func(t *rapid.T) {
		width, height, from, to, dab := panCase(func(least, most int, name string) int {
			return rapid.IntRange(least, most).Draw(t, name)
		}, 10)
		before := c.seen(width, height, from)
		var f Finder
		f.Next(before)
		if f.Next(edited(before, dab)).Kind != Still {
			t.Fatal("a dab counts as a jump")
		}
		f.Forget()
		f.Next(before)
		if f.Next(c.seen(width, height, to)).Kind == Still {
			t.Fatal("the pan isn't seen")
		}
	})
}

// Of random pans by up to a third of the view, over all scenes, at least 98 in 100 are seen;
// what is missed is alike on both sides by chance, as a row of posts. No dab is a jump.
func TestMostPans(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(21, 22))
	seen, all := 0, 0
	for _, name := range slices.Sorted(maps.Keys(scenes())) {
		c := scenes()[name]
		for range 20 {
			width, height, from, to, dab := panCase(func(least, most int, _ string) int {
				return least + rng.IntN(most-least+1)
			}, 33)
			before := c.seen(width, height, from)
			if jumped(t, before, edited(before, dab)) {
				t.Errorf("%s: a dab counts as a jump", name)
			}
			all++
			if jumped(t, before, c.seen(width, height, to)) {
				seen++
			} else {
				t.Logf("%s: missed from %+v to %+v", name, from, to)
			}
		}
	}
	if 100*seen < 98*all {
		t.Errorf("only %d of %d pans are seen", seen, all)
	}
}

// Steps too small to tell add up.
func TestAddsUp(t *testing.T) {
	c, moved := scenes()["figure"], 0
	var f Finder
	for step := range 13 {
		if f.Next(c.seen(viewWidth, viewHeight, view{dx: float64(step)})).Kind != Still {
			moved++
		}
	}
	if moved < 3 {
		t.Errorf("12 pixels, one at a time, count as %d jumps", moved)
	}
}

func TestOfSizes(t *testing.T) {
	c := scenes()["figure"]
	var f Finder
	a, b := c.seen(400, 300, view{}), c.seen(420, 300, view{})
	if f.Next(nil).Kind != Still || f.Next(&analysis.Reading{}).Kind != Still || f.Next(a).Kind != Still {
		t.Error("the first picture has jumped")
	}
	if f.Next(b).Kind == Still {
		t.Error("a picture of another size hasn't jumped")
	}
	if f.Next(b).Kind != Still {
		t.Error("the same picture once more has jumped")
	}
	f.Forget()
	if f.Next(a).Kind != Still {
		t.Error("the first picture after Forget has jumped")
	}
}

// What is told of where a picture has changed never changes what is said of it, over chains of strokes,
// moves, bare screens and pictures that stay as they were.
func TestSaysTheSameOfWhatChanged(t *testing.T) {
	views := [...]view{{}, {dx: 41, dy: -13}, {turn: 30}, {zoom: 0.8}, {mirror: true}}
	rapid.Check(t, func(t *rapid.T) {
		width, height := rapid.IntRange(60, 420).Draw(t, "width"), rapid.IntRange(60, 300).Draw(t, "height")
		c := scenes()[rapid.SampledFrom([]string{"figure", "flats", "lines"}).Draw(t, "scene")]
		r := c.seen(width, height, view{})
		var whole, told Finder
		whole.Next(r)
		told.Next(r)
		for range rapid.IntRange(1, 8).Draw(t, "steps") {
			changed := image.Rectangle{}
			switch rapid.IntRange(0, 5).Draw(t, "what") {
			case 0: // nothing
			case 1, 2, 3:
				x, y := rapid.IntRange(0, width-1).Draw(t, "x"), rapid.IntRange(0, height-1).Draw(t, "y")
				changed = image.Rect(x, y, x+rapid.IntRange(1, 200).Draw(t, "w"), y+rapid.IntRange(1, 200).Draw(t, "h")).Intersect(image.Rect(0, 0, width, height))
				for y := changed.Min.Y; y < changed.Max.Y; y++ {
					for x := changed.Min.X; x < changed.Max.X; x++ {
						r.Grey[y*width+x] += uint8(40 + x%7)
					}
				}
			case 4:
				r = c.seen(width, height, rapid.SampledFrom(views[:]).Draw(t, "view"))
				changed = image.Rect(0, 0, width, height)
			case 5: // another program's bare window
				clear(r.Grey)
				changed = image.Rect(0, 0, width, height)
			}
			if a, b := whole.Next(r), told.NextChanged(r, changed); a != b {
				t.Fatalf("told %+v of all, %+v of %v", a, b, changed)
			}
		}
	})
}

// Whatever the size and contents, it answers, and the same picture twice is no jump.
func TestOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f Finder
		for range 3 {
			r := &analysis.Reading{Width: rapid.IntRange(1, 300).Draw(t, "width"), Height: rapid.IntRange(1, 300).Draw(t, "height")}
			r.Grey = make([]uint8, r.Width*r.Height)
			most := rapid.IntRange(0, 127).Draw(t, "most")
			for range 4 {
				for i := range r.Grey {
					r.Grey[i] = uint8(128 + noiseAt(float64(i%r.Width+most), float64(i/r.Width), most))
				}
				f.Next(r)
				if f.Next(r).Kind != Still {
					t.Fatal("the same picture twice has jumped")
				}
				most = rapid.IntRange(0, 127).Draw(t, "most")
			}
		}
	})
}

func TestAllocates(t *testing.T) {
	var f Finder
	a, b := scenes()["figure"].seen(640, 360, view{}), scenes()["grain"].seen(640, 360, view{})
	f.Next(a)
	if n := testkit.LeastAllocs(10, func() { f.Next(b); f.Next(a) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
