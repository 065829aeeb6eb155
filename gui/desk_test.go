package gui

import (
	"context"
	"image"
	"image/color"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// newTestDesk is a desk without a screen, whose frames are given by hand, on this
// goroutine.
func newTestDesk(t *testing.T, s settings.Settings) *Desk {
	t.Helper()
	return newTestDeskOn(t, s, stills.New(stills.Folders{Data: filepath.Join(t.TempDir(), "stills"), Cache: filepath.Join(t.TempDir(), "cache")}))
}

// newTestDeskOn is newTestDesk with a store of stills.
func newTestDeskOn(t *testing.T, s settings.Settings, store *stills.Store) *Desk {
	t.Helper()
	app := test.NewTempApp(t)
	d := NewDesk(app, Options{
		Settings:   s,
		Keeper:     settings.NewKeeper(filepath.Join(t.TempDir(), "settings.json"), func(err error) { t.Error(err) }),
		Screen:     func() (capture.Backend, error) { return nil, capture.ErrNoDisplay },
		background: func(f func()) { f() },
		Stills:     store,
	})
	d.flashes.Every, d.worker.TextEvery, d.worker.CanvasSettles = 0, 0, 0 // tests are no painters
	d.Mirror.Flashes.Every = 0
	d.Messages.Later = nil                                                // nothing fades while a test looks
	d.Later = func(time.Duration, func()) func() { return func() {} }     // a timer would run beside the test
	t.Cleanup(func() { d.Leaving.Store(true) })                           // no timer runs beside the next test
	d.clipboard.Put = func([]byte) error { return native.ErrUnsupported } // never the user's clipboard
	d.marker.saver.Saved = func() {}                                      // it would run beside the test
	t.Cleanup(d.worker.Close)
	t.Cleanup(d.marker.saver.Flush)
	t.Cleanup(func() { _ = d.options.Keeper.Flush() }) // its error is told by the keeper
	d.Window.Resize(fyne.NewSize(s.Width, s.Height))
	d.Window.Show()
	if !chosen(d) {
		d.apply(setup.Setup{Source: setup.Source{Kind: setup.SourceDemo}, Shade: d.setup.Shade})
	}
	return d
}

// see shows a frame, as the watcher would.
func (d *Desk) see(t *testing.T, img *image.NRGBA) {
	t.Helper()
	stream := picturefile.NewStream(img.Pix, img.Stride, img.Rect.Size())
	var f capture.Frame
	if _, err := stream.Grab(context.Background(), &f); err != nil {
		t.Fatal(err)
	}
	d.publish()
	d.worker.Frame(&f, false)
	d.worker.Frame(&f, true) // what was asked for meanwhile
}

// Halves is a picture of two colours side by side.

// press clicks on a source pixel, through the mirror's own pointer handling.
func press(m *widgets.Mirror, at image.Point, mod fyne.KeyModifier) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: mod}
	e.Position = m.Fit().Pane(at)
	m.MouseDown(e)
	m.MouseUp(e)
}

func drag(m *widgets.Mirror, from, to image.Point) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = m.Fit().Pane(from)
	m.MouseDown(e)
	for i := 1; i <= 4; i++ {
		at := from.Add(to.Sub(from).Mul(i).Div(4))
		m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: m.Fit().Pane(at)}})
	}
	e.Position = m.Fit().Pane(to)
	m.MouseUp(e)
	m.DragEnd()
}

func TestDeskComparesTwoClicks(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	m := d.Mirror
	press(m, image.Pt(100, 150), 0)
	press(m, image.Pt(300, 150), 0)
	d.see(t, img)
	if got := d.parts.sentence.Text().Title; got != "B is 2.2"+wording.Nbsp+"tones darker" {
		t.Errorf("the sentence is %q", got)
	}
	press(m, image.Pt(120, 20), 0) // B again
	d.see(t, img)
	if got := d.parts.sentence.Text().Title; got != "Same lightness" || len(d.setup.Places) != 2 {
		t.Errorf("the sentence is %q, of %d spots", got, len(d.setup.Places))
	}
	press(m, image.Pt(350, 280), fyne.KeyModifierShift)
	if len(d.setup.Places) != 3 {
		t.Errorf("%d spots after a click with Shift", len(d.setup.Places))
	}
	d.Undo()
	d.Undo()
	d.see(t, img)
	if got := d.setup.Places[1].At; got != image.Pt(300, 150) {
		t.Errorf("after two steps back B lies at %v", got)
	}
}

