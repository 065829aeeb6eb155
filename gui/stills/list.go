package stills

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"app.tonedesk/gui/files"
	"app.tonedesk/gui/mistake"
	"app.tonedesk/gui/stills/notes"
)

// Entry is a still as the list shows it.
type Entry struct {
	ID string
	Meta
	// Trouble says why the notes can't be read, as Still.Trouble; Meta.Notes is empty then,
	// and how many there are is not known. Else nil.
	Trouble error

	folder      string
	meta, notes stamp // of still.json and notes.json, from before they were read
}

// Unchanged reports whether nothing is known of a still that was not known of it before: its picture
// never changes.
func (e Entry) Unchanged(before Entry) bool { return e.ID == before.ID && e.meta == before.meta }

// stamp tells whether a file is the one that was read before.
type stamp struct {
	size int64
	at   time.Time
}

// stampOf returns the stamp of a file; the zero stamp if there is none.
func stampOf(path string) stamp {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime()}
}

// List lists the stills, newest first, and what could not be read; what is damaged is set
// aside. Only what changed since the last time is read again. The error says why the
// folder could not be read; a folder that isn't there yet has no stills.
func (s *Store) List() ([]Entry, []Problem, error) {
	folders, err := os.ReadDir(s.folders.Data)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, fmt.Errorf("list the stills: %w", err)
	}
	var ids []string
	for _, f := range folders {
		if f.IsDir() && isID(f.Name()) {
			ids = append(ids, f.Name())
		}
	}
	found, problems := s.look(ids)
	s.sweep(folders)
	entries := make([]Entry, 0, len(found))
	for _, f := range found {
		entries = append(entries, *f)
	}
	slices.SortFunc(entries, func(a, b Entry) int { return cmp.Or(b.Time.Compare(a.Time), cmp.Compare(b.ID, a.ID)) })
	return entries, problems, nil
}

// look reads the stills with these IDs, those that are known already only where their files
// changed.
func (s *Store) look(ids []string) ([]*Entry, []Problem) {
	s.mu.Lock()
	defer s.mu.Unlock()
	found, troubles := make([]*Entry, len(ids)), make([]error, len(ids))
	var wait sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wait.Go(func() {
			for i := w; i < len(ids); i += workers {
				troubles[i] = mistake.Guard(func() (err error) {
					found[i], err = s.entry(ids[i], s.known[ids[i]])
					return err
				})
			}
		})
	}
	wait.Wait()
	clear(s.known)
	var problems []Problem
	for i, id := range ids {
		if found[i] != nil {
			s.known[id] = found[i]
			continue
		}
		err := troubles[i]
		if errors.Is(err, ErrDamaged) {
			err = s.setAside(id, err)
		}
		var p Problem
		switch {
		case err == nil, errors.Is(err, ErrGone): // another program mended it, or set it aside
		case errors.As(err, &p):
			problems = append(problems, p)
		default:
			problems = append(problems, Problem{ID: id, Err: err})
		}
	}
	return slices.DeleteFunc(found, func(f *Entry) bool { return f == nil }), problems
}

// entry reads what the list shows of a still; old is what it was, or nil.
func (s *Store) entry(id string, old *Entry) (*Entry, error) {
	folder := s.Folder(id)
	now := &Entry{ID: id, folder: folder, meta: stampOf(filepath.Join(folder, metaName)), notes: stampOf(filepath.Join(folder, notesFile))}
	if old != nil && old.meta == now.meta && old.notes == now.notes {
		return old, nil
	}
	m, err := s.readMeta(id)
	if err != nil {
		return nil, err
	}
	if !s.hasPicture(id) {
		return nil, s.missing(id, fs.ErrNotExist)
	}
	now.Meta = m.Meta
	// What still.json says of the notes may be old: somebody ended between the two files, or
	// the notes were damaged since.
	var d notes.Document
	d, now.Trouble = s.readNotes(id)
	now.Notes = summaryOf(d.Notes)
	return now, nil
}

// Matches reports whether all words are found in the still's name, its source, its time or
// what is written on it, whatever their case. No words match everything.
func (e Entry) Matches(words string) bool {
	text := strings.ToLower(strings.Join(append([]string{
		e.Name, e.Source.Path, e.Source.Kind, e.Display, e.Time.Local().Format("2006-01-02 15:04"),
	}, e.Notes.Texts...), "\n"))
	for word := range strings.FieldsSeq(strings.ToLower(words)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// leftAlone is how old something half made must be before it is cleared away: whoever made
// it has surely ended.
const leftAlone = time.Hour

// sweep clears away what programs that were ended left behind. It is no loss if it can't.
func (s *Store) sweep(folders []fs.DirEntry) {
	files.Sweep(s.folders.Cache, leftAlone)
	for _, f := range folders {
		name := f.Name()
		old := strings.HasPrefix(name, goingDir)
		if info, err := f.Info(); err == nil && strings.HasPrefix(name, makingDir) {
			old = time.Since(info.ModTime()) > leftAlone
		}
		if old && f.IsDir() {
			_ = s.disk.Remove(filepath.Join(s.folders.Data, name))
		}
	}
}
