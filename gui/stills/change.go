package stills

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills/notes"
)

// SaveNotes saves list as what is marked on a still that Mark opened. If it fails, the disk
// has what it had. The error wraps ErrGone, ErrBusy or notes.ErrNewer, is what bars the still,
// or says why the disk would not take it.
func (s *Store) SaveNotes(still *Still, list []notes.Note) error {
	err := still.Barred
	if err == nil {
		err = s.change(still.ID, func() error { return s.saveNotes(still.ID, list) })
	}
	if err != nil {
		return fmt.Errorf("save the notes of still %q: %w", still.ID, err)
	}
	return nil
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
	return s.writeMeta(id, m)
}

// Rename gives a still another name, without the space around it. Errors are those of SaveNotes.
func (s *Store) Rename(id, name string) error {
	err := s.change(id, func() error {
		m, err := s.readMeta(id)
		if err != nil {
			return err
		}
		m.Name = strings.TrimSpace(name)
		if d, err := s.readNotes(id); err == nil { // a crash may have left an old summary
			m.Notes = summaryOf(d.Notes)
		}
		return s.writeMeta(id, m)
	})
	if err != nil {
		return fmt.Errorf("rename still %q: %w", id, err)
	}
	return nil
}

func (s *Store) writeMeta(id string, m metaFile) error {
	text, err := m.encode()
	if err != nil {
		return err
	}
	return files.Replace(s.disk, filepath.Join(s.Folder(id), metaName), files.Bytes(text))
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