func TestDeskDragMeasuresArea(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	drag(d.Mirror, image.Pt(150, 50), image.Pt(249, 149))
	d.see(t, img)
	if want := image.Rect(150, 50, 250, 150); len(d.setup.Places) != 1 || d.setup.Places[0].Area != want {
		t.Fatalf("spots %+v, want the area %v", d.setup.Places, want)
	}
	// half of the area in each colour: the spread of L* 74.18 and 52.45 is half their
	// difference (CIE15)
	if got := d.last.spots[0].Spread; got < 10.8 || got > 10.9 {
		t.Errorf("spread %.2f, want 10.87", got)
	}
}

func TestDeskLeavesOut(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	d.TypedRune('o')
	drag(d.Mirror, image.Pt(0, 0), image.Pt(199, 299))
	d.see(t, img)
	if r := d.worker.Last().Reading; r.Counted != 200*300 {
		t.Errorf("%d pixels are counted without the left half, want %d", r.Counted, 200*300)
	}
	d.TypedRune('a')
	d.see(t, img)
	d.TypedRune('l')
	press(d.Mirror, image.Pt(300, 100), 0)
	d.see(t, img)
	if r := d.worker.Last().Reading; r.Counted != 200*300 || r.Mean < 70 {
		t.Errorf("%d pixels of mean %.1f are counted without the shadow's colour", r.Counted, r.Mean)
	}
	if len(d.setup.Places) != 0 {
		t.Error("the click that chose a colour placed a spot")
	}
	if under := d.parts.bar.Source.Tip(); !strings.Contains(under, "50"+wording.Nbsp+"% counted") {
		t.Errorf("the source bar says %q", under)
	}
	d.see(t, guitest.Halves(guitest.Shadow, guitest.Light)) // the colour is followed, not the place
	if r := d.worker.Last().Reading; r.Counted != 200*300 || r.Mean < 70 {
		t.Errorf("turned round, %d pixels of mean %.1f are counted", r.Counted, r.Mean)
	}
	was := d.settings
	d.settings.LikeWithin = 12
	d.chosen(was)
	if got := d.setup.Seeds[0].Within; got != 12 {
		t.Errorf("after the setting changed, it is left out within %g", got)
	}
	d.Undo()
	d.Undo()
	d.see(t, img)
	if r := d.worker.Last().Reading; r.Counted != 400*300 || strings.Contains(d.parts.bar.Source.Tip(), "counted") {
		t.Errorf("after undo %d pixels are counted; the source bar says %q", r.Counted, d.parts.bar.Source.Tip())
	}
}

func TestDeskNarrowsAndUndoes(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	press(d.Mirror, image.Pt(100, 150), 0)
	d.TypedRune('w')
	drag(d.Mirror, image.Pt(50, 50), image.Pt(149, 249))
	d.see(t, img)
	if want := image.Rect(50, 50, 150, 250); d.last.bounds != want || len(d.setup.Places) != 1 {
		t.Errorf("watched is %v with %d spots, want %v and the spot inside", d.last.bounds, len(d.setup.Places), want)
	}
	if d.setup.Places[0].Moved {
		t.Error("watching a part of the picture counts as a moved picture")
	}
	d.Undo()
	d.see(t, img)
	if want := image.Rect(0, 0, 400, 300); d.last.bounds != want {
		t.Errorf("after undo %v is watched, want %v", d.last.bounds, want)
	}
}

// A click on a spot's code copies it, one on the cross of a row deletes the spot.
func TestSpotCopiesAndDeletes(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	press(d.Mirror, image.Pt(100, 150), 0)
	d.see(t, img)
	tap := func(part func(fyne.CanvasObject) bool) {
		objects := test.LaidOutObjects(d.parts.spots)
		o := objects[slices.IndexFunc(objects, part)]
		at := d.App.Driver().AbsolutePositionForObject(o)
		test.TapCanvas(d.Window.Canvas(), at.AddXY(o.Size().Width/2, o.Size().Height/2))
	}
	tap(func(o fyne.CanvasObject) bool {
		words, ok := o.(*canvas.Text)
		return ok && words.Text == "#e2ab85"
	})
	if got := d.App.Clipboard().Content(); got != "#e2ab85" {
		t.Errorf("the clipboard has %q", got)
	}
	for _, x := range []int{200, 300} {
		press(d.Mirror, image.Pt(x, 150), fyne.KeyModifierShift)
		d.see(t, img)
	}
	tap(func(o fyne.CanvasObject) bool {
		_, cross := o.(*canvas.Image)
		return cross
	})
	if len(d.setup.Places) != 2 {
		t.Errorf("%d spots are left of three", len(d.setup.Places))
	}
}

