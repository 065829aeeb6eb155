package marking

import (
	"errors"
	"slices"
	"sync"
	"time"

	"app.tonedesk/gui/mistake"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// Saver saves what is marked on stills, one after the other on a goroutine of its own:
// nobody is asked, and drawing never waits for the disk. Changes that come while it writes
// are written together after. What the disk does not take is tried again with the next
// change, and after a while.
type Saver struct {
	store *stills.Store
	SaverEvents

	mu      sync.Mutex
	waiting []savedNotes // the last state of every still that is to be written
	failed  error        // what Fail got last
	timed   bool         // a try is due by itself
	idle    *sync.Cond   // signalled when running ends
	running bool
	writing savedNotes      // what is being written; its still is nil for nothing
	left    []*stills.Still // closed by the window, to be let go of once nothing of them waits
	closing bool            // nothing is tried by itself any more
}

// SaverEvents is what the saver asks of the window. They are set before it is used.
type SaverEvents struct {
	Soon func(func()) // runs a function on the window's goroutine; it does not wait for it
	// Fail says why something is not saved, nil once everything is. It runs by Soon.
	Fail func(error)
	// Saved says that a still's notes are on the disk. It runs by Soon.
	Saved func()
	// After runs a function later, on any goroutine; nil: by the clock.
	After func(time.Duration, func())
}

type savedNotes struct {
	still *stills.Still
	list  []notes.Note
	tries int   // in vain so far
	err   error // of the last try
	rests bool  // until again
}

// saveAgain is how long the saver waits before each next try; the last for all further ones.
var saveAgain = [...]time.Duration{2 * time.Second, 5 * time.Second, 15 * time.Second, time.Minute}

// NewSaver returns a saver of what is marked on the stills of a store.
func NewSaver(store *stills.Store, events SaverEvents) *Saver {
	s := &Saver{store: store, SaverEvents: events}
	if s.After == nil {
		s.After = func(d time.Duration, f func()) { time.AfterFunc(d, f) }
	}
	s.idle = sync.NewCond(&s.mu)
	return s
}

// Save has a still's notes written soon. The list is never written to.
func (s *Saver) Save(still *stills.Still, list []notes.Note) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if i := s.find(still); i >= 0 {
		s.waiting[i].list = list
	} else {
		s.waiting = append(s.waiting, savedNotes{still: still, list: list})
	}
	s.wake()
}

func (s *Saver) find(still *stills.Still) int {
	return slices.IndexFunc(s.waiting, func(n savedNotes) bool { return n.still == still })
}

// Again tries all that could not be saved.
func (s *Saver) Again() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.wake()
}

// wake lets nothing rest, and has somebody write.
func (s *Saver) wake() {
	for i := range s.waiting {
		s.waiting[i].rests = false
	}
	if !s.running && len(s.waiting) > 0 {
		s.running = true
		go s.run()
	}
}

func (s *Saver) run() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for {
		i := slices.IndexFunc(s.waiting, func(n savedNotes) bool { return !n.rests })
		if i < 0 {
			s.running = false
			s.idle.Broadcast()
			return
		}
		next := s.waiting[i]
		s.waiting = slices.Delete(s.waiting, i, i+1)
		s.writing = next
		s.mu.Unlock()
		next.err = mistake.Guard(func() error { return s.store.SaveNotes(next.still, next.list) })
		if next.err == nil {
			s.Soon(s.Saved)
		}
		s.mu.Lock()
		s.writing = savedNotes{}
		if next.err != nil {
			s.putBack(next)
		}
		s.letGo()
		s.tell()
	}
}

// putBack lets what could not be saved wait for the next try, if nothing newer waits. A still
// that is gone may come back from the trash, but not for ever.
func (s *Saver) putBack(n savedNotes) {
	n.tries++
	n.rests = true
	if errors.Is(n.err, stills.ErrGone) && n.tries > len(saveAgain) {
		return
	}
	if i := s.find(n.still); i >= 0 {
		s.waiting[i].tries, s.waiting[i].err = n.tries, n.err
		return
	}
	s.waiting = append(s.waiting, n)
	if s.closing || s.timed {
		return
	}
	s.timed = true
	s.After(saveAgain[min(n.tries, len(saveAgain))-1], func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.timed = false
		s.wake()
	})
}

// tell tells the window why something is not saved, or that everything is.
func (s *Saver) tell() {
	var err error
	if i := slices.IndexFunc(s.waiting, func(n savedNotes) bool { return n.err != nil }); i >= 0 {
		err = s.waiting[i].err
	}
	if s.failed == nil && err == nil || s.failed != nil && err != nil && s.failed.Error() == err.Error() {
		return
	}
	s.failed = err
	s.Soon(func() { s.Fail(err) })
}

// Leave lets go of a still that the window closed, once nothing that is marked on it waits.
func (s *Saver) Leave(still *stills.Still) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.left = append(s.left, still)
	s.letGo()
}

func (s *Saver) letGo() {
	s.left = slices.DeleteFunc(s.left, func(still *stills.Still) bool {
		if still == s.writing.still || s.find(still) >= 0 {
			return false
		}
		still.Close()
		return true
	})
}

// TakeBack returns a still that the window closed, with what could not be saved of it; nil if
// there is none. It waits until what can be is written, and let go of.
func (s *Saver) TakeBack(id string) *stills.Still {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.rest()
	i := slices.IndexFunc(s.left, func(still *stills.Still) bool { return still.ID == id })
	if i < 0 {
		return nil
	}
	still := s.left[i]
	s.left = slices.Delete(s.left, i, i+1)
	still.Notes.Notes = s.waiting[s.find(still)].list
	return still
}

// Flush waits until all is written, or was tried.
func (s *Saver) Flush() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.rest()
}

func (s *Saver) rest() {
	for s.running {
		s.idle.Wait()
	}
}

// SaveAll tries once more what could not be saved, waits until all is written or was tried,
// and returns why something is not.
func (s *Saver) SaveAll() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.wake()
	s.rest()
	var all []error
	for _, n := range s.waiting {
		all = append(all, n.err)
	}
	return errors.Join(all...)
}

// Close is SaveAll for the end: nothing is tried by itself from then on.
func (s *Saver) Close() error {
	s.mu.Lock()
	s.closing = true
	s.mu.Unlock()
	return s.SaveAll()
}

// Unsaved is a still with what is marked on it and not on the disk yet.
type Unsaved struct {
	Still *stills.Still
	Notes []notes.Note
}

// Unsaved returns what is not saved, or not yet.
func (s *Saver) Unsaved() (all []Unsaved) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if now := s.writing; now.still != nil && s.find(now.still) < 0 {
		all = append(all, Unsaved{now.still, now.list})
	}
	for _, n := range s.waiting {
		all = append(all, Unsaved{n.still, n.list})
	}
	return all
}
