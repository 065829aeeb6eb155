package gui

import (
	"context"
	"image"
	"image/color"
	"image/draw"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/stills"
	"app.tonedesk/lawtest"
)

// newTestDesk is a desk without a screen, whose frames are given by hand, on this
// goroutine.
func newTestDesk(t *testing.T, s Settings) *Desk {
	t.Helper()
	app := test.NewTempApp(t)
	d := NewDesk(app, Options{
		Settings: s,
		Keeper:   NewKeeper(filepath.Join(t.TempDir(), "settings.json"), func(err error) { t.Error(err) }),
		Screen:   func() (capture.Backend, error) { return nil, capture.ErrNoDisplay },
		aside:    func(f func()) { f() },
		Stills:   stills.New(stills.Folders{Data: filepath.Join(t.TempDir(), "stills"), Cache: filepath.Join(t.TempDir(), "cache")}),
	})
	d.calm.every = 0                                                 // tests are no painters
	d.clip.put = func([]byte) error { return native.ErrUnsupported } // never the user's clipboard
	d.saver.saved = func() {}                                        // it would run beside the test
	t.Cleanup(d.worker.close)
	t.Cleanup(d.saver.flush)
	t.Cleanup(func() { _ = d.options.Keeper.Flush() }) // its error is told by the keeper
	d.window.Resize(fyne.NewSize(s.Width, s.Height))
	d.window.Show()
	return d
}

// see shows a frame, as the watcher would.
func (d *Desk) see(t *testing.T, img *image.NRGBA) {
	t.Helper()
	stream := capture.NewPictureStream(img.Pix, img.Stride, img.Rect.Size())
	var f capture.Frame
	if _, err := stream.Grab(context.Background(), &f); err != nil {
		t.Fatal(err)
	}
	d.tell()
	d.worker.text = d.worker.text.Add(-textEvery)
	d.worker.frame(&f, false)
	d.worker.frame(&f, true) // what was asked for meanwhile
}

// halves is a picture of two colours side by side.
func halves(left, right color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	draw.Draw(img, image.Rect(0, 0, 200, 300), image.NewUniform(left), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(200, 0, 400, 300), image.NewUniform(right), image.Point{}, draw.Src)
	return img
}

var (
	testLight  = color.NRGBA{0xe2, 0xab, 0x85, 255}
	testShadow = color.NRGBA{0xb2, 0x6a, 0x5c, 255} // 2.2 tones darker (CIE15, D1535)
)

// press clicks on a source pixel, through the mirror's own pointer handling.
func (m *Mirror) press(at image.Point, mod fyne.KeyModifier) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: mod}
	e.Position = m.fit.pane(at)
	m.MouseDown(e)
	m.MouseUp(e)
}

func (m *Mirror) drag(from, to image.Point) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = m.fit.pane(from)
	m.MouseDown(e)
	for i := 1; i <= 4; i++ {
		at := from.Add(to.Sub(from).Mul(i).Div(4))
		m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: m.fit.pane(at)}})
	}
	e.Position = m.fit.pane(to)
	m.MouseUp(e)
	m.DragEnd()
}

func TestDeskComparesTwoClicks(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	m := d.parts.mirror
	m.press(image.Pt(100, 150), 0)
	m.press(image.Pt(300, 150), 0)
	d.see(t, img)
	if got := d.parts.verdict.Text().Title; got != "B is 2.2"+nbsp+"tones darker" {
		t.Errorf("the sentence is %q", got)
	}
	m.press(image.Pt(120, 20), 0) // B again
	d.see(t, img)
	if got := d.parts.verdict.Text().Title; got != "Same lightness" || len(d.setup.Places) != 2 {
		t.Errorf("the sentence is %q, of %d spots", got, len(d.setup.Places))
	}
	m.press(image.Pt(350, 280), fyne.KeyModifierShift)
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
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	d.parts.mirror.drag(image.Pt(150, 50), image.Pt(249, 149))
	d.see(t, img)
	if want := image.Rect(150, 50, 250, 150); len(d.setup.Places) != 1 || d.setup.Places[0].Area != want {
		t.Fatalf("spots %+v, want the area %v", d.setup.Places, want)
	}
	// half of the area in each colour: the spread of L* 74.18 and 52.45 is half their
	// difference (CIE15)
	if got := d.spots[0].Spread; got < 10.8 || got > 10.9 {
		t.Errorf("spread %.2f, want 10.87", got)
	}
}

func TestDeskLeavesOut(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	d.typedRune('o')
	d.parts.mirror.drag(image.Pt(0, 0), image.Pt(199, 299))
	d.see(t, img)
	if r := d.worker.done.reading; r.Counted != 200*300 {
		t.Errorf("%d pixels are counted without the left half, want %d", r.Counted, 200*300)
	}
	d.typedRune('a')
	d.see(t, img)
	d.typedRune('l')
	d.parts.mirror.press(image.Pt(300, 100), 0)
	d.see(t, img)
	if r := d.worker.done.reading; r.Counted != 200*300 || r.Mean < 70 {
		t.Errorf("%d pixels of mean %.1f are counted without the shadow's lightness", r.Counted, r.Mean)
	}
	if len(d.setup.Places) != 0 {
		t.Error("the click that chose a lightness placed a spot")
	}
}

