package attack

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// The window watches a picture file that becomes one damaged file after the other: it says
// so, answers, and shows the next whole one.
func TestWindowOpensDamagedPictures(t *testing.T) {
	beside(t)
	y, files, r := newTally("damaged pictures, opened by the window"), sound(t), chance(14)
	kinds := endings(files)
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter, dir := server.Painter(), t.TempDir()
	path := filepath.Join(dir, "a painting.png")
	whole(t, path, 100)
	w := desktest.OpenOn(t, server, `{"version": 1}`, nil, path)
	for round := range y.rounds(2, 60) {
		var faults []string
		for range 10 {
			kind := kinds[r.IntN(len(kinds))]
			replace(t, path, damage(r, files[kind]))
			time.Sleep(time.Duration(r.IntN(250)) * time.Millisecond) // how often it is saved is what is tried
			faults = append(faults, answersNow(w, painter)...)
			y.try(t)
		}
		whole(t, path, 101+round)
		w.WaitFor("the whole picture again", func(l desktest.Shown) bool { return l.Bounds.Dx() == 101+round && l.Message == "" })
		if f := footprintOf(w.Cmd.Process.Pid); f.memory > mostMemory {
			faults = append(faults, fmt.Sprintf("it takes %d MB", f.memory))
		}
		if len(faults) > 0 {
			y.try(t, faults...)
		}
	}
	w.Quit()
}

// whole writes a picture of such a width.
func whole(t *testing.T, path string, width int) {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, width, 80))
	draw.Draw(img, img.Rect, painting(), image.Point{}, draw.Src)
	f, err := os.Create(path + ".new")
	if err == nil {
		err = png.Encode(f, img)
	}
	if err == nil {
		err = f.Close()
	}
	if err == nil {
		err = os.Rename(path+".new", path)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// replace puts a file in another's place, as programs do that save.
func replace(t *testing.T, path string, content []byte) {
	t.Helper()
	err := os.WriteFile(path+".new", content, 0o600)
	if err == nil {
		err = os.Rename(path+".new", path)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// The window starts with damaged settings and a damaged still.
func TestWindowStartsOnDamage(t *testing.T) {
	beside(t)
	y, r, whole := newTally("starts with damaged settings and stills"), chance(15), stillFiles(t)
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	settings := []byte(`{"version": 1, "view": "bands", "page": "Stills", "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 700}, "per_second": 10}`)
	for range y.rounds(2, 60) {
		home := t.TempDir()
		broken := map[string][]byte{}
		for name, content := range whole {
			broken[name] = damage(r, content)
		}
		writeStill(t, filepath.Join(home, "data", "tonedesk", "stills", brokenID), broken)
		w := desktest.OpenIn(t, server, home, string(damage(r, settings)), nil)
		w.Quit()
		y.try(t, leftBy(w)...)
	}
}
