package gui

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// seePicture opens a source and shows its first frame, as the watcher would.
func (d *Desk) seePicture(t *testing.T, from setup.Source, img *image.NRGBA) {
	t.Helper()
	if d.setup.Source != from {
		d.watch(from)
	}
	d.memory.Opened(from)
	d.see(t, img)
}

// sized is a plain picture of a size.
func sized(wide, high int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, wide, high))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	img.SetNRGBA(0, 0, color.NRGBA{A: 255})
	return img
}

var (
	heron  = setup.Source{Kind: setup.SourcePicture, Path: "/a/heron.png"}
	reed   = setup.Source{Kind: setup.SourcePicture, Path: "/a/reed.png"}
	window = setup.Source{Kind: setup.SourceWindow, Title: "Heron", Class: "Painter"}
)

// layOn lays something of every kind on the picture that is watched.
func (d *Desk) layOn(t *testing.T, img *image.NRGBA) (laid setup.Setup) {
	t.Helper()
	red := setup.Side{Colour: colour.RGB{R: 200, G: 60, B: 50}, At: image.Pt(9, 9)}
	next := d.setup.LeavingOut(image.Rect(0, 0, 20, 30)).WithFamily(setup.Family{Light: setup.Place{At: image.Pt(5, 6)}, Shadow: setup.Place{At: image.Pt(50, 60)}})
	next.Places = []setup.Place{{At: image.Pt(100, 150)}, {At: image.Pt(300, 150)}}
	next.Borders = []float64{40}
	next.Judged = d.families.Adopt([]setup.Judged{{Kept: true, Light: red, Shadow: setup.Side{At: image.Pt(8, 9)}}, {Light: red, Shadow: red}})
	d.change(next, "")
	d.see(t, img)
	return d.setup
}

// lying is a setup without what is new at each coming: the numbers by which local colours are followed.
func lying(s setup.Setup) setup.Setup {
	var judged []setup.Judged
	for _, j := range s.Judged {
		j.Track = 0
		judged = append(judged, j)
	}
	s.Judged, s.Typed = judged, nil
	return s
}

// restart is the next start, with the settings that were kept.
func restart(t *testing.T, d *Desk) *Desk {
	t.Helper()
	again := NewDesk(d.App, Options{Settings: d.settings, Keeper: d.options.Keeper, Stills: d.Store, Screen: d.options.Screen, background: d.options.background})
	again.Leaving.Store(true)
	t.Cleanup(again.worker.Close)
	return again
}

// What lies on a picture comes back with it: after another one, by undo, and at the next start. The
// other has its own.
func TestPicturesAreRemembered(t *testing.T) {
	for name, from := range map[string]setup.Source{"a picture": heron, "a window": window, "a region": {Kind: setup.SourceRegion, Region: image.Rect(0, 0, 400, 300)}} {
		d, img := newTestDesk(t, settings.Defaults()), guitest.Halves(guitest.Light, guitest.Shadow)
		d.seePicture(t, from, img)
		laid := lying(d.layOn(t, img))
		d.seePicture(t, reed, img)
		if !d.setup.Bare() {
			t.Errorf("%s: on another lie %+v", name, d.setup)
		}
		d.placeSpot(setup.Place{At: image.Pt(7, 7)}, false)
		d.seePicture(t, from, img)
		if got := lying(d.setup); !reflect.DeepEqual(got, laid) {
			t.Errorf("%s: back are %+v, want %+v", name, got, laid)
		}
		if again := restart(t, d); !reflect.DeepEqual(lying(again.setup), laid) || len(again.history.Past) > 0 {
			t.Errorf("%s: at the next start %+v, want %+v", name, lying(again.setup), laid)
		}
		if a, b := d.setup.Judged[0].Track, d.setup.Judged[1].Track; a == 0 || b == 0 || a == b {
			t.Errorf("%s: local colours are followed as %d and %d", name, a, b)
		}
		d.Undo()
		if p := d.setup.Places; d.setup.Source != reed || len(p) != 1 || p[0].At != image.Pt(7, 7) {
			t.Errorf("%s: undone %+v", name, d.setup)
		}
	}
}

