package main

import (
	"slices"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// tools are the window's tools as they stand in their rows, with the kind of note each
// draws.
var tools = [2][]struct{ name, kind string }{
	{{"Hold", ""}, {"Stroke", "stroke"}, {"Arrow", "arrow"}, {"Ring", "ring"}, {"Box", "box"}},
	{{"Label", "label"}, {"Spot", "spot"}, {"Light", "area"}, {"Shadow", "area"}},
}

// takeTool clicks on a tool and waits until it is in use.
func (w *openedWindow) takeTool(row, i int) {
	w.t.Helper()
	lines := w.lines()
	box := lines[len(lines)-1].Tools[row]
	w.clickIn(box[0]+box[2]*(float32(i)+0.5)/float32(len(tools[row])), box[1]+box[3]/2)
	w.waitFor("the tool "+tools[row][i].name, func(l shownLine) bool { return l.Still != nil && l.Still.Tool == tools[row][i].name })
}

// A frozen picture is marked with every tool, by real pointer moves; undone, done again,
// and all of it is there after a restart.
func TestWindowKeepsStills(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	home := t.TempDir()
	const settings = `{"version": 1, "width": 700, "height": 900}`
	w := openIn(t, server, home, settings, nil)
	w.waitFor("the demo", func(l shownLine) bool { return l.Event == "shown" })
	w.key("f")
	w.waitFor("it frozen", func(l shownLine) bool { return l.Frozen })
	w.openPage(stillsTab, tabCount)
	l := w.waitFor("the page", func(l shownLine) bool { return l.Page == "Stills" && l.Parts[1] > 100 })
	w.clickIn(l.Parts[0]+l.Parts[2]/2, l.Parts[1]+l.Parts[3]/2)
	w.waitFor("the tools", func(l shownLine) bool { return l.Tools[0][1] > 100 })
	w.takeTool(0, 1) // which keeps the picture first
	var want []string
	for row := range tools {
		for i, tool := range tools[row] {
			if tool.kind == "" {
				continue
			}
			w.takeTool(row, i)
			lines := w.lines()
			m := lines[len(lines)-1].Mirror
			x, y := m[0]+m[2]*(0.1+0.15*float32(i)), m[1]+m[3]*(0.2+0.3*float32(row))
			w.dragIn(x, y, x+m[2]/12, y+m[3]/6)
			want = append(want, tool.kind)
			w.waitFor("the note of "+tool.name, func(l shownLine) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, want) })
			if tool.name == "Label" {
				w.do("type", "warmer here")
				w.key("Return")
			}
		}
	}
	w.key("ctrl+z")
	w.waitFor("the last undone", func(l shownLine) bool { return l.Still != nil && len(l.Still.Kinds) == len(want)-1 })
	w.key("ctrl+y")
	l = w.waitFor("it done again", func(l shownLine) bool { return l.Still != nil && slices.Equal(l.Still.Kinds, want) })
	id := l.Still.ID
	w.quit()

	w = openIn(t, server, home, "", nil)
	l = w.waitFor("the shelf", func(l shownLine) bool {
		return l.Page == "Stills" && slices.Equal(l.Shelf, []string{id}) && l.Grid[1] > 100
	})
	w.clickIn(l.Grid[0]+40, l.Grid[1]+40)
	w.waitFor("the still with all of its notes", func(l shownLine) bool {
		return l.Still != nil && l.Still.ID == id && slices.Equal(l.Still.Kinds, want)
	})
	w.quit()
}
