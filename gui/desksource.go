package gui

import (
	"image"
	"slices"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/files"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// watch makes from the source. Spots stay where they still lie in it.
func (d *Desk) watch(from setup.Source) {
	next := d.setup
	next.Source = from
	if from.Kind != d.setup.Source.Kind || from.Path != d.setup.Source.Path {
		next.Places, next.Out, next.Borders, next.Families, next.Judged = nil, setup.Out{}, nil, nil, nil
	} else if !from.Region.Empty() {
		out := func(p setup.Place) bool { return !p.Centre().In(from.Region) }
		next.Places = slices.DeleteFunc(slices.Clone(next.Places), out)
		next.Families = slices.DeleteFunc(slices.Clone(next.Families), func(f setup.Family) bool { return out(f.Light) || out(f.Shadow) })
	}
	d.history.Settle()
	d.change(next, "")
}

// targetStill makes a still the target.
func (d *Desk) targetStill(id string) { d.target.OpenStill(id, d.target.Set) }

// OpenPicture shows a picture file instead of the screen.
func (d *Desk) OpenPicture(path string) { d.watch(setup.Source{Kind: setup.SourcePicture, Path: path}) }

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
	case setup.SourceStill: // what was watched before is what comes back
		d.settings.Region, d.settings.Picture = d.stills.remembered()
	case setup.SourceRegion:
		d.settings.Region = new(files.RectOf(d.setup.Source.Region))
	case setup.SourcePicture:
		d.settings.Picture = d.setup.Source.Path
	}
	noteWatched(d)
	d.keep()
}

// noteWatched puts what is watched first among what is offered again.
func noteWatched(d *Desk) {
	switch from := d.setup.Source; from.Kind {
	case setup.SourceRegion:
		d.settings = d.settings.Watching(settings.Watched{Region: new(files.RectOf(from.Region))})
	case setup.SourcePicture:
		d.settings = d.settings.Watching(settings.Watched{Picture: from.Path})
	}
}

// firstSource is what is watched at the start: the file that was named, else what was
// watched last, else nothing: the painter is asked.
func firstSource(picture string, s settings.Settings) setup.Source {
	switch region := s.Region.Rectangle(); {
	case picture != "":
		return setup.Source{Kind: setup.SourcePicture, Path: picture}
	case s.Picture != "":
		return setup.Source{Kind: setup.SourcePicture, Path: s.Picture}
	case !region.Empty():
		return setup.Source{Kind: setup.SourceRegion, Region: region}
	}
	return setup.Source{Kind: setup.SourceNothing}
}

// filesRead are the files that the window reads: the picture or the still, and the target.
func (d *Desk) filesRead() []string {
	read := []string{d.setup.Source.Path}
	if d.setup.Source.Kind == setup.SourceStill && d.Store != nil {
		read = d.Store.Files(d.setup.Source.Path)
	}
	if d.setup.Target != nil {
		read = append(read, d.setup.Target.Path)
	}
	return read
}

// watchedRegion is the region of the screen that is watched; empty if none is.
func (d *Desk) watchedRegion() image.Rectangle {
	if d.setup.Source.Kind != setup.SourceRegion {
		return image.Rectangle{}
	}
	return d.setup.Source.Region
}
