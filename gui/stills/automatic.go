package stills

import (
	"fmt"
	"slices"
)

// Room is how much stills may take on the disk, in bytes; 0 for as much as they need.
type Room struct {
	Automatic int64 // those that were kept by the program itself, and not worked on since
	All       int64 // all of them, trash and damaged ones with them
}

// MayGo reports whether a still may be removed without being asked about: it was kept by the program
// itself, and nobody gave it a name, marked it or said anything of its local colours.
func (e Entry) MayGo() bool {
	return e.Automatic && e.Name == "" && e.Trouble == nil && e.Notes.Count == 0
}

// MakeRoom removes, for good, the oldest stills that may go until the room is kept, or none is left
// that spare, which may be nil, doesn't say to need. What somebody kept by hand or worked on stays,
// however much it takes, and so does what a window has open. It returns how many it removed.
func (s *Store) MakeRoom(room Room, spare func(id string) bool) (removed int, err error) {
	list, _, err := s.List()
	if err != nil {
		return 0, err
	}
	all := int64(0)
	if room.All > 0 {
		if all, err = bytesIn(s.folders.Data); err != nil {
			return 0, fmt.Errorf("measure the stills: %w", err)
		}
	}
	var may []Removal
	automatic := int64(0)
	for _, e := range slices.Backward(list) {
		if !e.MayGo() {
			continue
		}
		r := Removal{Entry: e}
		if r.Bytes, err = bytesIn(e.folder); err != nil {
			return 0, fmt.Errorf("measure still %q: %w", e.ID, err)
		}
		automatic += r.Bytes
		if spare == nil || !spare(e.ID) {
			may = append(may, r)
		}
	}
	over := func() bool {
		return room.Automatic > 0 && automatic > room.Automatic || room.All > 0 && all > room.All
	}
	for _, r := range may {
		if !over() {
			break
		}
		// What was changed since, or is marked by a window, stays; the next may still go.
		n, err := s.Clear(Clearing{Removals: []Removal{r}})
		if err == nil {
			automatic, all, removed = automatic-r.Bytes, all-r.Bytes, removed+n
		}
	}
	return removed, nil
}
