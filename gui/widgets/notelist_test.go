package widgets

import (
	"runtime"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Lists that were opened and are gone leave no typeface behind: with one for each, some two megabytes
// a dialog, ten minutes of a monkey took up to 30 MB more.
func TestListsLeaveNoTypefaces(t *testing.T) {
	stack := container.NewStack()
	shown := shownIn(t, stack, 300, 200).Canvas()
	look := func(k int) {
		_, rows := NewNoteList(new(heardKeys), func() int { return 3 }, func(i int) NoteText {
			return NoteText{Number: strconv.Itoa(i), Words: "note " + strconv.Itoa(k)}
		}, nil)
		stack.Objects = []fyne.CanvasObject{rows}
		stack.Refresh()
		shown.Capture()
	}
	held := func() int {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int(m.HeapAlloc)
	}
	look(0) // what is read once
	before := held()
	for k := range 8 {
		look(1 + k)
	}
	if more := held() - before; more > 2_000_000 {
		t.Errorf("eight lists left %d bytes", more)
	}
}
