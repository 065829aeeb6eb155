package main

import (
	"slices"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// tools are the window's tools in their order, with the kind of note each draws.
var tools = []struct{ name, kind string }{
	{"Select", ""}, {"Stroke", "stroke"}, {"Arrow", "arrow"}, {"Ring", "ring"}, {"Box", "box"},
	{"Label", "label"}, {"Spot", "spot"}, {"Light", "area"}, {"Shadow", "area"},
}

// takeTool clicks on a tool and waits until it is in use.
func takeTool(w *desktest.Window, i int) {
	w.T.Helper()
	lines := w.Lines()
	box := lines[len(lines)-1].Tools[i]
	w.ClickIn(box[0]+box[2]/2, box[1]+box[3]/2)
	w.WaitFor("the tool "+tools[i].name, func(l desktest.Shown) bool { return l.Still != nil && l.Still.Tool == tools[i].name })
}

// clickPart shows a part of the page of stills, from the left.
func clickPart(w *desktest.Window, i int) {
	w.T.Helper()
	l := w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Stills" && l.Parts[1] > 100 })
	w.ClickIn(l.Parts[0]+l.Parts[2]*(float32(i)+0.5)/3, l.Parts[1]+l.Parts[3]/2)
}

// A frozen picture is marked with every tool, by real pointer moves; undone, done again,
// and all of it is there after a restart.
func TestWindowKeepsStills(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	home := t.TempDir()
	const settings = `{"version": 1, "width": 700, "height": 900}`
	w := desktest.OpenIn(t, server, home, settings, nil)
	w.ShowDemo()
	w.Key("f")
	w.WaitFor("it frozen", func(l desktest.Shown) bool { return l.Frozen })
	w.OpenPage(stillsTab, tabCount)
	clickPart(w, 1)
	w.WaitFor("the tools", func(l desktest.Shown) bool { return len(l.Tools) > 0 && l.Tools[0][1] > 100 })
	takeTool(w, 1) // which keeps the picture first
	var want []string
	for i, tool := range tools {
		if tool.kind == "" {
			continue
		}
		takeTool(w, i)
		lines := w.Lines()
		m := lines[len(lines)-1].Mirror
		x, y := m[0]+m[2]*(0.1+0.15*float32(i%5)), m[1]+m[3]*(0.2+0.3*float32(i/5))
		w.DragIn(x, y, x+m[2]/12, y+m[3]/6)
		want = append(want, tool.kind)
		w.WaitFor("the note of "+tool.name, func(l desktest.Shown) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, want) })
		if tool.name == "Label" {
			w.Do("type", "warmer here")
			w.Key("Return")
		}
	}
	w.Key("ctrl+z")
	w.WaitFor("the last undone", func(l desktest.Shown) bool { return l.Still != nil && len(l.Still.Kinds) == len(want)-1 })
	w.Key("ctrl+y")
	l := w.WaitFor("it done again", func(l desktest.Shown) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, want) })
	id := l.Still.ID
	w.Quit()

	w = desktest.OpenIn(t, server, home, "", nil)
	l = w.WaitFor("the list", func(l desktest.Shown) bool {
		return l.Page == "Stills" && slices.Equal(l.Kept, []string{id}) && l.Grid[1] > 100
	})
	w.ClickIn(l.Grid[0]+40, l.Grid[1]+40) // selects it
	w.ClickIn(l.Grid[0]+40, l.Grid[1]+40) // opens it
	w.WaitFor("the still with all of its notes", func(l desktest.Shown) bool {
		return l.Still != nil && l.Still.ID == id && slices.Equal(l.Still.Kinds, want)
	})
	w.Quit()
}

// Compared with the newest still is by two taps, the page's tab and its part, and by one key.
func TestWindowComparesInTwoTaps(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	w := desktest.OpenIn(t, server, t.TempDir(), `{"version": 1, "width": 500, "height": 900}`, nil)
	w.ShowDemo()
	w.Key("ctrl+s")
	w.WaitFor("it kept", func(l desktest.Shown) bool { return l.Message == "Kept as a still" })
	w.OpenPage(stillsTab, tabCount)
	clickPart(w, 2)
	compares := func(l desktest.Shown) bool { return l.Compares != "" && l.Sentence == "No change in lightness" }
	l := w.WaitFor("what was compared", compares)
	if len(l.Kept) != 1 || l.Compares != l.Kept[0] {
		t.Errorf("compared is %s, kept is %v", l.Compares, l.Kept)
	}
	w.Key("d")
	w.WaitFor("the picture alone", func(l desktest.Shown) bool { return l.Compares == "" })
	w.OpenPage(0, tabCount)
	w.Key("d")
	w.WaitFor("what was compared by a key", compares)
	w.Quit()
}
