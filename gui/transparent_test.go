package gui

import (
	"bytes"
	"image"
	"image/color"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
)

// A half-transparent still is shown, measured and exported over white, and stays what it
// is: its layers are exported as transparent as they are.
func TestTransparentStill(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(color.NRGBA{0, 0, 0, 51}, color.NRGBA{255, 255, 255, 51})
	p := analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: 400, Height: 300}
	id, err := d.options.Stills.Keep(p, stills.Meta{Time: time.Unix(1e9, 0)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.stills.open(id)
	stream, err := d.stills.stream(id)
	if err != nil {
		t.Fatal(err)
	}
	before := slices.Clone(d.marker.Still().Picture.Pix)
	d.setup.Places = []setup.Place{{At: image.Pt(50, 50)}}
	d.publish()
	var f capture.Frame
	if _, err := stream.Grab(t.Context(), &f); err != nil {
		t.Fatal(err)
	}
	d.worker.Frame(&f, false)
	over := colour.RGB{R: 204, G: 204, B: 204} // a fifth of black (W3C Compositing and Blending Level 1)
	if len(d.last.spots) != 1 || d.last.spots[0].Colour != over {
		t.Errorf("a spot reads %+v, want %v", d.last.spots, over)
	}
	for _, way := range exportWays() {
		path := filepath.Join(t.TempDir(), "still"+way.ending)
		d.stills.exporter.write(way, d.marker.Still(), path)
		wantAlpha := map[string]byte{".png": 255, ".ora": 51}[way.ending]
		if wantAlpha == 0 || !way.Picture && way.ending == ".png" {
			continue
		}
		if got, err := picturefile.Open(path); err != nil || got.Pix[3] != wantAlpha {
			t.Errorf("%s: %v, want alpha %d", way.name, err, wantAlpha)
		}
	}
	if !bytes.Equal(d.marker.Still().Picture.Pix, before) {
		t.Error("the still was written to")
	}
}
