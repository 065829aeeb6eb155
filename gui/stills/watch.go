package stills

import (
	"context"
	"os"
	"path/filepath"
	"time"
)

// watchEvery is how often the folder is looked at; our choice, for one look at two folders'
// times.
const watchEvery = time.Second

// Watch calls changed after stills were kept, deleted, brought back, named or marked, by
// whichever program, until ctx ends.
func (s *Store) Watch(ctx context.Context, changed func()) {
	tick := time.NewTicker(watchEvery)
	defer tick.Stop()
	for was := s.times(); ; {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if now := s.times(); now != was {
			was = now
			changed()
		}
	}
}

// times are others whenever List or Trash may be.
func (s *Store) times() (at [2]time.Time) {
	for i, folder := range []string{s.folders.Data, filepath.Join(s.folders.Data, trashDir)} {
		if info, err := os.Stat(folder); err == nil {
			at[i] = info.ModTime()
		}
	}
	return at
}

// touch tells other programs that a still's own files are others: its folder's time says so,
// and that of all stills does not.
func (s *Store) touch() {
	now := time.Now()
	_ = os.Chtimes(s.folders.Data, now, now) // they show it a little later then
}
