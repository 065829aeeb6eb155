package analysis

import (
	"fmt"
	"image"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
	"app.tonedesk/analysis/lawtest"
)

// changing is a picture that is painted on, with what is left out of it.
type changing struct {
	Pixels
	rng *rand.Rand
	o   Options
}

// anew begins another picture: patches and grain, as they come transparent too, or paper with a
// figure, which has a ground.
func (c *changing) anew() {
	if c.rng.IntN(2) == 0 {
		c.Pixels = randomPixels(c.rng, 90)
	} else {
		c.Pixels = canvas(20+c.rng.IntN(90), 20+c.rng.IntN(90), Layout(c.rng.IntN(2)), paperWhite)
		fill(c.Pixels, c.box(), charcoal)
	}
	c.leaveOut()
}

// leaveOut leaves out something else.
func (c *changing) leaveOut() {
	c.o.Mask = nil
	if c.rng.IntN(2) == 0 {
		c.o.Mask = &Mask{}
		if c.rng.IntN(2) == 0 {
			c.o.Mask = randomOut(c.rng, c.Pixels)
		}
		if c.rng.IntN(2) == 0 {
			out := c.box()
			c.o.Mask.Grown = grownOf(c.Width, c.Height, func(x, y int) bool { return image.Pt(x, y).In(out) && (x*y)%7 != 1 })
			c.o.Mask.At = image.Pt(c.rng.IntN(5)-2, c.rng.IntN(5)-2)
		}
	}
	c.o.WithoutGround = c.rng.IntN(2) == 0
	c.o.Groups = c.rng.IntN(5)
}

// box is somewhere in the picture, mostly small.
func (c *changing) box() image.Rectangle {
	w, h := 1+c.rng.IntN(c.Width), 1+c.rng.IntN(c.Height)
	if c.rng.IntN(4) > 0 {
		w, h = 1+c.rng.IntN(min(c.Width, 12)), 1+c.rng.IntN(min(c.Height, 12))
	}
	at := image.Pt(c.rng.IntN(c.Width-w+1), c.rng.IntN(c.Height-h+1))
	return image.Rectangle{Min: at, Max: at.Add(image.Pt(w, h))}
}

// paint paints in a box, which it returns, sometimes larger than what was painted: all of it, some
// pixels, or nothing; in colours of the picture or others, transparent ones among them.
func (c *changing) paint() (box image.Rectangle) {
	box = c.box()
	tint := [...]colour.RGB{charcoal, middleGrey, paperWhite, {R: uint8(c.rng.Uint32()), G: 90, B: 200}}[c.rng.IntN(4)]
	part, alpha := c.rng.IntN(3), uint8(255)
	if c.rng.IntN(8) == 0 {
		alpha = 0
	}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if part == 2 || part == 1 && c.rng.IntN(3) == 0 {
				set(c.Pixels, x, y, tint, alpha)
			}
		}
	}
	if c.rng.IntN(4) == 0 {
		box = box.Inset(-c.rng.IntN(30)) // may reach outside
	}
	return box
}

// saidOf is all that a reading says, but for its plane.
func saidOf(r *Reading) string {
	said := *r
	said.Grey = nil
	return fmt.Sprintf("%+v", said)
}

// sameReading reports whether two readings say the same in all.
func sameReading(a, b *Reading) bool {
	return string(a.Grey) == string(b.Grey) && saidOf(a) == saidOf(b)
}

// Over a long chain of changes, what is read by difference is exactly what a whole read says:
// whatever is left out, transparent or ground, and whatever else changes in between.
func TestReadChangedIsRead(t *testing.T) {
	partly := map[Ground]int{}
	rapid.Check(t, func(t *rapid.T) {
		c := &changing{rng: rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 81))}
		one, all := NewReader(), NewReader()
		defer one.Close()
		defer all.Close()
		one.Steady = rapid.Bool().Draw(t, "steady")
		all.Steady = one.Steady
		c.anew()
		changed := c.Bounds()
		for i := range rapid.IntRange(1, 60).Draw(t, "changes") {
			one.kept.box = image.Rectangle{}
			got, want := one.ReadChanged(c.Pixels, c.o, changed), all.Read(c.Pixels, c.o)
			if !sameReading(got, want) {
				t.Fatalf("after %d changes, the last in %v of %v:\n%s\nread whole:\n%s", i, changed, c.Bounds(), saidOf(got), saidOf(want))
			}
			if !one.kept.box.Empty() {
				partly[got.Ground]++
			}
			switch c.rng.IntN(12) {
			case 0:
				c.anew()
				changed = c.Bounds()
			case 1:
				c.leaveOut()
				changed = image.Rectangle{}
			case 2: // the same pixels elsewhere in memory
				c.Pix = append([]byte{}, c.Pix...)
				changed = image.Rectangle{}
			default:
				changed = c.paint()
			}
		}
	})
	if partly[GroundCounted] < lawtest.Least(100) || partly[GroundLeftOut] < lawtest.Least(50) {
		t.Errorf("hardly anything was read by difference: %v", partly)
	}
}

// A read that broke down in its middle is made good by a whole one.
func TestReadChangedAfterBreakdown(t *testing.T) {
	r := NewReader()
	defer r.Close()
	p := painting(120, 90, BGRX)
	r.Read(p, Options{})
	fill(p, image.Rect(10, 10, 40, 40), charcoal)
	func() {
		defer func() { _ = recover() }()
		r.reread = func(_, _ int) { panic("in the middle") }
		r.ReadChanged(p, Options{}, image.Rect(10, 10, 40, 40))
	}()
	r.reread = r.rereadRows
	if got, want := r.ReadChanged(p, Options{}, image.Rectangle{}), Read(p, Options{}); !sameReading(got, want) {
		t.Errorf("after a breakdown:\n%s\nwant:\n%s", saidOf(got), saidOf(want))
	}
}

func TestReadChangedAllocatesNothing(t *testing.T) {
	p := canvas(640, 360, BGRX, paperWhite)
	fill(p, image.Rect(200, 100, 400, 300), charcoal)
	out := &Mask{Areas: []image.Rectangle{image.Rect(5, 5, 90, 90)}, Grown: grownOf(640, 360, func(x, _ int) bool { return x > 600 })}
	r := NewReader()
	defer r.Close()
	r.Steady = true
	dab := image.Rect(300, 80, 364, 144)
	for _, without := range []bool{false, true} {
		o := Options{Mask: out, WithoutGround: without}
		i := 0
		read := func() {
			i++
			fill(p, dab, [...]colour.RGB{charcoal, middleGrey}[i%2])
			r.ReadChanged(p, o, dab)
		}
		read()
		read()
		if n := testkit.LeastAllocs(20, read); n != 0 {
			t.Errorf("%g allocations a dab, without ground %v", n, without)
		}
	}
}