// A region that overlaps the one before shows the same painting, and another one doesn't.
func TestRegionsKeepSpotsWhereTheyOverlap(t *testing.T) {
	first := setup.Source{Kind: setup.SourceRegion, Region: image.Rect(0, 0, 400, 300)}
	for _, tt := range []struct {
		region image.Rectangle
		spots  int
		areas  int
	}{{image.Rect(0, 0, 420, 300), 2, 1}, {image.Rect(0, 0, 200, 300), 1, 1}, {image.Rect(400, 0, 600, 300), 0, 0}} {
		d, img := newTestDesk(t, settings.Defaults()), guitest.Halves(guitest.Light, guitest.Shadow)
		d.seePicture(t, first, img)
		d.layOn(t, img)
		d.watch(setup.Source{Kind: setup.SourceRegion, Region: tt.region})
		if len(d.setup.Places) != tt.spots || len(d.setup.Areas) != tt.areas {
			t.Errorf("%v: %d spots, %d areas, want %d, %d", tt.region, len(d.setup.Places), len(d.setup.Areas), tt.spots, tt.areas)
		}
		if d.watch(first); len(d.setup.Places) != 2 || len(d.setup.Areas) != 1 {
			t.Errorf("%v and back: %+v", tt.region, d.setup)
		}
	}
}

// A picture that comes back in another size takes its spots along if it was enlarged or reduced as a
// whole; else they stay where they are, and are said to be lost, as outside of it.
func TestPicturesOfAnotherSize(t *testing.T) {
	region := setup.Source{Kind: setup.SourceRegion, Region: image.Rect(0, 0, 400, 300)}
	for _, tt := range []struct {
		what string
		from setup.Source
		now  image.Point
		at   image.Point // of the second spot
		lost [2]bool
		area image.Rectangle
	}{
		{"the same", heron, image.Pt(400, 300), image.Pt(300, 150), [2]bool{}, image.Rect(0, 0, 20, 30)},
		{"doubled", heron, image.Pt(800, 600), image.Pt(601, 301), [2]bool{}, image.Rect(0, 0, 40, 60)}, // the middle of the pixel
		{"cut", heron, image.Pt(200, 300), image.Pt(300, 150), [2]bool{true, true}, image.Rect(0, 0, 20, 30)},
		{"a window, the same", window, image.Pt(400, 300), image.Pt(300, 150), [2]bool{}, image.Rect(0, 0, 20, 30)},
		{"a window made larger", window, image.Pt(800, 600), image.Pt(300, 150), [2]bool{true, true}, image.Rect(0, 0, 20, 30)},
		{"a region half off the screen", region, image.Pt(200, 300), image.Pt(300, 150), [2]bool{false, true}, image.Rect(0, 0, 20, 30)},
	} {
		d, img := newTestDesk(t, settings.Defaults()), sized(400, 300)
		d.seePicture(t, tt.from, img)
		d.layOn(t, img)
		d.seePicture(t, reed, sized(50, 50))
		d.watch(tt.from)
		d.see(t, sized(50, 50)) // a frame of the other, still under way
		d.seePicture(t, tt.from, sized(tt.now.X, tt.now.Y))
		check := func(when string, s setup.Setup) {
			if at := s.Judged[0].Light.At; tt.at.X == 601 && at != image.Pt(19, 19) || tt.at.X == 300 && at != image.Pt(9, 9) {
				t.Errorf("%s, %s: what was said of a local colour lies at %v", tt.what, when, at)
			}
			if p := s.Places; len(p) != 2 || p[1].At != tt.at || p[0].Moved != tt.lost[0] || p[1].Moved != tt.lost[1] || s.Areas[0] != tt.area {
				t.Errorf("%s, %s: spots %+v, left out %v", tt.what, when, p, s.Areas)
			}
		}
		check("seen", d.setup)
		d.see(t, sized(tt.now.X, tt.now.Y))
		check("seen again", d.setup)
		check("at the next start", restart(t, d).setup)
		if r, _ := d.settings.Pictures.Of(tt.from); tt.from.Kind != setup.SourceRegion && r.Size() != tt.now {
			t.Errorf("%s: %v is remembered as its size", tt.what, r.Size())
		}
	}
}

