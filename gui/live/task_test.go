package live

import (
	"image"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/gui/setup"
)

func TestPartOf(t *testing.T) {
	p := pixelsOf(halves(40, 30, black, white))
	for _, tt := range []struct {
		what   string
		kind   setup.SourceKind
		region image.Rectangle
		origin image.Point
		want   image.Rectangle
	}{
		{"all of a file", setup.SourcePicture, image.Rectangle{}, image.Point{}, image.Rect(0, 0, 40, 30)},
		{"a part of a file", setup.SourcePicture, image.Rect(30, 10, 60, 20), image.Point{}, image.Rect(30, 10, 40, 20)},
		{"a part that isn't there", setup.SourceStill, image.Rect(50, 10, 60, 20), image.Point{}, image.Rectangle{}},
		{"a region, which the stream cut out", setup.SourceRegion, image.Rect(100, 50, 900, 800), image.Pt(100, 50), image.Rect(100, 50, 140, 80)},
	} {
		got, bounds := partOf(p, tt.origin, setup.Source{Kind: tt.kind, Region: tt.region})
		if bounds != tt.want || got.Bounds().Size() != tt.want.Size() {
			t.Errorf("%s: %v of %v pixels, want %v", tt.what, bounds, got.Bounds().Size(), tt.want)
		}
	}
}

// What still holds of the frame before, after one thing that is wanted has changed.
func TestSameAs(t *testing.T) {
	all := same{true, true, true, true, true}
	for _, tt := range []struct {
		what   string
		change func(*task)
		want   same
	}{
		{"nothing", func(*task) {}, all},
		{"a spot", func(t *task) { t.Setup.Places = []setup.Place{{}} }, all},
		{"the pointer", func(t *task) { t.Looking = true }, all},
		{"another part", func(t *task) { t.bounds = t.bounds.Add(image.Pt(1, 0)) }, same{look: true}},
		{"the groups", func(t *task) { t.Settings.Groups = 3 }, same{picture: true, look: true}},
		{"what the groups are of", func(t *task) { t.Settings.NoGround = true }, same{picture: true, look: true}},
		{"borders by hand", func(t *task) { t.Setup.Borders = []float64{50} }, same{picture: true, look: true}},
		{"our window", func(t *task) { t.Covered = image.Rect(0, 0, 1, 1) }, same{picture: true, look: true}},
		{"an area left out", func(t *task) { t.Setup = t.Setup.LeavingOut(image.Rect(0, 0, 1, 1)) }, same{picture: true, look: true}},
		{"a lightness left out", func(t *task) { t.Setup = t.Setup.LeavingOutColour(analysis.Seed{}) }, same{picture: true, look: true}},
		{"the size", func(t *task) { t.lay.Pixels.X-- }, same{picture: true, reading: true, look: true, beside: true}},
		{"the view", func(t *task) { t.Settings.View = "colour" }, same{picture: true, reading: true, reduced: true}},
		{"flipped", func(t *task) { t.Settings.Flipped = true }, same{picture: true, reading: true, reduced: true}},
		{"a limit", func(t *task) { t.Settings.TooDark++ }, same{picture: true, reading: true, reduced: true}},
		{"halves", func(t *task) { t.Halves = true }, same{picture: true, reading: true, reduced: true, look: true}},
	} {
		last := taskOf(halves(4, 4, black, white), wantsAll(), image.Point{})
		now := *last
		tt.change(&now)
		now.view = ViewOf(now.Wanted)
		if got := sameAs(&now, last); got != tt.want {
			t.Errorf("%s changed, and the same is %+v, want %+v", tt.what, got, tt.want)
		}
	}
}

// A frame that comes once more is of no use where something else is watched by now, and is
// worked on anew where nothing was made of it yet.
func TestBegin(t *testing.T) {
	r := newRig(t)
	first, second := frameOf(halves(4, 2, black, white)), frameOf(halves(4, 2, white, black))
	r.see(first, false)
	r.next.Setup.Source.Path = "b.png"
	if r.see(first, true) != nil {
		t.Error("a frame of the file before is shown as one of the next")
	}
	r.next.Setup.Source.Region = image.Rect(10, 10, 20, 20)
	if r.see(second, false) != nil {
		t.Error("a part that isn't there is shown")
	}
	r.next.Setup.Source.Region = image.Rectangle{}
	r.next.Lay = nil
	if r.see(second, true) != nil {
		t.Error("a picture is shown that has no place")
	}
	r.next.Lay = whole
	s := r.see(second, true)
	if s == nil {
		t.Fatal("what is there by now is not shown")
	}
	wantGreys(t, "what is there by now", s.Img, 0, 255, 255, 0, 0)
	if s.Move.Kind != movement.Still || len(r.log) > 0 {
		t.Errorf("moved %v, logged %v", s.Move, r.log)
	}
}
