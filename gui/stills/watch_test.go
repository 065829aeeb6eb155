package stills

import (
	"context"
	"testing"
	"time"
)

// Whatever another program does to the stills changes what tells that they changed.
func TestTimesTellOfChanges(t *testing.T) {
	folders := Folders{Data: t.TempDir()}
	s, other := New(folders), New(folders)
	id, was := "", s.times()
	for _, deed := range []struct {
		name string
		do   func() error
	}{
		{"keeping", func() (err error) { id, err = other.Keep(noise(1), metaFor(1), nil); return err }},
		{"naming", func() error { return other.Rename(id, "Hands") }},
		{"marking", func() error {
			still, err := other.Mark(id)
			if err != nil {
				return err
			}
			defer still.Close()
			return other.SaveNotes(still, notesFor(1))
		}},
		{"deleting", func() error { return other.Delete(id) }},
		{"bringing back", func() error { return other.Restore(id) }},
	} {
		if err := deed.do(); err != nil {
			t.Fatalf("%s: %v", deed.name, err)
		}
		now := s.times()
		if now == was {
			t.Errorf("%s changes nothing", deed.name)
		}
		was = now
	}
}

func TestWatchTellsOfChanges(t *testing.T) {
	folders := Folders{Data: t.TempDir()}
	ctx, stop := context.WithCancel(t.Context())
	told, ended := make(chan struct{}, 1), make(chan struct{})
	s := New(folders)
	go func() {
		defer close(ended)
		s.Watch(ctx, func() { told <- struct{}{} })
	}()
	time.AfterFunc(watchEvery/2, func() { _, _ = New(folders).Keep(noise(1), metaFor(1), nil) })
	<-told
	stop()
	<-ended
}