// One tap takes away all that lies on a picture, for good but for undo, by the keys or the message.
func TestForget(t *testing.T) {
	for name, undo := range map[string]func(*Desk){
		"undo": (*Desk).Undo, "the message": func(d *Desk) { d.Messages.Acts[host.MessageNote].Do() },
	} {
		d, img := newTestDesk(t, settings.Defaults()), guitest.Halves(guitest.Light, guitest.Shadow)
		d.seePicture(t, heron, img)
		laid := lying(d.layOn(t, img))
		chooseInMenu(t, d, "Forget all on this picture")
		if _, ok := d.settings.Pictures.Of(heron); ok || !d.setup.Bare() || !restart(t, d).setup.Bare() {
			t.Errorf("%s: left are %+v, remembered %v", name, d.setup, ok)
		}
		undo(d)
		if got := lying(d.setup); !reflect.DeepEqual(got, laid) || !reflect.DeepEqual(lying(restart(t, d).setup), laid) {
			t.Errorf("%s: back are %+v", name, got)
		}
		d.memory.ClearSpots()
		if again := restart(t, d).setup; len(again.Places) != 0 || len(again.Areas) != 1 {
			t.Errorf("%s: cleared, the next start has %+v", name, again)
		}
	}
	d := newTestDesk(t, settings.Defaults())
	chooseInMenu(t, d, "Forget all on this picture")
	if len(d.history.Past) > 0 || d.Messages.Said[host.MessageNote] == "" {
		t.Error("with nothing to forget there is a step of undo, or no word")
	}
}

func chooseInMenu(t *testing.T, d *Desk, words string) {
	t.Helper()
	for _, row := range menuRows(d) {
		for _, item := range row.Items {
			if item.Words == words {
				item.Do()
				return
			}
		}
	}
	t.Fatalf("the menu has no %q", words)
}

// A target comes back with its picture, also at the next start; what was never watched keeps the one
// of before. One that was taken away stays so.
func TestTargetsAreRemembered(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	d := newTestDesk(t, settings.Defaults())
	d.seePicture(t, heron, img)
	d.target.Restore(path, "")
	d.seePicture(t, reed, img)
	if d.setup.Target == nil {
		t.Fatal("the target is gone with another picture")
	}
	d.placeSpot(setup.Place{At: image.Pt(7, 7)}, false)
	d.target.Set(nil)
	d.watch(heron)
	if got, _ := d.setup.Target.Origin(); got != path || d.settings.Target != path {
		t.Errorf("back is the target %q, kept %q", got, d.settings.Target)
	}
	d.watch(reed)
	if d.setup.Target != nil || d.settings.Target != "" {
		t.Error("the target that was taken away is back")
	}
	again := restart(t, d)
	if again.setup.Target != nil {
		t.Error("at the next start there is a target")
	}
	again.Leaving.Store(false)
	if again.watch(heron); again.setup.Target == nil {
		t.Error("after the next start the target does not come back")
	}
	if r, ok := again.settings.Pictures.Of(heron); !ok || r.Target != path {
		t.Errorf("remembered is %+v", r)
	}
}

// What lies on a followed window goes along with its title.
func TestRenamedWindowIsRemembered(t *testing.T) {
	d, img := newTestDesk(t, settings.Defaults()), guitest.Halves(guitest.Light, guitest.Shadow)
	d.seePicture(t, window, img)
	laid := lying(d.layOn(t, img))
	windowRenamed(d, window, "Heron, changed")
	changed := window
	changed.Title = "Heron, changed"
	laid.Source = changed
	if got := lying(restart(t, d).setup); !reflect.DeepEqual(got, laid) {
		t.Errorf("at the next start %+v, want %+v", got, laid)
	}
	if _, ok := d.settings.Pictures.Of(window); ok || len(d.settings.Pictures) != 1 {
		t.Errorf("remembered are %+v", d.settings.Pictures)
	}
}
