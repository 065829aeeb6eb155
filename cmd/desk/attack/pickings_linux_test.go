package attack

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// pickedMemory is how many MB 200 choosings of a region may add.
const pickedMemory = 2

// closedAfter is after how many seconds the window over the desktop has gone for certain.
const closedAfter = 3

// A region is chosen or given up, with the button still down or not, even until the window over the
// desktop has gone, again and again.
func TestPickings(t *testing.T) {
	beside(t)
	y, r := newTally("regions chosen with the button down"), chance(13)
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	const some = 20 // until then caches fill; and so many are taken together
	var memory []int
	for range y.rounds(4, some+200+some) {
		memory = append(memory, footprintOf(w.Cmd.Process.Pid).memory)
		server.WaitFor("the window again", func() bool {
			out, _ := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
			_, ended := w.Ended(0)
			return strings.TrimSpace(out) == w.ID || ended
		})
		if how, ended := w.Ended(0); ended {
			y.try(t, fmt.Sprintf("it ended with %v and said %q\n%s", how, w.Said(), w.Messages()))
			return
		}
		_, _ = w.Tool("xdotool", "windowactivate", "--sync", w.ID)
		w.Script(t.Context(), []string{"key r"})
		server.WaitFor("the picture of the desktop", func() bool {
			out, _ := w.Tool("xdotool", "getactivewindow", "getwindowgeometry")
			return strings.Contains(out, "1024x800")
		})
		end := []string{"key Return", "key Escape"}[r.IntN(2)]
		script := []string{"mousemove 200 100", "mousedown 1", "mousemove 250 150", "mousemove 400 300"}
		if r.IntN(4) == 0 {
			script = append(script, "mouseup 1", end)
		} else {
			wait := fmt.Sprintf("sleep 0.%02d", r.IntN(30))
			if r.IntN(15) == 0 {
				wait = fmt.Sprintf("sleep %d", closedAfter)
			}
			script = append(script, end, wait, "mousemove 500 400", "mouseup 1")
		}
		w.Script(t.Context(), append(script, "sleep 0.05", "key Escape")) // where the region became too small to be taken
		y.try(t)
	}
	if len(memory) == some+200+some {
		before, after := median(memory[some:2*some]), median(memory[len(memory)-some:])
		y.measure("200 of them took %d to %d MB", before, after)
		if after > before+pickedMemory {
			y.try(t, fmt.Sprintf("200 of them took %d to %d MB: %v", before, after, memory))
		}
	}
	w.WaitFor("the window", func(l desktest.Shown) bool { return l.Event != "" })
	w.Quit()
}

// median is the one in the middle: garbage comes and goes.
func median(of []int) int {
	sorted := slices.Sorted(slices.Values(of))
	return sorted[len(sorted)/2]
}
