package files

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// unfinished are the files that are being written, so that the program's end can take them away.
var unfinished = struct {
	sync.Mutex
	paths map[string]int // how often each was begun, and not ended
	ended bool           // nothing is begun any more
}{paths: map[string]int{}}

// begin says that a file is being written, until end is called. After Abandon it fails.
func begin(path string) (end func(), err error) {
	u := &unfinished
	u.Lock()
	defer u.Unlock()
	if u.ended {
		return nil, os.ErrClosed
	}
	u.paths[path]++
	return func() {
		u.Lock()
		defer u.Unlock()
		if u.paths[path]--; u.paths[path] == 0 {
			delete(u.paths, path)
		}
	}, nil
}

// Abandon takes away what is being written, since the program ends now. Nothing can be written
// after.
func Abandon() {
	u := &unfinished
	u.Lock()
	defer u.Unlock()
	u.ended = true
	for path := range u.paths {
		_ = os.Remove(path)
	}
}

// Files that are being written beside those that they will replace. Where the system itself
// ends the program they are left, and known by their names.
const (
	besideBegins = ".tonedesk-"
	besideEnds   = ".tmp"
)

// Sweep clears away what programs that were ended left half written in a folder of ours, if it
// is older than age: another program may be writing. It is no loss if it can't.
func Sweep(dir string, age time.Duration) {
	all, _ := os.ReadDir(dir)
	for _, f := range all {
		if !f.Type().IsRegular() || !strings.HasPrefix(f.Name(), besideBegins) || !strings.HasSuffix(f.Name(), besideEnds) {
			continue
		}
		if info, err := f.Info(); err == nil && time.Since(info.ModTime()) >= age {
			_ = os.Remove(filepath.Join(dir, f.Name()))
		}
	}
}
