package icons

import (
	"embed"
	"strings"

	"fyne.io/fyne/v2"
)

//go:embed *.svg
var drawings embed.FS

// Name is a pictogram's, after what it shows or does.
type Name string

// The pictograms there are, by the names of their files.
const (
	Adjust         Name = "adjust"
	Arrow          Name = "arrow"
	Box            Name = "box"
	Check          Name = "check"
	Close          Name = "close"
	CloseList      Name = "close-list"
	Compare        Name = "compare"
	Copy           Name = "copy"
	Delete         Name = "delete"
	Export         Name = "export"
	File           Name = "file"
	Flip           Name = "flip"
	Focus          Name = "focus"
	Folder         Name = "folder"
	Freeze         Name = "freeze"
	Growth         Name = "growth"
	Keep           Name = "keep"
	Label          Name = "label"
	LeaveOut       Name = "leave-out"
	LightDirection Name = "light-direction"
	Light          Name = "light"
	Menu           Name = "menu"
	OnTop          Name = "on-top"
	OpenList       Name = "open-list"
	Pin            Name = "pin"
	Redo           Name = "redo"
	Region         Name = "region"
	Resume         Name = "resume"
	Ring           Name = "ring"
	Search         Name = "search"
	Select         Name = "select"
	Settings       Name = "settings"
	Shadow         Name = "shadow"
	Spot           Name = "spot"
	Still          Name = "still"
	Stroke         Name = "stroke"
	Target         Name = "target"
	UnderPointer   Name = "under-pointer"
	Undo           Name = "undo"
	View           Name = "view"
	Warning        Name = "warning"
	Window         Name = "window"
	ZoomFit        Name = "zoom-fit"
	ZoomIn         Name = "zoom-in"
	ZoomOut        Name = "zoom-out"
)

// Resource returns a pictogram as the toolkit takes it, or nil for a name that stands for none.
func Resource(name Name) fyne.Resource {
	file := string(name) + ".svg"
	svg, err := drawings.ReadFile(file)
	if name == "" || err != nil {
		return nil
	}
	return fyne.NewStaticResource(file, svg)
}

// Names returns all there are, in the order of the alphabet.
func Names() []Name {
	entries, err := drawings.ReadDir(".")
	if err != nil {
		return nil // can't be: they are embedded
	}
	var names []Name
	for _, e := range entries {
		names = append(names, Name(strings.TrimSuffix(e.Name(), ".svg")))
	}
	return names
}
