package stills

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

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

// setAside moves a still out of the way, as it is, if check finds it damaged. The problem is
// nil if the still is gone or whole by now.
func (s *Store) setAside(id string, check func(id string) error) error {
	p := Problem{ID: id}
	err := s.change(id, func() error {
		if p.Err = check(id); !errors.Is(p.Err, ErrDamaged) {
			return p.Err
		}
		to := filepath.Join(s.folders.Data, damagedDir, id)
		err := s.move(s.Folder(id), to)
		if err == nil {
			p.Aside = to
		}
		return err
	})
	if p.Err == nil {
		return err
	}
	if err != nil && !errors.Is(p.Err, err) {
		p.Err = errors.Join(p.Err, err)
	}
	return p
}

// check returns what the shelf would find wrong with a still.
func (s *Store) check(id string) error {
	if _, err := s.readMeta(id); err != nil {
		return err
	}
	if !s.hasPicture(id) {
		return s.missing(id, fs.ErrNotExist)
	}
	return nil
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
