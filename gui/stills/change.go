package stills

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"app.tonedesk/gui/stills/notes"
)

// SaveNotes saves what is marked on a still. What another program did to its notes is joined
// with it (see notes.Merge): list is compared with what the caller passed the last time, at
// first with what it opened, so a caller that never looks at what others did removes nothing
// of it. What lies on the disk afterwards is in still.Notes; a caller that goes on from that
// says so by still.TakeOver. If it fails, the disk has what it had. The error wraps ErrGone,
// ErrBusy or notes.ErrNewer, or says why the disk would not take it.
func (s *Store) SaveNotes(still *Still, list []notes.Note) error {
	err := s.change(still.ID, func() error { return s.saveNotes(still, list) })
	if err != nil {
		return fmt.Errorf("save the notes of still %q: %w", still.ID, err)
	}
	return nil
}

func (s *Store) saveNotes(still *Still, list []notes.Note) error {
	there, text, err := s.readNotes(still.ID)
	if errors.Is(err, notes.ErrDamaged) {
		there, text, err = notes.Document{}, nil, s.setNotesAside(still.ID)
	}
	if err != nil {
		return err
	}
	next := there.With(list)
	switch { // notes that were taken from the disk as a whole are written anew
	case text != nil && (!bytes.Equal(text, still.text) || !alike(still.seen, there.Notes)):
		next = there.With(notes.Merge(still.seen, list, there.Notes))
	}
	written, err := next.Encode()
	if err != nil {
		return err
	}
	if !bytes.Equal(written, text) {
		err := replace(s.disk, filepath.Join(s.Folder(still.ID), notesFile), written)
		if err != nil { // it may have failed after the file was in its place
			if _, now, _ := s.readNotes(still.ID); bytes.Equal(now, written) {
				still.Notes, still.text, still.seen = next, written, list
			}
			return err
		}
	}
	still.Notes, still.text, still.seen = next, written, list
	m, err := s.readMeta(still.ID)
	if err != nil {
		return err
	}
	m.Notes = summaryOf(next.Notes)
	still.Meta = m.Meta
	return s.writeMeta(still.ID, m)
}

// alike reports whether two lists hold the same notes in the same order.
func alike(a, b []notes.Note) bool { return slices.EqualFunc(a, b, notes.Equal) }

// Rename gives a still another name, without the space around it. Errors are those of SaveNotes.
func (s *Store) Rename(id, name string) error {
	err := s.change(id, func() error {
		m, err := s.readMeta(id)
		if err != nil {
			return err
		}
		m.Name = strings.TrimSpace(name)
		if d, _, err := s.readNotes(id); err == nil { // a crash may have left an old summary
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
	return replace(s.disk, filepath.Join(s.Folder(id), metaName), text)
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
