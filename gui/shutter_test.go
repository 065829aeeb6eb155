package gui

import (
	"image"
	"image/color"
	"image/draw"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/flashes"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/settings"
)

// steps is a picture of all greys with large light and dark squares over it: any view, knob
// and part of it looks otherwise.
func steps() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			v := uint8(x*255/400 + 128*((x/50+y/50)%2))
			img.SetNRGBA(x, y, color.NRGBA{v, v, v, 255})
		}
	}
	return img
}

// judge is what comes of the flashes of what is really drawn where the mirror was.
type judge struct {
	d     *Desk
	at    image.Rectangle
	meter flashes.Meter
	late  int // pictures in which a quarter changed back
}

func newJudge(d *Desk) *judge {
	at, size := d.App.Driver().AbsolutePositionForObject(d.Mirror).Add(d.Mirror.Fit().Pos), d.Mirror.Fit().Size
	j := &judge{d: d, at: image.Rect(int(at.X), int(at.Y), int(at.X+size.Width), int(at.Y+size.Height))}
	j.meter.Every = time.Hour
	j.look()
	return j
}

func (j *judge) look() {
	img := image.NewRGBA(image.Rectangle{Max: j.at.Size()})
	draw.Draw(img, img.Rect, j.d.Window.Canvas().Capture(), j.at.Min, draw.Src)
	var l flashes.Levels
	l.Measure(colour.RGB{}, flashes.Whole(analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy()}))
	if j.meter.Wait(&l, j.d.Mirror.Clock()) > 0 {
		j.late++
	}
	j.meter.Show(&l, j.d.Mirror.Clock())
}

// While no time passes, no key changes the mirror to and fro: all there is is one change
// of the picture and four moves of the mirror. When it has passed, all is as was asked last.
func TestNoKeyGetsRoundTheLimit(t *testing.T) {
	lawtest.SkipRaced(t)
	for name, press := range map[string]func(d *Desk, i int){
		"knob":    func(d *Desk, i int) { d.turnKnob(3 * (2*(i%2) - 1)) },
		"pages":   func(d *Desk, _ int) { d.nextPage(1) },
		"enlarge": func(d *Desk, i int) { d.Mirror.Zoom(8 * (1 - 2*(i%2))) },
		"panels":  func(d *Desk, _ int) { d.TypedKey(fyne.KeyF1) },
		"views": func(d *Desk, i int) { // however the limit on views is got round
			d.settings.View = [...]string{"two-tone", "chroma"}[i%2]
			d.settled()
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := settings.Defaults()
			s.View = "bands"
			d := newTestDesk(t, s)
			img := steps()
			d.see(t, img)
			now := time.Now()
			d.Mirror.Clock = func() time.Time { return now }
			j := newJudge(d)
			var due []func()
			d.Later = func(_ time.Duration, f func()) func() { due = append(due, f); return func() {} }
			d.Mirror.Flashes.Every = time.Hour
			for i := range 12 {
				press(d, i)
				d.see(t, img)
				j.look()
			}
			most := 1
			if name == "pages" || name == "panels" {
				most = 4
			}
			if j.late > most {
				t.Errorf("%d times too much", j.late)
			}
			d.Mirror.Flashes.Every = 0
			for len(due) > 0 {
				f := due[0]
				due = due[1:]
				f()
			}
			size := d.Mirror.Size()
			if d.layOut(); d.Mirror.Picture() != d.worker.Last().Img || d.Mirror.Size() != size {
				t.Error("what waited is not what is shown at last")
			}
		})
	}
}

// It is said that the picture flashes for as long as it does.
func TestFlashingIsSaid(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	for _, flashes := range []bool{false, true, true, false, true} {
		d.last.flashes = flashes
		d.standing.show(d)
		if got := d.parts.message.Text(); (got == "Flashes: shown 3 times a second") != flashes {
			t.Errorf("flashing %v, it says %q", flashes, got)
		}
	}
}
