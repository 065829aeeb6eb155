package attack

import (
	"context"
	"encoding/json"
	"fmt"
	"iter"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/stills/notes"
)

// Killed at any moment of keeping and marking stills, the program has lost nothing that was
// kept, and the notes on the disk are those of a moment that the window showed.
func TestKills(t *testing.T) {
	beside(t)
	y := newTally("killed while stills are kept and marked")
	var actions, stills atomic.Int64
	y.lanes(t, 4, 300, func(t *testing.T, tries iter.Seq[int]) {
		server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
		home, settings := t.TempDir(), `{"version": 1, "width": 700, "height": 900, "page": "Stills"}`
		kept := map[string]bool{}
		for i := range tries {
			r := chanceOf(6, i)
			w := desktest.OpenIn(t, server, home, settings, nil)
			settings = ""
			script := marks(w, r)
			actions.Add(int64(len(script)))
			ctx, cancel := context.WithTimeout(context.Background(), time.Duration(r.IntN(1500))*time.Millisecond) // the moment is what is tried
			w.Script(ctx, script)
			_ = w.Cmd.Process.Kill()
			cancel()
			w.Ended(endWithin)
			y.try(t, afterKill(t, w, kept)...)
		}
		makeOld(t, filepath.Join(home, "data", "tonedesk", "stills"))
		w := desktest.OpenIn(t, server, home, "", nil) // which clears away what the kills left
		if len(kept) > 0 {
			w.WaitFor("the stills", func(l desktest.Shown) bool { return len(l.Kept) > 0 })
		}
		w.Quit()
		nothingLeft(t, y, filepath.Join(home, "data"))
		stills.Add(int64(len(kept)))
	})
	y.measure("%d actions, %d stills kept", actions.Load(), stills.Load())
}

// marks is a script that keeps pictures and draws on them: tools, strokes, undo, one still
// after another.
func marks(w *desktest.Window, r *rand.Rand) (script []string) {
	w.ShowDemo()
	l := w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Stills" && l.Parts[1] > 100 && l.Mirror[2] > 100 })
	at := func(x, y float32) string { return fmt.Sprintf("mousemove --window %s %d %d", w.ID, int(x), int(y)) }
	part := func(i float32) {
		script = append(script, at(l.Parts[0]+l.Parts[2]*(i+0.5)/3, l.Parts[1]+l.Parts[3]/2), "click 1", "sleep 0.05")
	}
	script = append(script, "key ctrl+s", "sleep 0.1")
	for range 12 {
		switch r.IntN(6) {
		case 0:
			script = append(script, "key ctrl+s", "sleep 0.05")
		case 1:
			part(0)
			script = append(script, at(l.Parts[0]+40, l.Parts[1]+l.Parts[3]+float32(60+r.IntN(60))), "click 1", "click 1", "sleep 0.1")
		case 2:
			script = append(script, "key ctrl+z")
		default:
			part(1)
			// the tools stand in a row below the parts, 32 wide each
			script = append(script, at(l.Parts[0]+20+32*float32(1+r.IntN(8)), l.Parts[1]+l.Parts[3]+28), "click 1")
			x, y := l.Mirror[0]+l.Mirror[2]*r.Float32(), l.Mirror[1]+l.Mirror[3]*r.Float32()
			script = append(script, at(x, y), "mousedown 1", at(x+9, y+5), at(x+20, y+8), "mouseup 1", "sleep 0.03")
		}
	}
	return script
}

// afterKill says what is wrong with what the program left. It adds the stills that the
// window knew to those that were kept.
func afterKill(t *testing.T, w *desktest.Window, kept map[string]bool) (faults []string) {
	shown := map[string][]string{} // states of notes, by still
	for _, l := range w.Lines() {
		for _, id := range l.Kept {
			kept[id] = true
		}
		if l.Still != nil {
			kept[l.Still.ID] = true
			shown[l.Still.ID] = append(shown[l.Still.ID], strings.Join(l.Still.Kinds, " "))
		}
	}
	list := command(t, w.Home, "", "stills", "--json")
	faults = append(faults, list.faults...)
	for id := range kept {
		if !strings.Contains(list.Out, id) {
			faults = append(faults, "a kept still is gone: "+id)
		}
	}
	if list.Err != "" {
		faults = append(faults, "something is damaged: "+list.Err)
	}
	for id, states := range shown {
		state, err := kindsOf(filepath.Join(w.Home, "data", "tonedesk", "stills", id, "notes.json"))
		last := states[len(states)-1] // what came after may be on the disk, and not yet in the trace
		if err != nil || !slices.Contains(append(states, ""), state) && !strings.HasPrefix(state, last) && !strings.HasPrefix(last, state) {
			faults = append(faults, fmt.Sprintf("the notes of %s are %q, %v: never shown so", id, state, err))
		}
	}
	if text, err := os.ReadFile(w.SettingsPath()); err == nil && !json.Valid(text) {
		faults = append(faults, "the settings are damaged")
	}
	if said := w.Said(); said != "" {
		faults = append(faults, fmt.Sprintf("it said %q", said))
	}
	return faults
}

// makeOld makes what lies half made in the folder of stills as old as something that nobody
// makes any more.
func makeOld(t *testing.T, folder string) {
	t.Helper()
	left, _ := filepath.Glob(filepath.Join(folder, ".*"))
	before := time.Now().AddDate(0, 0, -7)
	for _, path := range left {
		if err := os.Chtimes(path, before, before); err != nil {
			t.Fatal(err)
		}
	}
}

// kindsOf returns the kinds of notes in a file, "" where there is none.
func kindsOf(path string) (string, error) {
	text, err := os.ReadFile(path)
	if os.IsNotExist(err) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	d, err := notes.Decode(text)
	if err != nil {
		return "", err
	}
	var kinds []string
	for _, n := range d.Notes {
		kinds = append(kinds, strings.ToLower(strings.TrimPrefix(fmt.Sprintf("%T", n.Shape), "notes.")))
	}
	return strings.Join(kinds, " "), nil
}
