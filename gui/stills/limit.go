package stills

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Removal is a still that would be removed for good to keep to a limit.
type Removal struct {
	Entry
	InTrash bool
	Bytes   int64
}

// Clearing is what a limit on the disk used would cost.
type Clearing struct {
	Used     int64     // bytes that all stills use now, trash and damaged ones with them
	Limit    int64     // bytes
	Removals []Removal // what would go: the trash first, then the oldest; empty within the limit
	After    int64     // bytes used once they are gone; above Limit where that is not enough
}

// Enough reports whether the limit is kept once the removals are gone.
func (c Clearing) Enough() bool { return c.After <= c.Limit }

// Over says what would have to be removed to keep to a limit in bytes. It removes nothing.
// The newest still, and what was set aside as damaged, is never on the list.
func (s *Store) Over(limit int64) (Clearing, error) {
	used, err := bytesIn(s.folders.Data)
	if err != nil {
		return Clearing{}, fmt.Errorf("measure the stills: %w", err)
	}
	c := Clearing{Used: used, Limit: limit, After: used}
	if used <= limit {
		return c, nil
	}
	trash, err := s.Trash()
	if err != nil {
		return Clearing{}, err
	}
	all, _, err := s.List()
	if err != nil {
		return Clearing{}, err
	}
	var choice []Removal
	for _, e := range slices.Backward(trash) {
		choice = append(choice, Removal{Entry: e, InTrash: true})
	}
	for _, e := range slices.Backward(all[min(1, len(all)):]) {
		choice = append(choice, Removal{Entry: e})
	}
	for _, r := range choice {
		if c.After <= limit {
			break
		}
		if r.Bytes, err = bytesIn(r.folder); err != nil {
			return Clearing{}, fmt.Errorf("measure still %q: %w", r.ID, err)
		}
		c.Removals = append(c.Removals, r)
		c.After -= r.Bytes
	}
	return c, nil
}

// Clear removes, for good, what Over listed and the user agreed to. A still that was changed
// since, or that a window marks, stays. It returns how many it removed; the error is the first
// of those that could not be, and wraps ErrChanged or ErrHeld for one that stayed.
func (s *Store) Clear(c Clearing) (removed int, err error) {
	if len(c.Removals) == 0 {
		return 0, nil
	}
	unlock, err := s.lock()
	if err != nil {
		return 0, fmt.Errorf("remove stills: %w", err)
	}
	defer unlock()
	for _, r := range c.Removals {
		err2 := s.remove(r)
		if err2 == nil {
			removed++
		} else if err == nil {
			err = fmt.Errorf("remove still %q: %w", r.ID, err2)
		}
	}
	return removed, err
}

// remove takes a still out of sight in one step, then removes its files.
func (s *Store) remove(r Removal) error {
	switch now := stampOf(filepath.Join(r.folder, metaName)); {
	case now == stamp{}:
		return ErrGone
	case now != r.meta:
		return ErrChanged
	}
	if err := free(r.folder); err != nil {
		return err
	}
	going := filepath.Join(s.folders.Data, goingDir+unique())
	if err := s.disk.Rename(r.folder, going); err != nil {
		return err
	}
	_ = s.disk.Settle(s.folders.Data)
	s.forgetThumbnail(r.ID)
	return s.disk.Remove(going)
}

// bytesIn adds up the sizes of all files in a folder. What vanishes meanwhile, or isn't
// there, has none.
func bytesIn(folder string) (sum int64, err error) {
	err = filepath.WalkDir(folder, func(_ string, e fs.DirEntry, err error) error {
		if err == nil && e.Type().IsRegular() {
			var info fs.FileInfo
			if info, err = e.Info(); err == nil {
				sum += info.Size()
			}
		}
		if errors.Is(err, os.ErrNotExist) {
			return nil
		}
		return err
	})
	return sum, err
}
