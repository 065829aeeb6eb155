package settings

import (
	"image"
	"slices"

	"app.tonedesk/gui/files"
	"app.tonedesk/gui/setup"
)

// Watched is what was watched: a picture file, a region of the screen, or a window.
type Watched struct {
	Picture string      `json:"picture,omitempty"`
	Region  *files.Rect `json:"region,omitempty"`
	Window  *Followed   `json:"window,omitempty"`
}

// Followed is a window of another program, as it is found again, or what the desktop shares.
type Followed struct {
	Title  string      `json:"title"`
	Class  string      `json:"class"`            // of its program
	Shared bool        `json:"shared,omitempty"` // no window of a name, but what the desktop shares
	Part   *files.Rect `json:"part,omitempty"`   // from its inside's top left, in pixels; nil for all of it
}

func (f Followed) clone() *Followed {
	if f.Part != nil {
		part := *f.Part
		f.Part = &part
	}
	return &f
}

// WatchedOf returns what is remembered of a source; the zero value is nothing.
func WatchedOf(from setup.Source) (w Watched) {
	switch from.Kind {
	case setup.SourcePicture:
		w.Picture = from.Path
	case setup.SourceRegion:
		w.Region = new(files.RectOf(from.Region))
	case setup.SourceWindow, setup.SourceShared:
		w.Window = &Followed{Title: from.Title, Class: from.Class, Shared: from.Kind == setup.SourceShared}
		if !from.Region.Empty() {
			w.Window.Part = new(files.RectOf(from.Region))
		}
	}
	return w
}

// Source returns what is watched by it.
func (w Watched) Source() setup.Source {
	switch {
	case w.Picture != "":
		return setup.Source{Kind: setup.SourcePicture, Path: w.Picture}
	case w.Window != nil:
		from := setup.Source{Kind: setup.SourceWindow, Title: w.Window.Title, Class: w.Window.Class}
		if w.Window.Shared {
			from = setup.Source{Kind: setup.SourceShared}
		}
		if w.Window.Part != nil {
			from.Region = w.Window.Part.Rectangle()
		}
		return from
	case w.Region != nil:
		return setup.Source{Kind: setup.SourceRegion, Region: w.Region.Rectangle()}
	}
	return setup.Source{Kind: setup.SourceNothing}
}

// same reports whether two are the same; parts of a window are.
func (w Watched) same(o Watched) bool { return w.key() == o.key() }

// key is the same for those that are the same.
func (w Watched) key() setup.Source {
	from := w.Source()
	if from.Kind == setup.SourceWindow || from.Kind == setup.SourceShared {
		return from.Whole()
	}
	return from
}

// MostBefore is how many of what was watched are remembered.
const MostBefore = 3

// Watching returns the settings with what is watched from now on before what was.
func (s Settings) Watching(now Watched) Settings {
	before := []Watched{now}
	for _, w := range s.Before {
		if !w.same(now) && len(before) < MostBefore {
			before = append(before, w)
		}
	}
	s.Before = before
	return s
}

// Renaming returns the settings without what was watched under its old name, as it is offered under
// its new one; what lies on it goes along.
func (s Settings) Renaming(was, now setup.Source) Settings {
	old := WatchedOf(was)
	s.Before = slices.DeleteFunc(slices.Clone(s.Before), func(w Watched) bool { return w.same(old) })
	s.Pictures = s.Pictures.renamed(was, now)
	return s.Watching(WatchedOf(now))
}

// Remembering returns the settings with what is watched at the next start. While a window is
// followed the region from before stays.
func (s Settings) Remembering(from setup.Source) Settings {
	w := WatchedOf(from)
	s.Picture, s.Window = w.Picture, w.Window
	if w.Window == nil {
		s.Region = w.Region
	}
	return s
}

// First is what is watched at the start: what was watched last.
func (s Settings) First() setup.Source {
	return Watched{s.Picture, s.Region, s.Window}.Source()
}

// confineFollowed returns f, nil if it names no window; a part that no window could have is
// left out.
func confineFollowed(f *Followed) *Followed {
	if f == nil {
		return nil
	}
	text := plainText(maxNote, "")
	g := &Followed{Title: text(f.Title), Class: text(f.Class), Shared: f.Shared, Part: sensible(f.Part)}
	if g.Shared {
		g.Title, g.Class = "", ""
	} else if g.Title == "" && g.Class == "" {
		return nil
	}
	if g.Part != nil && !g.Part.Rectangle().In(image.Rect(0, 0, 2*maxSide, 2*maxSide)) {
		g.Part = nil
	}
	return g
}

// confineBefore keeps what could be watched, as many as are remembered.
func confineBefore(before []Watched) (kept []Watched) {
	for _, w := range before {
		w = Watched{plainText(maxPath, "")(w.Picture), sensible(w.Region), confineFollowed(w.Window)}
		ways := 0
		for _, is := range []bool{w.Picture != "", w.Region != nil, w.Window != nil} {
			if is {
				ways++
			}
		}
		if ways == 1 && len(kept) < MostBefore {
			kept = append(kept, w)
		}
	}
	return kept
}
