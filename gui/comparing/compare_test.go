package comparing

import (
	"image"
	"image/color"
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/widgets"
)

// testComparer is a comparer without a desk, which compares a picture of the size 400 × 300
// that is watched with a darker one.
type testComparer struct {
	Comparer
	copies []func(*live.Copy) // asked for
	waits  []time.Duration    // after which the picture was asked for once more
	wishes []Way
}

func newTestComparer(t *testing.T) *testComparer {
	app := test.NewTempApp(t)
	h := &host.Host{App: app, Mirror: widgets.NewMirror(widgets.MirrorActs{Resized: func() {}}), Notify: func(host.PageEvent) {}, Changed: func() {}, Spawn: func(f func()) { f() }}
	h.Messages.Over = widgets.NewMessages(nil, nil)
	h.Later = func(time.Duration, func()) func() { return func() {} }
	h.Mirror.Resize(fyne.NewSize(500, 400))
	c := &testComparer{}
	c.Comparer = *New(h, Acts{
		CopyPicture: func(do func(*live.Copy)) { c.copies = append(c.copies, do) },
		ComeBack:    func(after time.Duration) { c.waits = append(c.waits, after) },
		View:        func() (views.View, views.Look) { return views.All()[0], views.Look{} },
		Wait:        func(time.Time) time.Duration { return 0 },
		Now:         func() string { return "" },
		Wish:        func(how Way) { c.wishes = append(c.wishes, how) },
	})
	c.How, c.line, c.With = Divided, 0.5, comparison{ID: "still", name: "flats"}
	c.With.side.Picture = pixelsOf(guitest.Halves(guitest.Shadow, guitest.Shadow))
	return c
}

func pixelsOf(img *image.NRGBA) analysis.Pixels {
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy(), Layout: analysis.RGBA}
}

// see shows a picture, read then, whose place begins there, and compares it if a copy was asked for.
func (c *testComparer) see(at time.Time, place image.Point, flipped bool) {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	bounds := img.Rect.Add(place)
	c.Mirror.SetPicture(img, nil, bounds, bounds, flipped)
	c.Shown(at, bounds)
	asked := c.copies
	c.copies = nil
	for _, do := range asked {
		do(&live.Copy{Pixels: pixelsOf(guitest.Halves(guitest.Light, guitest.Light)), Bounds: bounds, At: at})
	}
}

func (c *testComparer) over() *image.RGBA { return c.Mirror.Overlay(widgets.OverlayBefore) }

// What lies left of the line in the mirror is the picture before, also where left and right are
// exchanged; the line stays within the picture.
func TestTheLineDivides(t *testing.T) {
	for _, flipped := range []bool{false, true} {
		c := newTestComparer(t)
		c.see(time.Now(), image.Pt(1000, 0), flipped)
		c.MoveLine(0.25)
		line, y := c.Mirror.Pixels().X/4, c.Mirror.Pixels().Y/2
		before, now := c.over().RGBAAt(line-5, y), c.over().RGBAAt(line+5, y)
		if want := (color.RGBA{guitest.Shadow.R, guitest.Shadow.G, guitest.Shadow.B, 255}); before != want || now != (color.RGBA{}) {
			t.Errorf("flipped %v: left of the line is %v, right of it %v", flipped, before, now)
		}
		for _, tt := range []struct {
			steps int
			want  float32
		}{{-3, 0.1}, {-9, 0}, {40, 1}} {
			if c.StepLine(tt.steps); math.Abs(float64(c.line-tt.want)) > 1e-6 {
				t.Errorf("after %d steps the line is at %g, want %g", tt.steps, c.line, tt.want)
			}
		}
	}
}

// A picture that changes all the time is compared once in a while; one that lies elsewhere at
// once; and one that stays the same not again.
func TestComparesOnceInAWhile(t *testing.T) {
	c := newTestComparer(t)
	now := time.Now()
	c.see(now, image.Point{}, false)
	first := c.With.Found
	if first == nil {
		t.Fatal("nothing was compared")
	}
	c.see(now, image.Point{}, false)
	if c.With.Found != first || len(c.waits) > 0 {
		t.Error("the same picture is compared again")
	}
	c.see(now.Add(time.Millisecond), image.Point{}, false)
	if c.With.Found != first || len(c.waits) != 1 || c.waits[0] <= 0 || c.waits[0] > compareEvery {
		t.Errorf("a changed picture is compared at once, or after %v", c.waits)
	}
	c.see(now.Add(2*time.Millisecond), image.Pt(5, 5), false)
	if c.With.Found == first {
		t.Error("a picture that lies elsewhere is not compared")
	}
}

// What is found after comparing has ended, or begun with another still, is not taken.
func TestFoundTooLate(t *testing.T) {
	for name, meanwhile := range map[string]func(c *testComparer){
		"ended":   func(c *testComparer) { c.End() },
		"another": func(c *testComparer) { c.With = comparison{ID: "another"} },
	} {
		c := newTestComparer(t)
		bounds := image.Rect(0, 0, 400, 300)
		c.Shown(time.Now(), bounds)
		late := c.copies
		meanwhile(c)
		for _, do := range late {
			do(&live.Copy{Pixels: pixelsOf(guitest.Halves(guitest.Light, guitest.Light)), Bounds: bounds, At: time.Now()})
		}
		if len(late) != 1 || c.With.Found != nil || c.over() != nil {
			t.Errorf("%s: of %d comparisons one was taken", name, len(late))
		}
	}
}

// The map is drawn once for as long as nothing that it shows is another.
func TestMapIsDrawnOnce(t *testing.T) {
	c := newTestComparer(t)
	now := time.Now()
	c.see(now, image.Point{}, false)
	c.As(Map)
	first := c.over()
	c.see(now, image.Point{}, false)
	if first == nil || c.over() != first {
		t.Error("the map is drawn again for the same picture")
	}
	c.see(now, image.Point{}, true)
	if c.over() == first {
		t.Error("the map is not drawn flipped")
	}
}

// Another way is wished for, not taken, and only where two pictures are compared.
func TestWaysAreWishedFor(t *testing.T) {
	c := newTestComparer(t)
	c.Set(Map)
	if len(c.wishes) != 1 || c.wishes[0] != Map || c.How != Divided {
		t.Errorf("wished for %v, shown is %d", c.wishes, c.How)
	}
	c.End()
	c.Set(Map)
	c.As(Map)
	if len(c.wishes) != 1 || c.On() {
		t.Error("where nothing is compared, there is another way")
	}
}
