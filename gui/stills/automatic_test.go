package stills

import (
	"slices"
	"testing"
	"time"

	"app.tonedesk/gui/stills/notes"
)

// keepItself keeps a still as the program itself does, so many minutes after the first.
func keepItself(t *testing.T, s *Store, minute int, list ...notes.Note) string {
	t.Helper()
	id, err := s.Keep(noise(minute), Meta{Time: time.Date(2026, 3, 1, 20, minute, 0, 0, time.UTC), Automatic: true}, list)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// there lists the stills there are, oldest first.
func there(t *testing.T, s *Store) (ids []string) {
	t.Helper()
	list, problems, err := s.List()
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	for _, e := range slices.Backward(list) {
		ids = append(ids, e.ID)
	}
	return ids
}

// The oldest that the program kept itself go first, and no others: none that was kept by hand, has
// notes or a name, or had them, whose local colours were judged, or which is open or spared.
func TestMakeRoom(t *testing.T) {
	s := storeAt(t)
	byHand, err := s.Keep(noise(0), Meta{Time: time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	noted := keepItself(t, s, 1, notesFor(1)...)
	named, unnamed, judged, open, spared := keepItself(t, s, 2), keepItself(t, s, 3), keepItself(t, s, 4), keepItself(t, s, 5), keepItself(t, s, 6)
	marked := keepItself(t, s, 7)
	plain := []string{keepItself(t, s, 8), keepItself(t, s, 9), keepItself(t, s, 10)}
	for _, name := range [][2]string{{named, "sketch"}, {unnamed, "sketch"}, {unnamed, ""}} {
		if err := s.Rename(name[0], name[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Judge(judged, nil); err != nil {
		t.Fatal(err)
	}
	defer mark(t, s, open, nil).Close()
	was := mark(t, s, marked, nil)
	for _, list := range [][]notes.Note{notesFor(1), nil} {
		if err := s.SaveNotes(was, list); err != nil {
			t.Fatal(err)
		}
	}
	was.Close()
	stay := []string{byHand, noted, named, unnamed, judged, open, spared, marked}
	one, err := bytesIn(s.Folder(plain[2]))
	if err != nil {
		t.Fatal(err)
	}
	spare := func(id string) bool { return id == spared }
	for _, step := range []struct {
		room Room
		left []string
	}{
		{Room{}, plain},
		{Room{Automatic: 100 * one, All: 1000 * one}, plain},
		{Room{Automatic: 4*one + one/2}, plain[1:]}, // with the one that is open and the one that is spared
		{Room{All: 1}, nil},
	} {
		before := len(there(t, s))
		removed, err := s.MakeRoom(step.room, spare)
		if err != nil {
			t.Fatal(err)
		}
		got := there(t, s)
		if want := append(slices.Clone(stay), step.left...); !slices.Equal(got, want) || removed != before-len(got) {
			t.Errorf("within %+v %d are removed, left %q, want %q", step.room, removed, got, want)
		}
	}
	if trash, err := s.Trash(); err != nil || len(trash) > 0 {
		t.Errorf("trash: %v, %v", trash, err)
	}
}
