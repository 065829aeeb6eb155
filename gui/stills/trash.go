package stills

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// trashTime is how the time of a deletion stands in the name of a folder in the trash, in
// UTC, so that names go up with time.
const trashTime = "20060102T150405.000000000"

// Delete puts a still into the trash, unless a window marks it. The error wraps ErrGone,
// ErrBusy or ErrHeld, or says why the disk would not do it.
func (s *Store) Delete(id string) error {
	return about("delete still", id, s.change(id, func() error {
		if err := free(s.Folder(id)); err != nil {
			return err
		}
		to := time.Now().UTC().Format(trashTime) + "+" + id
		return s.move(s.Folder(id), filepath.Join(s.folders.Data, trashDir, to))
	}))
}

// Restore takes a still back out of the trash. The error wraps ErrGone if it isn't there,
// or fs.ErrExist if there is one in its place.
func (s *Store) Restore(id string) error { return about("restore still", id, s.restore(id)) }

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
func (s *Store) Trash() ([]Entry, error) {
	names, err := s.trashNames()
	if err != nil {
		return nil, fmt.Errorf("list the trash: %w", err)
	}
	var all []Entry
	for _, name := range slices.Backward(names) {
		folder := filepath.Join(s.folders.Data, trashDir, name)
		stamp := stampOf(filepath.Join(folder, metaName))
		if m, err := metaIn(folder); err == nil {
			_, id, _ := strings.Cut(name, "+")
			all = append(all, Entry{ID: id, Meta: m.Meta, folder: folder, meta: stamp})
		}
	}
	return all, nil
}

// trashNames returns the names of the stills in the trash, in the order of their deletion.
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
