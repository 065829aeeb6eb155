package main

import (
	"bytes"
	"fmt"
	"image"
	"testing"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/cmd/desk/desktest"
)

// The first tip of all is drawn though nothing else in the window changes: while a picture stands still
// its age is said anew every ten seconds, and that tip is on the screen before.
func TestFirstTipIsDrawn(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	screen := desktest.Screen(t, server)
	w.WaitFor("nothing changing", func(l desktest.Shown) bool { return l.State == "unchanged" })
	w.Do("mousemove", "--window", w.ID, "30", "700") // on the page, where nothing is explained
	var before []byte
	since, chip := time.Now(), w.InsideAt().Add(image.Pt(90, 24))
	server.WaitFor("its age said by tens", func() bool { // every other second at first
		f, err := capture.ReadSquare(t.Context(), screen, chip, 31)
		if err == nil && !bytes.Equal(before, f.Pix) {
			before, since = bytes.Clone(f.Pix), time.Now()
		}
		return time.Since(since) > 4*time.Second
	})
	var freeze [4]float32
	w.WaitFor("the button", func(l desktest.Shown) bool {
		p, ok := desktest.Named(l.Bar, "Freeze")
		freeze = p.Box
		return ok
	})
	h := hands{Window: w}
	x, y := h.place("Freeze")
	h.Do("mousemove", "--window", w.ID, fmt.Sprint(int(x)), fmt.Sprint(int(y)))
	begun := time.Now()
	tip := w.InsideAt().Add(image.Pt(int(x), int(freeze[1]+freeze[3])+6)) // a tip's ground has the text's grey, L* 90
	server.WaitFor("the tip below it", func() bool {
		f, err := capture.ReadSquare(t.Context(), screen, tip, 1)
		return err == nil && min(f.Pix[0], f.Pix[1], f.Pix[2]) > 0xd0 && f.Pix[0] == f.Pix[1]
	})
	if waited := time.Since(begun); waited > 4*time.Second {
		t.Errorf("the tip came after %v, with the next change", waited)
	} else {
		t.Log("after", waited)
	}
	w.Quit()
}
