package command

import (
	"os"
	"path/filepath"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// subject is what a command works on: a still or a picture file.
type subject struct {
	name  string // as it was given
	side  stills.Side
	still *stills.Still // nil for a picture file
	// trouble is why a still's notes could not be read; nil if they could.
	trouble error
	reads   []string // paths of the files that it is read from
}

// sayTrouble says why the notes of a still could not be read, if that is so.
func (c *call) sayTrouble(name string, trouble error) {
	if trouble != nil {
		c.fail(wording.Explain(wording.On("read the notes of the still %s", name), trouble))
	}
}

// openSubject opens the still that name says, by its folder, its ID, or its name if it is the
// only one so named, or else the picture file. Its errors are sentences.
func openSubject(name string) (subject, error) {
	if info, err := os.Stat(name); err == nil && !info.IsDir() {
		return pictureSubject(name) // whether or not there is a place for stills
	}
	store, err := UserStills()
	if err != nil {
		return subject{}, err
	}
	id, err := stillNamed(store, name)
	if err != nil {
		return subject{}, err
	}
	if id == "" {
		return pictureSubject(name)
	}
	still, err := store.Open(id)
	if err != nil {
		return subject{}, sentence(wording.Explain(wording.On("open the still %s", name), err))
	}
	side := stills.Side{Picture: still.Picture, Source: still.Meta.Source, LeftOut: still.Meta.LeftOut}
	return subject{name, side, still, still.Trouble, store.Files(id)}, nil
}

// stillNamed returns the ID of the still that is meant by a name; "" for none. A file goes
// before an ID, and an ID before what a still is called.
func stillNamed(store *stills.Store, name string) (id string, err error) {
	if info, err := os.Stat(name); err == nil {
		if path, err := filepath.Abs(name); err == nil && info.IsDir() && isFolder(filepath.Dir(path), store.Folder("")) && store.Has(filepath.Base(path)) {
			return filepath.Base(path), nil
		}
		return "", nil
	}
	if store.Has(name) {
		return name, nil
	}
	list, _, err := store.List()
	if err != nil {
		return "", nil // there may be no stills at all; the file is what is missing
	}
	for _, e := range list {
		switch {
		case e.Name != stills.CutName(name) || e.Name == "":
		case id != "":
			return "", sentence(wording.Cannot(wording.On("open the still %s", name), "more than one has that name", "give its ID, as desk stills lists it"))
		default:
			id = e.ID
		}
	}
	return id, nil
}

// isFolder reports whether two paths are those of one folder.
func isFolder(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// UserStills returns the user's store of stills.
func UserStills() (*stills.Store, error) {
	folders, err := stills.UserFolders()
	if err != nil {
		return nil, sentence(wording.Explain("find the stills", err))
	}
	return stills.New(folders), nil
}

func pictureSubject(name string) (subject, error) {
	pixels, err := openPicture(name)
	if err != nil {
		return subject{}, err
	}
	path, err := filepath.Abs(name)
	if err != nil {
		path = name
	}
	return subject{name, stills.Side{Picture: pixels, Source: stills.Source{Kind: stills.FromPicture, Path: path}}, nil, nil, []string{path}}, nil
}

// openPicture reads the pixels of a picture file. Its errors are sentences.
func openPicture(path string) (analysis.Pixels, error) {
	p, _, err := openToldPicture(path)
	return p, err
}

// openToldPicture is openPicture, and says what of the file told its colours.
func openToldPicture(path string) (analysis.Pixels, pictures.Told, error) {
	p, told, err := pictures.Open(path)
	if err != nil {
		return p, told, explained{sentence(wording.Explain(wording.On("read %s", path), err)), err}
	}
	return p, told, nil
}

// layOver lays half-transparent pixels over white, as desk read does: in place, since the
// picture is the command's alone.
func (of *subject) layOver() { of.side.Picture.LayOver(analysis.White) }
