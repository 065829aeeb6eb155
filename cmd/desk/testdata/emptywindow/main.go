// Command emptywindow opens an empty window of the toolkit: what an idle program costs that does
// nothing. With an argument it ends once it has drawn itself: how long the toolkit needs to start.
package main

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
)

func main() {
	a := app.NewWithID("empty")
	w := a.NewWindow("empty")
	w.Resize(fyne.NewSize(380, 760))
	if len(os.Args) > 1 {
		a.Lifecycle().SetOnStarted(func() { go fyne.Do(a.Quit) }) // after the first frame
	}
	w.ShowAndRun()
}
