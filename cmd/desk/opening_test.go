package main

import (
	"errors"
	"io"
	"log"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// openingIn is an opening whose sentences and exits are written down, with what is logged
// kept out of the test's.
func openingIn(t *testing.T) (o *opening, said *[]string, exits *[]int) {
	t.Helper()
	said, exits = new([]string), new([]int)
	o = &opening{
		say:  func(sentence string) { *said = append(*said, sentence) },
		save: func() error { return nil },
		exit: func(code int) { *exits = append(*exits, code) },
	}
	before := log.Writer()
	log.SetOutput(io.Discard)
	t.Cleanup(func() { log.SetOutput(before) })
	return o, said, exits
}

// What the toolkit says of a first window that it can't draw is noticed, and nothing else it
// says; also where it breaks down over it.
func TestOpeningRefuses(t *testing.T) {
	for reason, want := range map[string]bool{
		"window creation error": true, "failed to initialise GLFW": true, "failed to initialise OpenGL": true, "Failed to set dark mode": false,
	} {
		o, said, exits := openingIn(t)
		opened := o.begin()
		got := o.refuses(func() {
			fyne.LogError(reason, errors.New("said by the test"))
			if want {
				panic("the toolkit's")
			}
		})
		opened()
		if got != want || len(*said)+len(*exits) > 0 {
			t.Errorf("%s: %v; it says %q", reason, got, *said)
		}
	}
}

// A display that let us in, and does not let the toolkit in, is no missing OpenGL, nor is a session of
// Windows without a desktop.
func TestOpeningOnNoDisplay(t *testing.T) {
	for words, want := range map[string]string{
		"PlatformError: X11: Failed to open display :7":                           "the display does not answer",
		"PlatformError: Win32: Failed to create helper window: Invalid parameter": "there is no display to open it on",
	} {
		o, _, _ := openingIn(t)
		opened := o.begin()
		refused := o.refuses(func() {
			log.Println(words)
			panic("NotInitialized: The GLFW library is not initialized")
		})
		opened()
		if said := o.why(); !refused || !strings.Contains(said, want) {
			t.Errorf("%s: refused %v; it says %q", words, refused, said)
		}
	}
}

// A mistake of ours while the window opens is no refusal.
func TestOpeningLetsMistakesThrough(t *testing.T) {
	o, _, _ := openingIn(t)
	defer o.begin()()
	defer func() {
		if recover() == nil {
			t.Error("the mistake is gone")
		}
	}()
	o.refuses(func() { panic("ours") })
}

// At a further window that it can't draw the toolkit ends the program: a sentence comes first.
func TestOpeningOfAFurtherWindow(t *testing.T) {
	o, said, exits := openingIn(t)
	o.begin()()
	fyne.LogError("Failed to set dark mode", errors.New("said by the test"))
	if len(*said)+len(*exits) > 0 {
		t.Errorf("for nothing it says %q", *said)
	}
	fyne.LogError("window creation error", errors.New("said by the test"))
	if len(*said) != 1 || !strings.Contains((*said)[0], "OpenGL") || len(*exits) != 1 || (*exits)[0] != 1 {
		t.Errorf("it says %q and ends with %v", *said, *exits)
	}
}
