package live

import (
	"image"
	"image/color"
	"image/draw"
	"slices"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

var (
	black = color.NRGBA{0, 0, 0, 255}
	white = color.NRGBA{255, 255, 255, 255}
)

// halves is a picture of two colours side by side.
func halves(w, h int, left, right color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, image.Rect(0, 0, w/2, h), image.NewUniform(left), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(w/2, 0, w, h), image.NewUniform(right), image.Point{}, draw.Src)
	return img
}

func pixelsOf(img *image.NRGBA) analysis.Pixels {
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy(), Layout: analysis.RGBA}
}

func frameOf(img *image.NRGBA) *capture.Frame {
	return &capture.Frame{Pix: img.Pix, Stride: img.Stride, Size: img.Rect.Size(), At: time.Unix(7, 0)}
}

// whole lays out all of a picture, pixel for pixel.
func whole(bounds image.Rectangle) Lay { return Lay{bounds, bounds.Size()} }

// wantsAll wants all of a picture file in greys, and nothing more.
func wantsAll() Wanted {
	return Wanted{Settings: settings.Defaults(), Setup: setup.Setup{Source: setup.Source{Kind: setup.SourcePicture, Path: "a.png"}}, Lay: whole}
}

// taskOf is the task of a picture at origin, as begin makes it.
func taskOf(img *image.NRGBA, next Wanted, origin image.Point) *task {
	p := pixelsOf(img)
	bounds := p.Bounds().Add(origin)
	return &task{Wanted: next, view: ViewOf(next), pixels: p, bounds: bounds, lay: next.Lay(bounds)}
}

// rig is a worker with all that it told.
type rig struct {
	*Worker
	next  Wanted
	now   time.Time
	shown []Shown
	again []time.Duration
	log   []error
	onto  func(*Shown) // called beside; may panic
}

func newRig(t *testing.T) *rig {
	r := &rig{next: wantsAll(), now: time.Unix(1000, 0)}
	search := NewSearch(func(Found) {}, func(err error) { r.log = append(r.log, err) })
	r.Worker = NewWorker(Owner{
		Show: func(s *Shown) {
			r.shown = append(r.shown, *s)
			if r.onto != nil {
				r.onto(s)
			}
		},
		Again: func(after time.Duration) { r.again = append(r.again, after) },
		Log:   func(err error) { r.log = append(r.log, err) },
	}, search)
	r.Worker.now = func() time.Time { return r.now }
	search.now = r.Worker.now
	t.Cleanup(search.Close)
	t.Cleanup(r.Close)
	return r
}

// see gives a frame, and returns what was shown; nil for nothing.
func (r *rig) see(f *capture.Frame, repeated bool) *Shown {
	r.Want(r.next)
	before := len(r.shown)
	r.Frame(f, repeated)
	if len(r.shown) == before {
		return nil
	}
	return &r.shown[before]
}

// greys are the red channel of a picture's row.
func greys(img *image.RGBA, y int) (row []uint8) {
	for x := range img.Rect.Dx() {
		row = append(row, img.RGBAAt(x, y).R)
	}
	return row
}

func wantGreys(t *testing.T, what string, img *image.RGBA, y int, want ...uint8) {
	t.Helper()
	if img == nil {
		t.Errorf("%s: no picture", what)
	} else if got := greys(img, y); !slices.Equal(got, want) {
		t.Errorf("%s: greys %v, want %v", what, got, want)
	}
}
