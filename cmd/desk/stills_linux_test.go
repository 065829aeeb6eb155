package main

import (
	"slices"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// tools are the window's tools as they stand in their rows, with the kind of note each
// draws.
var tools = [2][]struct{ name, kind string }{
	{{"Hold", ""}, {"Stroke", "stroke"}, {"Arrow", "arrow"}, {"Ring", "ring"}, {"Box", "box"}},
	{{"Label", "label"}, {"Spot", "spot"}, {"Light", "area"}, {"Shadow", "area"}},
}

// takeTool clicks on a tool and waits until it is in use.
func takeTool(w *desktest.Window, row, i int) {
	w.T.Helper()
	lines := w.Lines()
	box := lines[len(lines)-1].Tools[row]
	w.ClickIn(box[0]+box[2]*(float32(i)+0.5)/float32(len(tools[row])), box[1]+box[3]/2)
	w.WaitFor("the tool "+tools[row][i].name, func(l desktest.Shown) bool { return l.Still != nil && l.Still.Tool == tools[row][i].name })
}

// A frozen picture is marked with every tool, by real pointer moves; undone, done again,
// and all of it is there after a restart.
func TestWindowKeepsStills(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	home := t.TempDir()
	const settings = `{"version": 1, "width": 700, "height": 900}`
	w := desktest.OpenIn(t, server, home, settings, nil)
	w.WaitFor("the demo", func(l desktest.Shown) bool { return l.Event == "shown" })
	w.Key("f")
	w.WaitFor("it frozen", func(l desktest.Shown) bool { return l.Frozen })
	w.OpenPage(stillsTab, tabCount)
	l := w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Stills" && l.Parts[1] > 100 })
	w.ClickIn(l.Parts[0]+l.Parts[2]/2, l.Parts[1]+l.Parts[3]/2)
	w.WaitFor("the tools", func(l desktest.Shown) bool { return l.Tools[0][1] > 100 })
	takeTool(w, 0, 1) // which keeps the picture first
	var want []string
	for row := range tools {
		for i, tool := range tools[row] {
			if tool.kind == "" {
				continue
			}
			takeTool(w, row, i)
			lines := w.Lines()
			m := lines[len(lines)-1].Mirror
			x, y := m[0]+m[2]*(0.1+0.15*float32(i)), m[1]+m[3]*(0.2+0.3*float32(row))
			w.DragIn(x, y, x+m[2]/12, y+m[3]/6)
			want = append(want, tool.kind)
			w.WaitFor("the note of "+tool.name, func(l desktest.Shown) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, want) })
			if tool.name == "Label" {
				w.Do("type", "warmer here")
				w.Key("Return")
			}
		}
	}
	w.Key("ctrl+z")
	w.WaitFor("the last undone", func(l desktest.Shown) bool { return l.Still != nil && len(l.Still.Kinds) == len(want)-1 })
	w.Key("ctrl+y")
	l = w.WaitFor("it done again", func(l desktest.Shown) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, want) })
	id := l.Still.ID
	w.Quit()

	w = desktest.OpenIn(t, server, home, "", nil)
	l = w.WaitFor("the shelf", func(l desktest.Shown) bool {
		return l.Page == "Stills" && slices.Equal(l.Shelf, []string{id}) && l.Grid[1] > 100
	})
	w.ClickIn(l.Grid[0]+40, l.Grid[1]+40)
	w.WaitFor("the still with all of its notes", func(l desktest.Shown) bool {
		return l.Still != nil && l.Still.ID == id && slices.Equal(l.Still.Kinds, want)
	})
	w.Quit()
}
