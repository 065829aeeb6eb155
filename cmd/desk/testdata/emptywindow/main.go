// Command emptywindow opens an empty window of the toolkit: what an idle program costs
// that does nothing.
package main

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
)

func main() {
	w := app.New().NewWindow("empty")
	w.Resize(fyne.NewSize(380, 760))
	w.ShowAndRun()
}
