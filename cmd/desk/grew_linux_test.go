package main

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills"
)

// keepGreys keeps stills of a picture file in two greys, an hour apart, in the home of a window.
func keepGreys(t *testing.T, home, path string, darks ...uint8) *stills.Store {
	t.Helper()
	store := stills.New(stills.Folders{Data: filepath.Join(home, "data", "tonedesk", "stills")})
	for i, dark := range darks {
		p := analysis.Pixels{Pix: make([]byte, 4*40*20), Stride: 160, Width: 40, Height: 20}
		for k := range 40 * 20 {
			c := twoGreys(dark, 200)(k%40, 0)
			copy(p.Pix[4*k:], []byte{c.R, c.G, c.B, 255})
		}
		source := stills.Source{Kind: stills.FromPicture, Path: path, Region: files.RectOf(image.Rect(0, 0, 40, 20))}
		if _, err := store.Keep(p, stills.Meta{Time: time.Date(2026, 3, 1, 12+i, 0, 0, 0, time.UTC), Source: source}, nil); err != nil {
			t.Fatal(err)
		}
	}
	return store
}

// On the page of stills one tap shows how the picture grew, read in the background, and another one
// the small pictures again.
func TestWindowShowsHowItGrew(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	home := t.TempDir()
	path := picture(t, "night.png", 40, 20, twoGreys(100, 200))
	keepGreys(t, home, path, 40, 40, 40, 70, 100)
	w := desktest.OpenIn(t, server, home, `{"version": 1, "width": 380, "height": 760, "page": "Stills"}`, []string{"XDG_DATA_HOME=" + filepath.Join(home, "data")}, path)
	w.WaitFor("the picture, whose shape moves the page", func(l desktest.Shown) bool { return l.Event == "shown" })
	w.WaitFor("the stills", func(l desktest.Shown) bool { return l.Page == "Stills" && len(l.Kept) == 5 })
	tap := func() {
		t.Helper()
		const words = "How it grew; Shift and a click choose stills"
		l := w.WaitFor("its button", func(l desktest.Shown) bool {
			p, ok := desktest.Named(l.Places, words)
			return ok && p.Box[1] > 100
		})
		p, _ := desktest.Named(l.Places, words)
		w.ClickIn(p.Box[0]+p.Box[2]/2, p.Box[1]+p.Box[3]/2)
	}
	tap()
	w.WaitFor("how it grew", func(l desktest.Shown) bool { return strings.Contains(l.Grew, "dark and light have drawn together") })
	tap()
	w.WaitFor("the small pictures", func(l desktest.Shown) bool { return l.Grew == "" })
	tap()
	w.WaitFor("how it grew once more", func(l desktest.Shown) bool { return l.Grew != "" })
	w.Key("Escape")
	w.WaitFor("the small pictures, by Esc", func(l desktest.Shown) bool { return l.Grew == "" })
	w.Quit()
}

// While the picture file changes it is kept by itself; frozen it isn't. This takes minutes.
func TestWindowKeepsByItself(t *testing.T) {
	if os.Getenv("TONEDESK_LONG") != "1" {
		t.Skip("waits for minutes; set TONEDESK_LONG to 1")
	}
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	home := t.TempDir()
	path := picture(t, "night.png", 40, 20, twoGreys(100, 200))
	env := []string{"XDG_DATA_HOME=" + filepath.Join(home, "data")}
	w := desktest.OpenIn(t, server, home, `{"version": 1, "width": 380, "height": 760, "page": "Stills", "keep_every_minutes": 1}`, env, path)
	w.WaitFor("the picture", func(l desktest.Shown) bool { return l.Page == "Stills" })
	store := keepGreys(t, home, path)
	kept := func(want int) {
		t.Helper()
		for end := time.Now().Add(75 * time.Second); time.Now().Before(end); time.Sleep(time.Second) { // the clock is what is tested
			if list, _, err := store.List(); err == nil && len(list) > want {
				break
			}
		}
		list, _, err := store.List()
		if err != nil || len(list) != want || slices.ContainsFunc(list, func(e stills.Entry) bool { return !e.MayGo() }) {
			t.Fatalf("%d are kept, want %d: %v", len(list), want, err)
		}
	}
	kept(1)
	kept(1) // unchanged
	again := picture(t, "again.png", 40, 20, func(int, int) color.NRGBA { return color.NRGBA{90, 90, 90, 255} })
	if err := os.Rename(again, path); err != nil {
		t.Fatal(err)
	}
	kept(2)
	w.Quit()
}
