package stills

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills/notes"
)

// about says what was tried with which still where err is not nil.
func about(tried, id string, err error) error {
	if err != nil {
		return fmt.Errorf("%s %q: %w", tried, id, err)
	}
	return nil
}

// SaveNotes saves list as what is marked on a still that Mark opened. If it fails, the disk
// has what it had. The error wraps ErrGone, ErrBusy or notes.ErrNewer, is what bars the still,
// or says why the disk would not take it.
func (s *Store) SaveNotes(still *Still, list []notes.Note) error {
	err := still.Barred
	if err == nil {
		err = s.change(still.ID, func() error { return s.saveNotes(still.ID, list) })
	}
	return about("save the notes of still", still.ID, err)
}

// saveNotes keeps what newer programs added to the notes, and what is damaged.
func (s *Store) saveNotes(id string, list []notes.Note) error {
	there, err := s.readNotes(id)
	if errors.Is(err, notes.ErrDamaged) {
		there, err = notes.Document{}, s.setNotesAside(id)
	}
	if err != nil {
		return err
	}
	text, err := there.With(list).Encode()
	if err != nil {
		return err
	}
	if err := files.Replace(s.disk, filepath.Join(s.Folder(id), notesFile), files.Bytes(text)); err != nil {
		return err
	}
	m, err := s.readMeta(id)
	if err != nil {
		return err
	}
	m.Notes = summaryOf(list)
	m.Automatic = m.Automatic && len(list) == 0
	return s.writeMeta(id, m)
}

// Rename gives a still another name, as CutName has it. Errors are those of SaveNotes.
func (s *Store) Rename(id, name string) error {
	return about("rename still", id, s.change(id, func() error {
		m, err := s.readMeta(id)
		if err != nil {
			return err
		}
		m.Name, m.Automatic = CutName(name), false
		if d, err := s.readNotes(id); err == nil { // a crash may have left an old summary
			m.Notes = summaryOf(d.Notes)
		}
		return s.writeMeta(id, m)
	}))
}

func (s *Store) writeMeta(id string, m metaFile) error {
	text, err := m.encode()
	if err != nil {
		return err
	}
	err = files.Replace(s.disk, filepath.Join(s.Folder(id), metaName), files.Bytes(text))
	s.touch()
	return err
}

// change runs do while no other program changes anything, on a still that is there.
func (s *Store) change(id string, do func() error) error {
	if !isID(id) {
		return ErrGone
	}
	if _, err := os.Lstat(s.Folder(id)); err != nil {
		return s.missing(id, err)
	}
	unlock, err := s.lock()
	if err != nil {
		return err
	}
	defer unlock()
	return do()
}

// Problem is something in the folder of stills that could not be used. It is an error.
type Problem struct {
	ID    string // of a still
	Err   error  // wraps ErrDamaged or ErrNewer, or says why the disk would not give it
	Aside string // where a damaged one was put; "" if it lies where it was
}

func (p Problem) Error() string {
	if p.Aside != "" {
		return fmt.Sprintf("still %q: %v; set aside in %s", p.ID, p.Err, p.Aside)
	}
	return fmt.Sprintf("still %q: %v", p.ID, p.Err)
}

func (p Problem) Unwrap() error { return p.Err }

// setAside moves a still that was found damaged out of the way, as it is. The error is nil if
// it is whole by now, ErrGone if it is gone, else a Problem.
func (s *Store) setAside(id string, found error) error {
	p := Problem{ID: id, Err: found}
	failed := s.change(id, func() error {
		if _, p.Err = s.picture(id); !errors.Is(p.Err, ErrDamaged) {
			return nil
		}
		to := filepath.Join(s.folders.Data, damagedDir, id)
		if err := s.move(s.Folder(id), to); err != nil {
			return err
		}
		p.Aside = to
		return nil
	})
	if failed != nil { // perhaps since nothing may be written here
		p.Err = errors.Join(p.Err, failed)
	}
	switch {
	case p.Err == nil:
		return nil
	case errors.Is(p.Err, ErrGone):
		return ErrGone
	}
	return p
}

// hasPicture reports whether a still has a file for its picture.
func (s *Store) hasPicture(id string) bool {
	info, err := os.Stat(filepath.Join(s.Folder(id), pictureFile))
	return err == nil && info.Mode().IsRegular() && info.Size() > 0
}

// setNotesAside gives damaged notes another name beside, as they are. The lock is held.
func (s *Store) setNotesAside(id string) error {
	name := filepath.Join(s.Folder(id), notesFile)
	if err := s.disk.Rename(name, name+".damaged-"+time.Now().Format(idTime)+"-"+unique()); err != nil {
		return err
	}
	return s.disk.Settle(s.Folder(id))
}

// move gives a folder a new place in one step, for good. The new one's folder is made.
func (s *Store) move(from, to string) error {
	if err := s.disk.Mkdir(filepath.Dir(to)); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	if err := s.disk.Rename(from, to); err != nil {
		return err
	}
	_ = s.disk.Settle(filepath.Dir(to)) // it is moved; a power cut may still undo that
	_ = s.disk.Settle(filepath.Dir(from))
	return nil
}