// Every command that has a key does something other than fall over, in every state of the
// window that a painter gets to first.
func TestDeskCommandsNeverPanic(t *testing.T) {
	for _, withPicture := range []bool{false, true} {
		d := newTestDesk(t, settings.Defaults())
		if withPicture {
			d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
			press(d.Mirror, image.Pt(100, 150), 0)
		}
		for _, c := range commands() {
			if c.name == "Quit" || c.name == "Choose a region" || c.name == "Open a picture" {
				continue // they leave the window
			}
			c.does(d)
			for _, key := range []fyne.KeyName{fyne.KeyLeft, fyne.KeySpace, fyne.KeyEscape} {
				d.Mirror.TypedKey(&fyne.KeyEvent{Name: key})
			}
		}
	}
}

// No two commands share a key.
func TestKeysAreUnique(t *testing.T) {
	seen := map[string]string{}
	note := func(key, name string) {
		if other, twice := seen[key]; twice {
			t.Errorf("%q does %q and %q", key, other, name)
		}
		seen[key] = name
	}
	for _, c := range commands() {
		for _, r := range c.runes {
			note(string(r), c.name)
		}
		if c.ctrl != "" {
			note("Ctrl+"+string(c.ctrl), c.name)
		}
		if c.key != "" {
			note("key "+string(c.key), c.name)
		}
	}
}

// Below the keys stands where messages are kept, if they are.
func TestKeysPanelNamesTheFileOfMessages(t *testing.T) {
	for _, path := range []string{"", "/state/tonedesk/desk.log"} {
		d := newTestDesk(t, settings.Defaults())
		d.options.Messages = path
		d.openPanel(panelKeys)
		var said []string
		for _, r := range d.parts.sheet.Content().(*widgets.Form).Rows() {
			if strings.HasPrefix(r.Note, "Messages") {
				said = append(said, r.Note)
			}
		}
		if path == "" && said != nil || path != "" && (len(said) != 1 || !strings.Contains(said[0], path)) {
			t.Errorf("kept in %q, it says %q", path, said)
		}
	}
}

// Keys alone set two spots, measure an area and delete.
func TestDeskByKeysAlone(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	m := d.Mirror
	strike := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			m.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	strike(fyne.KeyLeft) // the cursor appears in the middle
	m.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	strike(fyne.KeyLeft)
	m.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	strike(fyne.KeySpace)
	if len(d.setup.Places) != 1 || d.setup.Places[0].At != image.Pt(190, 150) {
		t.Fatalf("spots %+v, want one at (190,150)", d.setup.Places)
	}
	d.TypedRune('m')
	strike(fyne.KeySpace, fyne.KeyRight, fyne.KeyDown, fyne.KeySpace)
	if want := image.Rect(190, 150, 192, 152); len(d.setup.Places) != 2 || d.setup.Places[1].Area != want {
		t.Fatalf("spots %+v, want the area %v", d.setup.Places, want)
	}
	d.TypedKey(fyne.KeyDelete)
	if len(d.setup.Places) != 1 {
		t.Errorf("%d spots after Delete", len(d.setup.Places))
	}
}

// All of the window is grey but the picture and swatches: with greys in them there is no hue at all.
func TestDeskIsGrey(t *testing.T) {
	for _, ground := range settings.Themes() {
		t.Run(string(ground), func(t *testing.T) {
			s := settings.Defaults()
			s.Theme = ground
			d := newTestDesk(t, s)
			grey := guitest.Halves(color.NRGBA{0xb6, 0xb6, 0xb6, 255}, color.NRGBA{0x7c, 0x7c, 0x7c, 255})
			d.see(t, grey)
			press(d.Mirror, image.Pt(100, 150), 0)
			press(d.Mirror, image.Pt(300, 150), 0)
			d.see(t, grey)
			guitest.AssertNeutral(t, d.Window.Canvas().Capture())
		})
	}
}

func TestViewsHaveNames(t *testing.T) {
	for _, v := range views.All() {
		if menus.ViewName(v.Key) != v.Name || strings.TrimSpace(v.Name) == "" {
			t.Errorf("view %q is called %q", v.Key, menus.ViewName(v.Key))
		}
	}
}
