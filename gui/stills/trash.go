package stills

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Trashed is a still that was deleted and can come back.
type Trashed struct {
	Entry
	Deleted time.Time
	folder  string
}

// trashTime is how the time of a deletion stands in the name of a folder in the trash, in
// UTC, so that names go up with time.
const trashTime = "20060102T150405.000000000"

// Delete puts a still into the trash, unless a window marks it. The error wraps ErrGone,
// ErrBusy or ErrHeld, or says why the disk would not do it.
func (s *Store) Delete(id string) error {
	err := s.change(id, func() error {
		if err := free(s.Folder(id)); err != nil {
			return err
		}
		to := time.Now().UTC().Format(trashTime) + "+" + id
		return s.move(s.Folder(id), filepath.Join(s.folders.Data, trashDir, to))
	})
	if err != nil {
		return fmt.Errorf("delete still %q: %w", id, err)
	}
	return nil
}

// Restore takes a still back out of the trash. The error wraps ErrGone if it isn't there,
// or fs.ErrExist if there is one in its place.
func (s *Store) Restore(id string) error {
	err := s.restore(id)
	if err != nil {
		return fmt.Errorf("restore still %q: %w", id, err)
	}
	return nil
}

func (s *Store) restore(id string) error {
	if !isID(id) {
		return ErrGone
	}
	if err := s.ready(); err != nil {
		return err
	}
	unlock, err := s.lock()
	if err != nil {
		return err
	}
	defer unlock()
	if _, err := os.Lstat(s.Folder(id)); err == nil {
		return fs.ErrExist
	}
	names, err := s.trashNames()
	if err != nil {
		return err
	}
	for _, name := range slices.Backward(names) {
		if _, of, _ := strings.Cut(name, "+"); of == id {
			return s.move(filepath.Join(s.folders.Data, trashDir, name), s.Folder(id))
		}
	}
	return ErrGone
}

// Trash lists what is in the trash, deleted last first. What can't be read there is not
// listed, and stays.
func (s *Store) Trash() ([]Trashed, error) {
	names, err := s.trashNames()
	if err != nil {
		return nil, fmt.Errorf("list the trash: %w", err)
	}
	var all []Trashed
	for _, name := range names {
		when, id, _ := strings.Cut(name, "+")
		at, err := time.Parse(trashTime, when)
		if err != nil {
			continue
		}
		folder := filepath.Join(s.folders.Data, trashDir, name)
		text, err := readUpTo(filepath.Join(folder, metaName), maxMeta+1)
		if err != nil {
			continue
		}
		if m, err := decodeMeta(text); err == nil {
			all = append(all, Trashed{Entry: Entry{ID: id, Meta: m.Meta}, Deleted: at, folder: folder})
		}
	}
	slices.SortFunc(all, func(a, b Trashed) int {
		return cmp.Or(b.Deleted.Compare(a.Deleted), cmp.Compare(b.ID, a.ID))
	})
	return all, nil
}

// trashNames returns the names of the stills in the trash, deleted first first.
func (s *Store) trashNames() ([]string, error) {
	entries, err := os.ReadDir(filepath.Join(s.folders.Data, trashDir))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var names []string // sorted, as ReadDir gives them
	for _, e := range entries {
		if _, id, ok := strings.Cut(e.Name(), "+"); ok && e.IsDir() && isID(id) {
			names = append(names, e.Name())
		}
	}
	return names, nil
}
