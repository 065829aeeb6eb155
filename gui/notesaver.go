package gui

import (
	"sync"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// noteSaver saves what is marked on stills, one after the other on a goroutine of its own:
// nobody is asked, and drawing never waits for the disk. Changes that come while it writes
// are written together after.
type noteSaver struct {
	store *stills.Store
	fail  func(error) // told on the saver's goroutine

	mu      sync.Mutex
	waiting []savedNotes // the last state of every still that is to be written
	idle    *sync.Cond
	running bool
}

type savedNotes struct {
	still *stills.Still
	list  []notes.Note
}

func newNoteSaver(store *stills.Store, fail func(error)) *noteSaver {
	s := &noteSaver{store: store, fail: fail}
	s.idle = sync.NewCond(&s.mu)
	return s
}

// save has a still's notes written soon. The list is never written to.
func (s *noteSaver) save(still *stills.Still, list []notes.Note) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range s.waiting {
		if s.waiting[i].still == still {
			s.waiting[i].list = list
			return
		}
	}
	s.waiting = append(s.waiting, savedNotes{still, list})
	if !s.running {
		s.running = true
		go s.run()
	}
}

func (s *noteSaver) run() {
	for {
		s.mu.Lock()
		if len(s.waiting) == 0 {
			s.running = false
			s.idle.Broadcast()
			s.mu.Unlock()
			return
		}
		next := s.waiting[0]
		s.waiting = s.waiting[1:]
		s.mu.Unlock()
		if err := s.store.SaveNotes(next.still, next.list); err != nil {
			s.fail(err)
		}
	}
}

// flush waits until all is written.
func (s *noteSaver) flush() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for s.running {
		s.idle.Wait()
	}
}
