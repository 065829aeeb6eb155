package quiet

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"

	"app.tonedesk/capture/plainfile"
)

// most is how long the file may become, in bytes; then it becomes the older one, of which
// one is kept.
const most = 256 << 10

// file is where messages are kept, for their owner only. It is opened for each message:
// there are few, there is none in most runs, and two windows may share it.
type file struct {
	path  string    // "" for none
	other io.Writer // gets what can't be kept
}

// Write keeps one message, with its time. What is longer than the file may be is cut.
func (f file) Write(message []byte) (int, error) {
	line := append(time.Now().AppendFormat(nil, "2006-01-02 15:04:05 "), message...)
	if f.add(line[:min(len(line), most)]) != nil {
		return f.other.Write(message)
	}
	return len(message), nil
}

func (f file) add(line []byte) error {
	if info, err := os.Stat(f.path); err == nil && info.Size()+int64(len(line)) > most {
		if err := os.Rename(f.path, f.path+".old"); err != nil {
			return err
		}
	}
	out, err := f.open()
	if err != nil {
		return err
	}
	_, err = out.Write(line)
	return errors.Join(err, out.Close())
}

func (f file) open() (*os.File, error) {
	if f.path == "" {
		return nil, os.ErrNotExist
	}
	if err := os.MkdirAll(filepath.Dir(f.path), 0o700); err != nil {
		return nil, err
	}
	out, _, err := plainfile.Open(f.path, os.O_APPEND|os.O_CREATE|os.O_WRONLY)
	return out, err
}
