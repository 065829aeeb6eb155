package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// A file manager starts the program by the desktop entry, and nobody sees what it prints: a picture
// that can't be read opens the window with the sentence. One that can be read is shown, and a
// terminal gets the sentence as ever.
func TestWindowFromFileManager(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	dir := t.TempDir()
	bad, gone := filepath.Join(dir, "a böse file.png"), filepath.Join(dir, "gone.png")
	if err := os.WriteFile(bad, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	exec := said(t, `(?m)^Exec=desk (.*)$`, "scripts/package/app.tonedesk.desktop")
	by := func(path string) (args []string) { // as the Desktop Entry Specification 1.5 has %f
		for _, word := range strings.Fields(exec) {
			if word != "%f" {
				args = append(args, word)
			} else if path != "" {
				args = append(args, path)
			}
		}
		return args
	}
	for path, want := range map[string]string{bad: "Can't open", gone: "Can't open", "": ""} {
		w := desktest.OpenOn(t, server, `{"version": 1}`, nil, by(path)...)
		w.WaitFor("the sentence "+want, func(l desktest.Shown) bool {
			return strings.HasPrefix(l.Message, want) && (path == "" && l.Message == "" || path != "" && strings.Contains(l.Message, filepath.Base(path))) && l.Sentence == "Choose what to watch"
		})
		w.Quit()
	}
	other := desktest.OpenOn(t, server, `{"version": 1}`, nil, bad) // not by the entry, but to a log
	other.WaitFor("the sentence without the entry", func(l desktest.Shown) bool { return strings.HasPrefix(l.Message, "Can't open") })
	other.Quit()
	demo, err := filepath.Abs(filepath.Join(root, "assets", "demo.png"))
	if err != nil {
		t.Fatal(err)
	}
	w := desktest.OpenOn(t, server, `{"version": 1}`, nil, by(demo)...)
	w.WaitFor("the picture", func(l desktest.Shown) bool { return l.Event == "shown" && l.Counted > 0 && l.Message == "" })
	w.Quit()
	e := desktest.RunWith(t, server.Env(), "", bad)
	if e.PlainErrors(t, 1); e.Code != 1 {
		t.Errorf("from a terminal: code %d, %q", e.Code, e.Err)
	}
}
