package gui

import (
	"slices"

	"fyne.io/fyne/v2"
)

// watch makes from the source. Spots stay where they still lie in it.
func (d *Desk) watch(from source) {
	if from != (source{Kind: sourceStill, Path: d.kept.id}) { // opening it belongs to keeping it
		d.leaveKept()
	}
	next := d.setup
	next.Source = from
	if from.Kind != d.setup.Source.Kind || from.Path != d.setup.Source.Path {
		next.Places, next.Areas, next.Tones, next.Edges, next.Families = nil, nil, nil, nil, nil
	} else if !from.Region.Empty() {
		out := func(p place) bool { return !p.centre().In(from.Region) }
		next.Places = slices.DeleteFunc(slices.Clone(next.Places), out)
		next.Families = slices.DeleteFunc(slices.Clone(next.Families), func(f handFamily) bool { return out(f.Light) || out(f.Shadow) })
	}
	d.history.settle()
	d.change(next, "")
}

// OpenPicture shows a picture file instead of the screen.
func (d *Desk) OpenPicture(path string) { d.watch(source{Kind: sourcePicture, Path: path}) }

// Dropped opens the first file that was dropped on the window.
func (d *Desk) Dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) > 0 {
		d.OpenPicture(files[0].Path())
	}
}

// remember keeps what is watched for the next start.
func (d *Desk) remember() {
	d.settings.Region, d.settings.Picture = nil, ""
	switch d.setup.Source.Kind {
	case sourceStill: // what was watched before is what comes back
		d.settings.Region, d.settings.Picture = d.rememberedBefore()
	case sourceRegion:
		d.settings.Region = RectOf(d.setup.Source.Region)
	case sourcePicture:
		d.settings.Picture = d.setup.Source.Path
	}
	d.keep()
}

// firstSource is what is watched at the start: the file that was named, else what was
// watched last, else the demo painting.
func firstSource(picture string, s Settings) source {
	switch region := s.Region.Rectangle(); {
	case picture != "":
		return source{Kind: sourcePicture, Path: picture}
	case s.Picture != "":
		return source{Kind: sourcePicture, Path: s.Picture}
	case !region.Empty():
		return source{Kind: sourceRegion, Region: region}
	}
	return source{Kind: sourceDemo}
}
