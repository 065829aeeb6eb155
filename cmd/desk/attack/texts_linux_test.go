package attack

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

const (
	sheetTime   = 2 * time.Second // for any sheet, of the processor
	sheetMemory = 200             // MB
)

// words returns a text of so many letters by chance: every plane of Unicode, marks, letters
// that run to the left, controls, and no spaces for long.
func words(r *rand.Rand, n int) string {
	alphabets := []string{
		"aeiou nrst", "ÄÖßçĳ", "ДЖщ", "漢字かな", "שלום", "مرحبا", "👩🏽‍🎨🎨🖌️🌗", "e\u0301\u0308\u20dd", "\u202e\u2066\u200f\ufeff", "\x1b\a\n\t\x01", "𝔸𝕓𐐷\U0010ffff", "<&>\"'\\%",
	}
	var b strings.Builder
	for b.Len() < n {
		letters := []rune(alphabets[r.IntN(len(alphabets))])
		for range 1 + r.IntN(30) {
			b.WriteRune(letters[r.IntN(len(letters))])
		}
	}
	return b.String()
}

// Any name and any words of notes are laid out, in every format, in time.
func TestTexts(t *testing.T) {
	beside(t)
	y, r := newTally("stills with any text, in every format"), chance(11)
	home, slowest, longest, largest := t.TempDir(), time.Duration(0), time.Duration(0), 0
	for i := range y.rounds(3, 100) {
		id := keepStill(t, home, words(r, r.IntN(300)), func() string { return words(r, r.IntN(times(400, 4000))) }, 1+r.IntN(times(5, 60)))
		for _, ending := range []string{"pdf", "png", "ora", "json"} {
			out := filepath.Join(home, fmt.Sprintf("%d.%s", i, ending))
			start := time.Now()
			o := command(t, home, "", "sheet", "-o", out, id)
			slowest, longest, largest = max(slowest, o.processor), max(longest, time.Since(start)), max(largest, o.peak)
			if o.Code != 0 {
				o.faults = append(o.faults, fmt.Sprintf("%s of %s: %s", ending, id, o.Err))
			}
			if o.processor > sheetTime {
				o.faults = append(o.faults, fmt.Sprintf("%s of %s took %v of the processor", ending, id, o.processor))
			}
			if o.peak > sheetMemory {
				o.faults = append(o.faults, fmt.Sprintf("%s of %s took %d MB", ending, id, o.peak))
			}
			y.try(t, o.faults...)
		}
	}
	nothingLeft(t, y, home)
	y.measure("at most %v of the processor, by the clock beside the other attacks %v; at most %d MB", slowest.Round(10*time.Millisecond), longest.Round(10*time.Millisecond), largest)
}

// keepStill keeps a still with notes, as the window does.
func keepStill(t *testing.T, home, name string, text func() string, n int) (id string) {
	t.Helper()
	img := painting()
	store := stills.New(stills.Folders{Data: filepath.Join(home, "data", "tonedesk", "stills"), Cache: filepath.Join(home, "cache")})
	var list []notes.Note
	for i := range n {
		list = append(list, notes.New(notes.Label{At: ink.Point{X: float64(i), Y: float64(2 * i)}, Size: 8}, text()))
	}
	pixels := analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: 64, Height: 48, Layout: analysis.RGBA}
	id, err := store.Keep(pixels, stills.Meta{Name: name, Time: time.Now()}, list)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// A still from outside with names and words that are far too long opens at once, and the
// window answers.
func TestLongTexts(t *testing.T) { // alone: how long it takes is what is looked at
	y, r, home := newTally("window with texts of 10,000 letters"), chance(12), t.TempDir()
	id := keepStill(t, home, words(r, 30), func() string { return words(r, 10_000) }, times(3, 20))
	meta := filepath.Join(home, "data", "tonedesk", "stills", id, "still.json")
	rename(t, meta, strings.Repeat("W", 10_000))
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	desktest.Program(t) // building it is no part of its start
	start := time.Now()
	w := desktest.OpenIn(t, server, home, `{"version": 1, "width": 700, "height": 900, "page": "Stills"}`, nil)
	first, in := time.Since(start), answered{}
	painter := server.Painter()
	l := w.WaitFor("the list", func(l desktest.Shown) bool { return len(l.Kept) == 1 && l.Grid[1] > 100 })
	answers := func() {
		y.try(t, in.faults(w, painter)...)
	}
	w.ClickIn(l.Grid[0]+40, l.Grid[1]+40) // selects, and opens
	w.ClickIn(l.Grid[0]+40, l.Grid[1]+40)
	answers()
	w.WaitFor("the still", func(l desktest.Shown) bool { return l.Still != nil })
	for range 3 {
		w.OpenPage(0, 4)
		answers()
		w.OpenPage(3, 4)
		answers()
	}
	y.measure("window after %v; answers: %s", first.Round(10*time.Millisecond), &in)
	w.Quit()
}

// rename gives a still another name, from outside.
func rename(t *testing.T, path, name string) {
	t.Helper()
	text, err := os.ReadFile(path)
	var fields map[string]any
	if err == nil {
		err = json.Unmarshal(text, &fields)
	}
	fields["name"] = name
	if err == nil {
		text, err = json.Marshal(fields)
	}
	if err == nil {
		err = os.WriteFile(path, text, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
}
