package watching

import (
	"context"
	"image"
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/monitors"
	"app.tonedesk/gui/displays"
	"app.tonedesk/gui/settings"
)

// placedStream is a shared screen of 200 x 100 pixels that lies somewhere.
type placedStream struct{ at image.Rectangle }

func (placedStream) Grab(_ context.Context, f *capture.Frame) (bool, error) {
	*f = capture.Frame{Pix: make([]byte, 4), Stride: 4, Size: image.Pt(1, 1)}
	return true, nil
}
func (placedStream) Close() error { return nil }
func (s placedStream) Place() capture.Place {
	return capture.PlaceOf(s.at, image.Pt(200, 100), image.Rectangle{})
}

// Where our own window lies on a shared screen is known where that is a monitor as our window's system
// measures them, and nowhere else; its pixels are those of the picture.
func TestPerhapsOwn(t *testing.T) {
	screen := image.Rect(1000, 0, 1100, 50)
	for name, tt := range map[string]struct {
		at   image.Rectangle
		want image.Rectangle
	}{
		"a monitor":          {screen, image.Rect(20, 40, 60, 80)},
		"measured otherwise": {image.Rect(500, 0, 550, 25), image.Rectangle{}},
		"a window":           {image.Rectangle{}, image.Rectangle{}},
	} {
		c := displays.New(displays.System{List: func(context.Context) ([]monitors.Monitor, error) {
			return []monitors.Monitor{{Name: "left", Rect: image.Rect(0, 0, 1000, 500)}, {Name: "right", Rect: screen}}, nil
		}})
		c.Choose(settings.Defaults().WithColours("left", settings.Colours{In: "Display P3"}))
		w := &Ways{Colours: c}
		w.OwnLies(image.Rect(1010, 20, 1030, 40))
		if got := w.PerhapsOwn(); !got.Empty() {
			t.Errorf("%s: before anything is shared it lies at %v", name, got)
		}
		var placed capture.Placed = placedStream{tt.at}
		now := new(sharedNow)
		now.stream.Store(&placed)
		w.shared.Store(now)
		s := c.Of(placed, func() capture.Place { return placeOf(placed) })
		if _, err := s.Grab(t.Context(), new(capture.Frame)); err != nil {
			t.Fatal(err)
		}
		if got := w.PerhapsOwn(); got != tt.want {
			t.Errorf("%s: it lies at %v, want %v", name, got, tt.want)
		}
	}
}
