package analysis

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand: the target is half dark, a quarter middle, a quarter light; the picture has one
// pixel of four between its first and its second edge, and three above.
func TestTargetMatch(t *testing.T) {
	target := NewTarget(splitOf(threeHeaps, 3)) // edges between bins 0, 128 and 255
	picture := splitOf([256]int{100: 1, 200: 2, 254: 1}, 2)
	m := target.Match(picture)
	want := []GroupMatch{{"dark", 0, 0.5, -0.5}, {"middle", 0.25, 0.25, 0}, {"light", 0.75, 0.25, 0.5}}
	if len(m.Groups()) != len(want) {
		t.Fatalf("%+v", m.Groups())
	}
	for i, g := range m.Groups() {
		if g != want[i] {
			t.Errorf("%+v, want %+v", g, want[i])
		}
	}
	if d := Distance(target.Histogram(), &picture.Histogram); m.Distance != d {
		t.Errorf("distance %g, want %g", m.Distance, d)
	}
}

// Edges set by hand count as the target's own; a group without pixels is still a plan.
func TestTargetByHand(t *testing.T) {
	r := &Reader{reading: *splitOf(threeHeaps, 0)}
	r.split(0, []float64{30, 70, 80})
	target := NewTarget(&r.reading)
	m := target.Match(splitOf(oneBin(190, 5), 0)) // L* 74.5
	if g := m.Groups()[2]; len(m.Groups()) != 4 || g != (GroupMatch{"light middle", 1, 0, 1}) {
		t.Errorf("%+v", m.Groups())
	}
}

func TestTargetOfNothing(t *testing.T) {
	nothing, something := splitOf([256]int{}, 0), splitOf(threeHeaps, 0)
	for _, m := range []Match{NewTarget(nothing).Match(something), NewTarget(something).Match(nothing), NewTarget(nothing).Match(nothing)} {
		if !math.IsNaN(m.Distance) || len(m.Groups()) != 0 {
			t.Errorf("%+v", m)
		}
	}
}

// Every picture matches itself; what it has too much of one group it lacks of the others;
// the target outlives what it was made of.
func TestTargetLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawHistogram(t), drawHistogram(t)
		a[7]++
		b[70]++
		picture, plan := splitOf(a, 0), splitOf(b, rapid.IntRange(0, 4).Draw(t, "groups"))
		target := NewTarget(plan)
		self := target.Match(plan)
		for _, g := range self.Groups() {
			if g.More != 0 || g.Share != g.Target {
				t.Fatalf("of itself %+v", g)
			}
		}
		if self.Distance != 0 {
			t.Fatalf("distance to itself %g", self.Distance)
		}
		before := target.Match(picture)
		*plan = Reading{}
		if target.Match(picture) != before {
			t.Fatal("the target changed with what it was made of")
		}
		more, share := 0.0, 0.0
		for _, g := range before.Groups() {
			more, share = more+g.More, share+g.Share
		}
		if !(math.Abs(more) < 1e-9 && math.Abs(share-1) < 1e-9) {
			t.Fatalf("shares add up to %g, differences to %g", share, more)
		}
	})
}
