package setup

import (
	"image"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/movement"
)

// By hand, on a picture of 200 x 100 pixels that begins at (1000, 500).
func TestMovedBy(t *testing.T) {
	s := Setup{
		Places:   []Place{{At: image.Pt(1010, 520)}, {Area: image.Rect(1000, 500, 1010, 520), Moved: true}},
		Families: []Family{{Light: Place{At: image.Pt(1000, 500)}, Shadow: Place{At: image.Pt(1199, 599)}}},
		Focus:    []Place{{At: image.Pt(1010, 520)}},
		Judged:   []Judged{{Track: 3, Light: Side{At: image.Pt(1000, 500)}, Shadow: Side{At: image.Pt(1001, 500)}}},
	}.LeavingOut(image.Rect(1000, 500, 1010, 520)).LeavingOutColour(analysis.Seed{At: image.Pt(1010, 520)})
	for _, tt := range []struct {
		what        string
		by          movement.Transform
		spot, light image.Point
		shadow      image.Point
		area        image.Rectangle
	}{
		{"nothing", movement.Transform{}, image.Pt(1010, 520), image.Pt(1000, 500), image.Pt(1199, 599), image.Rect(1000, 500, 1010, 520)},
		{"panned", movement.Shift(-20, 5), image.Pt(990, 525), image.Pt(980, 505), image.Pt(1179, 604), image.Rect(980, 505, 990, 525)},
		{"mirrored", movement.Mirror(100), image.Pt(1189, 520), image.Pt(1199, 500), image.Pt(1000, 599), image.Rect(1190, 500, 1200, 520)},
		{"doubled about the corner", movement.ZoomBy(2, 0, 0), image.Pt(1021, 541), image.Pt(1001, 501), image.Pt(1399, 699), image.Rect(1000, 500, 1020, 540)},
		// A quarter clockwise about (100, 50): (x, y) goes to (150 - y, x - 50).
		{"turned by a quarter", movement.Turn(90, 100, 50), image.Pt(1129, 460), image.Pt(1149, 450), image.Pt(1050, 649), image.Rect(1130, 450, 1150, 460)},
	} {
		got := s.MovedBy(tt.by, image.Pt(1000, 500))
		if got.Places[0].At != tt.spot || got.Focus[0].At != tt.spot || got.Seeds[0].At != tt.spot || got.Places[1].Area != tt.area || got.Areas[0] != tt.area {
			t.Errorf("%s: spots at %+v, left out %v and %v", tt.what, got.Places, got.Areas, got.Seeds)
		}
		f := got.Families[0]
		if f.Light.At != tt.light || f.Shadow.At != tt.shadow || got.Judged[0].Light.At != tt.light {
			t.Errorf("%s: a family at %+v, judged %+v", tt.what, f, got.Judged[0])
		}
		if got.Places[0].Moved || !got.Places[1].Moved {
			t.Errorf("%s: what is lost is said to be found, or the other way round", tt.what)
		}
	}
	if s.Places[0].At != image.Pt(1010, 520) || s.Areas[0] != image.Rect(1000, 500, 1010, 520) {
		t.Error("the setup before has changed")
	}
}

// Whole pans, mirrorings and quarter turns back and forth lose nothing.
func TestMovedByThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		within := func(name string) int { return rapid.IntRange(-3000, 3000).Draw(t, name) }
		by := movement.Shift(float64(within("x")), float64(within("y"))).
			Compose(movement.Turn(90*float64(rapid.IntRange(0, 3).Draw(t, "quarters")), float64(within("about x")), float64(within("about y"))))
		if rapid.Bool().Draw(t, "mirrored") {
			by = by.Compose(movement.Mirror(float64(within("mirror"))))
		}
		origin, at := image.Pt(within("origin x"), within("origin y")), image.Pt(within("spot x"), within("spot y"))
		s := Setup{Places: []Place{{At: at}, {Area: image.Rectangle{at, at.Add(image.Pt(30, 17))}, At: at.Add(image.Pt(15, 8))}}}
		if back := s.MovedBy(by, origin).MovedBy(by.Inverse(), origin); !reflect.DeepEqual(back.Places, s.Places) {
			t.Fatalf("there and back: %+v from %+v", back.Places, s.Places)
		}
	})
}

// Spots that were said to be lost for a while are no longer, but for those that were lost before or
// lie elsewhere now.
func TestBack(t *testing.T) {
	before := Setup{
		Places:   []Place{{At: image.Pt(1, 1)}, {At: image.Pt(2, 2), Moved: true}, {At: image.Pt(3, 3)}},
		Families: []Family{{Light: Place{At: image.Pt(4, 4)}, Shadow: Place{At: image.Pt(5, 5)}}},
		Focus:    []Place{{At: image.Pt(6, 6)}},
	}
	lost := before.AllMoved(true)
	lost.Places[2].At = image.Pt(9, 9)
	got := lost.Back(before)
	if got.Places[0] != before.Places[0] || !got.Places[1].Moved || !got.Places[2].Moved || got.Families[0] != before.Families[0] || got.Focus[0] != before.Focus[0] {
		t.Errorf("back: %+v", got)
	}
	if !lost.Places[0].Moved {
		t.Error("the setup before was written to")
	}
	if got := lost.Back(Setup{}); !got.Places[0].Moved {
		t.Error("back from nowhere")
	}
}
