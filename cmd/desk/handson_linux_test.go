package main

import (
	"bytes"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// A picture whose path has blanks and umlauts is opened by argument, kept, and handed on from the window:
// as a sheet in PDF and PNG and as layers in OpenRaster, which begin as these formats do, into a user's
// folder with such a name, and as a picture to the clipboard, from which another program takes it with
// every pixel as it was. View, page and still are there again at the next start.
func TestWindowHandsOn(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 900, WindowManager: true})
	home := filepath.Join(t.TempDir(), "Frau Grün", "zu Hause")
	path := filepath.Join(home, "Ölbilder für März", "stille Tage.png")
	var file bytes.Buffer
	painted := desktest.Patches(desktest.LightSkin, desktest.ShadowSkin)
	must(t, png.Encode(&file, painted), os.MkdirAll(filepath.Dir(path), 0o700), os.WriteFile(path, file.Bytes(), 0o600))
	w := desktest.OpenIn(t, server, home, `{"version": 1, "width": 500, "height": 800}`, nil, path)
	w.WaitFor("the picture", func(l desktest.Shown) bool { return l.Bounds == painted.Rect })
	w.Key("v")
	w.WaitFor("another view", func(l desktest.Shown) bool { return l.View == "layer-grey" })
	w.Key("ctrl+s")
	w.WaitFor("it kept", says("Kept as a still"))
	w.OpenPage(stillsTab, tabCount)
	w.WaitFor("it in the list", func(l desktest.Shown) bool {
		return l.Page == "Stills" && len(l.Kept) == 1 && l.Grid[1] > 100
	})
	h := &hands{Window: w}
	export := func(keys ...string) {
		t.Helper()
		pressed := time.Time{}
		server.WaitFor("where to", func() bool {
			lines := w.Lines()
			if lines[len(lines)-1].Asks == "Export" {
				return true
			}
			if time.Since(pressed) > 6*time.Second { // a press on a button that is just being laid out is lost under Wine
				pressed = time.Now()
				h.tap("Export it")
			}
			return false
		})
		w.Key(keys...)
	}
	for _, kind := range []struct{ ending, begins, inside string }{
		{"-sheet.pdf", "%PDF-", "/MediaBox"},                    // ISO 32000-1, 7.5.2
		{"-sheet.png", "\x89PNG\r\n\x1a\n", "IHDR"},             // PNG, third edition, 5.2
		{".ora", "PK\x03\x04", "mimetype" + "image/openraster"}, // OpenRaster 0.0.5, file layout
	} {
		switch kind.ending {
		case "-sheet.pdf":
			export("Return")
		case "-sheet.png": // the next of the formats
			export("Tab", "Down", "shift+Tab", "Return")
		default:
			export("Tab", "Down", "Down", "Down", "Down", "Down", "Down", "shift+Tab", "Return")
		}
		w.WaitFor("it written", func(l desktest.Shown) bool {
			return strings.Contains(l.Message, "Written as") && strings.Contains(l.Message, kind.ending)
		})
		found, err := filepath.Glob(filepath.Join(home, "*"+kind.ending))
		if err != nil || len(found) != 1 {
			t.Fatalf("%s: written are %q, %v", kind.ending, found, err)
		}
		data, err := os.ReadFile(found[0])
		if must(t, err); !bytes.HasPrefix(data, []byte(kind.begins)) || !bytes.Contains(data, []byte(kind.inside)) {
			t.Errorf("%s: %d bytes, beginning with %q", kind.ending, len(data), data[:min(len(data), 80)])
		}
	}
	export("Tab", "Tab", "Tab", "Return") // the button under the folder's
	w.WaitFor("it copied", says("opied"))
	server.WaitFor("the picture on the clipboard", func() bool {
		cmd := exec.Command("xclip", "-selection", "clipboard", "-o", "-t", "image/png")
		cmd.Env = server.Env()
		data, _ := cmd.Output() // none is an answer too
		got, err := png.Decode(bytes.NewReader(data))
		if err != nil || got.Bounds() != painted.Rect {
			return false
		}
		for y := range painted.Rect.Dy() {
			for x := range painted.Rect.Dx() {
				if c := color.NRGBAModel.Convert(got.At(x, y)); c != painted.NRGBAAt(x, y) {
					t.Fatalf("copied, %d, %d is %v, want %v", x, y, c, painted.NRGBAAt(x, y))
				}
			}
		}
		return true
	})
	w.Quit()

	w = desktest.OpenIn(t, server, home, "", nil)
	w.WaitFor("the view, the page, and what was kept", func(l desktest.Shown) bool {
		return l.View == "layer-grey" && l.Page == "Stills" && len(l.Kept) == 1
	})
	w.Quit()
}
