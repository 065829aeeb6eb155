package attack

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// flashKeys are the keys that are held: all that change how the picture looks, and those that
// might.
var flashKeys = []string{
	"plus", "ctrl+Next", "v", "shift+v", "x", "minus", "ctrl+equal", "ctrl+minus", "ctrl+0", "ctrl+Prior", "Next", "Prior", "f", "d", "n", "e", "a",
	"1", "2", "3", "4", "5", "6", "7", "8", "9", "0", "g", "h", "s", "c", "S", "m", "o", "l", "w", "k", "t", "space", "Tab", "Left", "ctrl+z", "ctrl+y", "Delete", "F1", "ctrl+comma",
}

// Whatever key is held, and however the watched picture flashes, the mirror never flashes
// more often than WCAG 2.2 allows. It reads the screen back where the mirror is; no other
// test of this program may: there is one connection a process.
func TestFlashes(t *testing.T) { // alone: on a loaded machine the window draws less often
	y := newTally("keys held, flashes of the mirror")
	server, painter, id := desktest.ScreenWithPatches(t)
	worst := 0.0
	w, look := watched(t, server, "grey")
	for _, perSecond := range []int{4, 5, 7, 10}[:times(1, 4)] {
		over := look.watch(func(ctx context.Context) { flicker(ctx, painter, id, perSecond) })
		worst = max(worst, over)
		y.try(t, flashed(over, fmt.Sprintf("while the watched picture flashes %d times a second", perSecond))...)
	}
	look.close()
	flashingIsSaid(w, painter, id)
	w.Quit()
	painter.Repaint(id, desktest.Patches(desktest.LightSkin, desktest.ShadowSkin))
	for _, view := range []string{"bands", "grey"}[:times(1, 2)] {
		for _, key := range flashKeys[:times(3, len(flashKeys))] {
			if y.late() {
				break
			}
			w, look := watched(t, server, view)
			over := look.watch(func(ctx context.Context) {
				w.Script(ctx, []string{"key --delay 33 --repeat 60 " + key})
			})
			look.close()
			_, _ = w.Tool("xdotool", "keyup", key) // the script was ended, maybe between down and up
			w.Quit()
			worst = max(worst, over)
			y.try(t, flashed(over, "while "+key+" is held in view "+view)...)
		}
	}
	y.measure("at the worst %.0f %% of the mirror more than three times in a second", 100*worst)
}

// flashingIsSaid waits until the window says that the picture flashes, and until it doesn't
// any more.
func flashingIsSaid(w *desktest.Window, painter *xvfbtest.Painter, id uint32) {
	ctx, stop := context.WithCancel(w.T.Context())
	done := make(chan struct{})
	go func() { defer close(done); flicker(ctx, painter, id, 4) }()
	w.WaitFor("that it flashes", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Flashes: ") })
	stop()
	<-done
	w.WaitFor("that it flashes no more", func(l desktest.Shown) bool { return l.Message == "" })
}

// watched opens a window on the patches in a view, and an eye on its mirror.
func watched(t *testing.T, server *xvfbtest.Server, view string) (*desktest.Window, *eye) {
	t.Helper()
	settings := strings.Replace(desktest.WatchPatches, `{`, `{"view": "`+view+`", `, 1)
	w := desktest.OpenOn(t, server, settings, nil)
	l := w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 && l.View == view })
	mirror := image.Rect(int(l.Mirror[0]), int(l.Mirror[1]), int(l.Mirror[0]+l.Mirror[2]), int(l.Mirror[1]+l.Mirror[3]))
	return w, openEye(t, server, mirror.Add(w.InsideAt()))
}

func flashed(over float64, when string) []string {
	if over <= flashPart {
		return nil
	}
	return []string{fmt.Sprintf("%.0f %% of the mirror flashed more than three times in a second %s", 100*over, when)}
}

// flicker has the watched picture change so often a second between black and white.
func flicker(ctx context.Context, painter *xvfbtest.Painter, id uint32, flashes int) {
	tick := time.NewTicker(time.Second / time.Duration(2*flashes))
	defer tick.Stop()
	for i := 0; ; i++ {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		painter.Repaint(id, plain(uint8(255*(i%2))))
	}
}

// plain is the watched picture in one grey.
func plain(v uint8) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	draw.Draw(img, img.Rect, image.NewUniform(color.NRGBA{v, v, v, 255}), image.Point{}, draw.Src)
	return img
}

// eye reads a part of the screen back.
type eye struct {
	t       *testing.T
	backend capture.Backend
	stream  capture.Stream
}

func openEye(t *testing.T, server *xvfbtest.Server, part image.Rectangle) *eye {
	t.Helper()
	backend := desktest.Screen(t, server)
	stream, err := backend.Open(t.Context(), part)
	if err != nil {
		t.Fatal(err)
	}
	return &eye{t, backend, stream}
}

func (e *eye) close() {
	_ = e.stream.Close()
	_ = e.backend.Close()
}

// watch looks on for two seconds while something is done, and returns the largest share of
// the part that flashed too often.
func (e *eye) watch(do func(context.Context)) (worst float64) {
	ctx, cancel := context.WithTimeout(e.t.Context(), 2*time.Second)
	defer cancel()
	done := make(chan struct{})
	go func() { defer close(done); do(ctx) }()
	var m flashMeter
	var f capture.Frame
	for tick := time.NewTicker(15 * time.Millisecond); ctx.Err() == nil; <-tick.C { // more often than the window draws
		if _, err := e.stream.Grab(e.t.Context(), &f); err != nil {
			e.t.Fatal(err)
		}
		worst = max(worst, m.add(frameImage(&f), time.Now()))
	}
	<-done
	return worst
}

// frameImage is a frame of a screen as an image.
func frameImage(f *capture.Frame) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: f.Size})
	for y := range f.Size.Y {
		from, to := f.Pix[y*f.Stride:][:4*f.Size.X], img.Pix[y*img.Stride:]
		for i := 0; i < len(from); i += 4 {
			to[i], to[i+1], to[i+2], to[i+3] = from[i+2], from[i+1], from[i], 255
		}
	}
	return img
}
