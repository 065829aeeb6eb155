package settings

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"app.tonedesk/gui/files"
)

// A change is written after keepDelay without a further one, but never later than
// keepLatest, so that dragging the window writes once and nothing waits for ever.
const (
	keepDelay  = 500 * time.Millisecond
	keepLatest = 5 * time.Second
)

// Keeper writes settings to their file a little after they changed. The file is replaced
// as a whole: whoever pulls the plug finds the old one or the new one. All methods may be
// called from any goroutine.
type Keeper struct {
	path   string
	failed func(error)

	writing  sync.Mutex // held by the one that writes; guards kept and reported
	kept     []byte     // what the file holds, as far as we wrote it
	reported bool       // failed has been called and nothing was written since

	mu      sync.Mutex // guards what follows, never held while writing
	pending *Settings  // what still has to be written
	since   time.Time  // when it began to wait
	timer   *time.Timer
}

// NewKeeper returns a Keeper for the settings file at path. failed, which may be nil, is
// told of a failed write, once until a write succeeds again, from whichever goroutine met
// it.
func NewKeeper(path string, failed func(error)) *Keeper {
	return &Keeper{path: path, failed: failed}
}

// Save has s written soon. It does not wait.
func (k *Keeper) Save(s Settings) {
	s = s.Valid().Clone()
	k.mu.Lock()
	defer k.mu.Unlock()
	now := time.Now()
	if k.pending == nil {
		k.since = now
	}
	k.pending = &s
	delay := min(keepDelay, max(0, keepLatest-now.Sub(k.since)))
	if k.timer == nil {
		k.timer = time.AfterFunc(delay, func() { _ = k.Flush() }) // Flush tells of its errors
	} else {
		k.timer.Reset(delay)
	}
}

// Flush writes at once what waits to be written, and returns when the file holds it. Call
// it when the program ends, however it ends.
func (k *Keeper) Flush() error {
	err, tell := k.write()
	if tell && k.failed != nil {
		k.failed(err) // outside the locks: it may call us
	}
	return err
}

// write writes what waits. tell says whether the error is news.
func (k *Keeper) write() (err error, tell bool) {
	k.writing.Lock() // before the pending settings are taken: so the newest is written last
	defer k.writing.Unlock()
	s := k.take()
	if s == nil {
		return nil, false
	}
	data, err := s.encode()
	if err == nil && !bytes.Equal(data, k.kept) {
		err = replaceSettings(k.path, data)
	}
	if err != nil {
		k.putBack(s)
		tell, k.reported = !k.reported, true
		return fmt.Errorf("keep settings: %w", err), tell
	}
	k.kept, k.reported = data, false
	return nil, false
}

// take returns what waits to be written, nil if nothing does.
func (k *Keeper) take() *Settings {
	k.mu.Lock()
	defer k.mu.Unlock()
	s := k.pending
	k.pending = nil
	if k.timer != nil {
		k.timer.Stop()
	}
	return s
}

// putBack lets s wait for the next Save or Flush, if nothing newer waits.
func (k *Keeper) putBack(s *Settings) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.pending == nil {
		k.pending, k.since = s, time.Now()
	}
}

// replaceSettings replaces the settings file by data, unless the file there must stay.
func replaceSettings(path string, data []byte) error {
	if err := mayReplace(path); err != nil {
		return err
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // a link stays a link
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return files.Replace(files.System{}, path, files.Bytes(data))
}

// mayReplace returns an error if the file at path is a newer program's or can't be read.
func mayReplace(path string) error {
	old, err := readSettings(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if _, _, err := decodeSettings(old); errors.Is(err, ErrNewer) {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}
