package main

import (
	"context"
	"fmt"
	"image"
	"math/rand/v2"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// Where latency is measured: a screen with room for the program, and for a window of the toolkit that does
// no more than show what changes, each beside a painting of its own.
var (
	latencyScreen  = xvfbtest.Options{Width: 2400, Height: 1600, WindowManager: true}
	latencyOurs    = image.Rect(0, 0, 1280, 720)
	latencyToolkit = image.Rect(0, 800, 1280, 1520)
	latencyPlace   = image.Pt(1900, 60) // of the window that is measured beside ours
)

// quietGreys are two greys that no limit takes for flashing: their luminances, 0.05 and 0.10, differ
// by less than a tenth. Source: WCAG 2.2, definition of general flash.
var quietGreys = [2]uint32{0x404040, 0x595959}

// shower is a window that shows a painting, and what it took.
type shower struct {
	painting image.Rectangle
	stream   capture.Stream // two by two pixels of what it shows
	f        capture.Frame
	times    []time.Duration
}

// newShower watches a window where it shows a painting's middle.
func newShower(t *testing.T, backend capture.Backend, painting image.Rectangle, at image.Point) *shower {
	stream, err := backend.Open(context.Background(), image.Rectangle{Min: at, Max: at.Add(image.Pt(2, 2))})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = stream.Close() })
	return &shower{painting: painting, stream: stream}
}

// change paints a painting anew, after a while in which it changes so often a second in a place apart, and
// waits for that to be seen. i counts changes.
func (s *shower) change(t *testing.T, painter *xvfbtest.Painter, i, besides int) {
	until := time.Now().Add(200*time.Millisecond + time.Duration(rand.IntN(100))*time.Millisecond) // at any phase of the timer
	for n := 0; time.Now().Before(until); n++ {
		if besides == 0 {
			time.Sleep(time.Until(until))
			continue
		}
		painter.Fill(image.Rect(20, 40, 60, 80).Add(s.painting.Min), uint32(n*0x030507)&0xffffff) // not where it is read back
		time.Sleep(time.Second / time.Duration(besides))
	}
	if _, err := s.stream.Grab(context.Background(), &s.f); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	painter.Fill(s.painting, quietGreys[i%2])
	untilChanged(t, s.stream, &s.f)
	s.times = append(s.times, time.Since(start))
}

// percentiles are the 50th, 95th and 99th of times.
func percentiles(times []time.Duration) (p [3]time.Duration) {
	slices.Sort(times)
	for i, percent := range [3]int{50, 95, 99} {
		p[i] = times[len(times)*percent/100]
	}
	return p
}

func milliseconds(p [3]time.Duration) string {
	return fmt.Sprintf("%.0f, %.0f, %.0f ms", p[0].Seconds()*1e3, p[1].Seconds()*1e3, p[2].Seconds()*1e3)
}

// figureLatency paints changes, isolated or so many a second besides, and reads the screen back where the
// mirror is; in turns with that, where a window of the toolkit shows such a painting and does nothing
// else. rate is the one that is set, 0 for the automatic one.
func figureLatency(t *testing.T, page string, rate, besides int, reach time.Duration) {
	server := xvfbtest.Start(t, latencyScreen)
	painter := server.Painter()
	painter.Window(latencyOurs, 0x808080)
	w := desktest.OpenOn(t, server, figureSettings(page, rate), nil)
	l := w.WaitFor("the region", func(l desktest.Shown) bool { return l.Event == "shown" && l.Bounds.Dx() == 1260 })
	backend := desktest.Screen(t, server)
	ours := newShower(t, backend, latencyOurs, w.InsideAt().Add(image.Pt(int(l.Mirror[0]+l.Mirror[2]/2), int(l.Mirror[1]+l.Mirror[3]/2))))
	toolkit := newShower(t, backend, latencyToolkit, bareShower(t, server).Add(image.Pt(182, 97)))
	for i := range 60 {
		ours.change(t, painter, i, besides)
		toolkit.change(t, painter, i, besides)
	}
	got, least := percentiles(ours.times), percentiles(toolkit.times)
	row(fmt.Sprintf("change to mirror, page %s, rate %d, %d changes a second besides: 50th, 95th, 99th percentile of %d; the same of a window of the toolkit that shows such a picture and nothing else, in turns", page, rate, besides, len(ours.times)),
		milliseconds(got)+"; "+milliseconds(least), "95th "+reach.String())
	if got[1] > reach {
		t.Errorf("%v", got[1])
	}
	w.Quit()
}

// bareShower opens a window of the toolkit that shows a painting and nothing else, and returns where its
// inside lies.
func bareShower(t *testing.T, server *xvfbtest.Server) image.Point {
	part := latencyToolkit.Inset(10)
	cmd := exec.Command(buildEmpty(t), "shows", fmt.Sprint(part.Min.X), fmt.Sprint(part.Min.Y), fmt.Sprint(part.Dx()), fmt.Sprint(part.Dy()))
	cmd.Env = append(server.Env(), "HOME="+t.TempDir(), "FYNE_SCALE=1")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	w := &desktest.Window{T: t, Server: server}
	server.WaitFor("the window of the toolkit", func() bool {
		out, _ := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^empty$")
		w.ID = strings.TrimSpace(out)
		return w.ID != ""
	})
	w.Do("windowmove", "--sync", w.ID, fmt.Sprint(latencyPlace.X), fmt.Sprint(latencyPlace.Y))
	time.Sleep(time.Second) // it has drawn itself there
	return w.InsideAt()
}
