package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// Esc closes what is open, innermost first, whatever has the focus: each thing that can lie over the
// window or in place of its page is opened, Tab goes so many steps into it, and Esc has to close it
// and nothing below it. By real keys.
func TestWindowEscapes(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 860, WindowManager: true})
	w := desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 20, "width": 400, "height": 800}}`, nil)
	w.ShowDemo()
	w.Click(desktest.Corner(potLight)) // anywhere
	w.Key("ctrl+s")
	w.WaitFor("a still", says("Kept as a still"))
	asks := func(title string) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { return l.Asks == title }
	}
	h := &hands{Window: w}
	panel := func(l desktest.Shown) bool { _, is := desktest.Named(l.Bar, "Done"); return is && l.Asks == "" }
	plain := func(l desktest.Shown) bool { return l.Asks == "" && !panel(l) }
	tests := []struct {
		name string
		open func()
		is   func(desktest.Shown) bool // it is open
		tabs int                       // steps of Tab into it, at most
		then func(desktest.Shown) bool // so it is after Esc
	}{
		{"a picture to open", func() { w.Key("ctrl+o") }, asks("Open the picture"), 5, plain},
		{"the target", func() { w.Key("t") }, asks("Open the target"), 5, plain},
		{"the menu", func() { h.tap("Menu") }, asks("menu"), 1, plain},
		{"the sources", func() { h.tap("Source") }, asks("menu"), 1, plain},
		{"the views", func() { h.tap("View") }, asks("menu"), 1, plain},
		{"the keys", func() { w.Key("F1") }, panel, 8, plain},
		{"the name of a still", func() {
			w.Key("ctrl+s")
			m := w.WaitFor("it kept", func(l desktest.Shown) bool { return says("Kept as a still")(l) && l.Mirror[3] > 0 }).Mirror
			h.tapAt(m[0]+m[2]-50, m[1]+m[3]-26)
		}, asks("Name it"), 4, plain},
		{"where to export", func() { w.Key("ctrl+e") }, asks("Export"), 7, plain},
	}
	for _, tt := range tests {
		for n := range tt.tabs + 1 {
			tt.open()
			w.WaitFor(tt.name, tt.is)
			for range n {
				w.Key("Tab")
			}
			w.Key("Escape")
			w.WaitFor(fmt.Sprintf("%s gone by Esc after %d steps of Tab", tt.name, n), tt.then)
		}
	}
	for part, first := range []string{"Theme", "Same lightness within", "Smallest hue shift", "Stills may take", wording.SayDisplayColours.String()} {
		for n := range 18 { // from the mirror over the strip to the last of its controls
			if part > 0 && n < 7 { // what all parts have was tried
				continue
			}
			w.Key("ctrl+comma")
			openPart(h, part, first)
			w.Key(slices.Concat(slices.Repeat([]string{"Tab"}, n), []string{"Escape"})...)
			w.WaitFor(fmt.Sprintf("the settings with %q gone by Esc after %d steps of Tab", first, n), plain)
		}
	}
	w.Quit()
}

// openPart shows part i of the open settings, which has a control of a name.
func openPart(h *hands, i int, has string) {
	h.T.Helper()
	h.WaitFor("the settings laid out", func(l desktest.Shown) bool {
		done, is := desktest.Named(l.Bar, "Done")
		return is && done.Box[1] > 100
	})
	_, y := h.place("Done")
	h.ClickIn(8+364*(float32(i)+0.5)/5, y+36)
	h.WaitFor("its part with "+has, func(l desktest.Shown) bool { _, is := desktest.Named(l.Bar, has); return is })
}

// A list that is open in a dialog or in the settings goes first, and then what it lies in.
func TestWindowEscapesInnermostFirst(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 860, WindowManager: true})
	w := desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 20, "width": 400, "height": 800}}`, nil)
	w.ShowDemo()
	w.Key("ctrl+s")
	w.WaitFor("a still", says("Kept as a still"))
	panel := func(l desktest.Shown) bool { _, is := desktest.Named(l.Bar, "Done"); return is }
	states := func(l desktest.Shown) string {
		return strings.Join([]string{l.Asks, map[bool]string{true: "panel"}[panel(l)]}, "/")
	}
	h := &hands{Window: w}
	w.Key("ctrl+comma")
	h.tap("Theme")
	w.WaitFor("the list in the settings", func(l desktest.Shown) bool { return states(l) == "menu/panel" })
	w.Key("Escape")
	w.WaitFor("the settings", func(l desktest.Shown) bool { return states(l) == "/panel" })
	w.Key("Escape")
	w.WaitFor("the page", func(l desktest.Shown) bool { return states(l) == "/" })
	w.Key("ctrl+e")
	x, y := h.place("Folder…")
	w.Do("mousemove", "--window", w.ID, fmt.Sprint(int(x)-120), fmt.Sprint(int(y)-72), "click", "3") // the name, two rows above
	w.WaitFor("what can be done with the name", func(l desktest.Shown) bool { return states(l) == "menu/" })
	w.Key("Escape", "Escape") // the toolkit's own menu, of which nobody tells, and the form
	w.WaitFor("the page again", func(l desktest.Shown) bool { return states(l) == "/" })
	for _, path := range []struct {
		keys []string // that open one thing after another
		say  []string // what is open, from the outermost
	}{
		{[]string{"ctrl+e", "Tab Return"}, []string{"/", "Export/", "menu/"}},
		{[]string{"ctrl+e", "Tab Tab Return", "shift+Tab shift+Tab Return"}, []string{"/", "Export/", "Choose a folder/", "menu/"}},
		{[]string{"ctrl+o", "shift+Tab shift+Tab Return"}, []string{"/", "Open the picture/", "menu/"}},
	} {
		for i, keys := range path.keys {
			w.Key(strings.Fields(keys)...)
			w.WaitFor(path.say[i+1], func(l desktest.Shown) bool { return states(l) == path.say[i+1] })
		}
		for i := len(path.say) - 2; i >= 0; i-- {
			w.Key("Escape")
			w.WaitFor(fmt.Sprint("after Esc: ", path.say[i]), func(l desktest.Shown) bool { return states(l) == path.say[i] })
		}
	}
	w.Quit()
}
