package live

import (
	"bytes"
	"context"
	"errors"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/setup"
)

// A half-transparent picture file is shown over white, is not written to, and is no change
// when it is saved again as it was.
func TestTransparentFileSavedAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.png") // outside: it is taken away after the bubble
	synctest.Test(t, func(t *testing.T) {
		var b bytes.Buffer
		// a fifth of black over white is 204, all of white 255 (W3C Compositing and Blending Level 1)
		if err := png.Encode(&b, halves(4, 2, color.NRGBA{0, 0, 0, 51}, color.NRGBA{255, 255, 255, 51})); err != nil {
			t.Fatal(err)
		}
		save := func(at int64) {
			if err := errors.Join(os.WriteFile(path, b.Bytes(), 0o600), os.Chtimes(path, time.Unix(at, 0), time.Unix(at, 0))); err != nil {
				t.Fatal(err)
			}
		}
		save(1e9)
		picture, err := picturefile.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		before := slices.Clone(picture.Pix)
		stream := picture.Stream()
		defer stream.Close()
		r := newRig(t)
		var f capture.Frame
		if changed, err := stream.Grab(context.Background(), &f); !changed || err != nil {
			t.Fatal(changed, err)
		}
		r.next.Settings.SpotSize, r.next.Setup.Places = 1, []setup.Place{{}}
		for _, repeated := range []bool{false, true} {
			s := r.see(&f, repeated)
			wantGreys(t, "over white", s.Img, 0, 204, 204, 255, 255)
			if got := s.Spots[0].Colour; got != (colour.RGB{R: 204, G: 204, B: 204}) {
				t.Errorf("over white a spot reads %v", got)
			}
		}
		r.next.Settings.View = "colour"
		wantGreys(t, "in another view", r.see(&f, true).Img, 0, 204, 204, 255, 255)
		if !bytes.Equal(picture.Pix, before) {
			t.Error("the picture was written to")
		}
		save(1e9 + 1)
		for range 30 {
			time.Sleep(100 * time.Millisecond) // the bubble's time, which goes on when all is done
			if changed, err := stream.Grab(context.Background(), &f); changed || err != nil {
				t.Fatalf("saved again as it was, it is a change: %v, %v", changed, err)
			}
		}
	})
}