func TestDeskNarrowsAndUndoes(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	d.parts.mirror.press(image.Pt(100, 150), 0)
	d.typedRune('w')
	d.parts.mirror.drag(image.Pt(50, 50), image.Pt(149, 249))
	d.see(t, img)
	if want := image.Rect(50, 50, 150, 250); d.bounds != want || len(d.setup.Places) != 1 {
		t.Errorf("watched is %v with %d spots, want %v and the spot inside", d.bounds, len(d.setup.Places), want)
	}
	if d.setup.Places[0].Moved {
		t.Error("watching a part of the picture counts as a moved picture")
	}
	d.Undo()
	d.see(t, img)
	if want := image.Rect(0, 0, 400, 300); d.bounds != want {
		t.Errorf("after undo %v is watched, want %v", d.bounds, want)
	}
}

// A click on a card's hex code copies it, one on its cross deletes the spot.
func TestCardCopiesAndDeletes(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	d.parts.mirror.press(image.Pt(100, 150), 0)
	d.see(t, img)
	card := d.parts.cards.cards[0]
	middle := func(o fyne.CanvasObject) *fyne.PointEvent {
		return &fyne.PointEvent{Position: o.Position().AddXY(o.Size().Width/2, o.Size().Height/2)}
	}
	card.Tapped(middle(card.r.hex))
	if got := d.app.Clipboard().Content(); got != "#e2ab85" {
		t.Errorf("the clipboard has %q", got)
	}
	card.Tapped(middle(card.r.cross))
	if len(d.setup.Places) != 0 {
		t.Error("the spot is still there")
	}
}

// Every command that has a key does something other than fall over, in every state of the
// window that a painter gets to first.
func TestDeskCommandsNeverPanic(t *testing.T) {
	for _, withPicture := range []bool{false, true} {
		d := newTestDesk(t, Defaults())
		if withPicture {
			d.see(t, halves(testLight, testShadow))
			d.parts.mirror.press(image.Pt(100, 150), 0)
		}
		for _, c := range commands() {
			if c.name == "Quit" || c.name == "Choose a region" || c.name == "Open a picture" {
				continue // they leave the window
			}
			c.does(d)
			for _, key := range []fyne.KeyName{fyne.KeyLeft, fyne.KeySpace, fyne.KeyEscape} {
				d.parts.mirror.TypedKey(&fyne.KeyEvent{Name: key})
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

// Keys alone set two spots, measure an area and delete.
func TestDeskByKeysAlone(t *testing.T) {
	d := newTestDesk(t, Defaults())
	img := halves(testLight, testShadow)
	d.see(t, img)
	m := d.parts.mirror
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
	d.typedRune('m')
	strike(fyne.KeySpace, fyne.KeyRight, fyne.KeyDown, fyne.KeySpace)
	if want := image.Rect(190, 150, 192, 152); len(d.setup.Places) != 2 || d.setup.Places[1].Area != want {
		t.Fatalf("spots %+v, want the area %v", d.setup.Places, want)
	}
	d.typedKey(fyne.KeyDelete)
	if len(d.setup.Places) != 1 {
		t.Errorf("%d spots after Delete", len(d.setup.Places))
	}
}

// The window in the sizes and grounds that a painter uses. Everything but the swatches is
// grey.
func TestDeskLooks(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, tt := range []struct {
		name          string
		ground        Ground
		width, height float32
	}{
		{"desk_dark_380", GroundDark, 380, 760},
		{"desk_light_320", GroundLight, 320, 480},
		{"desk_middle_wide", GroundMiddle, 900, 700},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := Defaults()
			s.Ground, s.Width, s.Height = tt.ground, tt.width, tt.height
			d := newTestDesk(t, s)
			grey := halves(color.NRGBA{0xb6, 0xb6, 0xb6, 255}, color.NRGBA{0x7c, 0x7c, 0x7c, 255})
			d.see(t, grey)
			d.parts.mirror.press(image.Pt(100, 150), 0)
			d.parts.mirror.press(image.Pt(300, 150), 0)
			d.parts.mirror.MouseOut()
			d.see(t, grey)
			d.see(t, grey)
			picture := d.window.Canvas().Capture()
			assertNeutral(t, picture) // all swatches are of greys too
			assertPicture(t, tt.name, picture)
		})
	}
}

func TestViewsHaveNames(t *testing.T) {
	for _, v := range analysis.Views() {
		if viewWord(v.Key) != v.Name || strings.TrimSpace(v.Name) == "" {
			t.Errorf("view %q is called %q", v.Key, viewWord(v.Key))
		}
	}
}
