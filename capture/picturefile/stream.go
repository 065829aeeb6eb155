package picturefile

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"time"

	"app.tonedesk/capture"
)

// How a stream follows its picture's file. Our choices.
const (
	// checkEvery is the least time between two looks at the file.
	checkEvery = 500 * time.Millisecond
	// saveTime is how long a file may be missing or unreadable, as it is while a
	// program saves it, before that is an error; until then the old picture stays.
	saveTime = 3 * time.Second
	// maxTries is how often contents that make no sense are tried while the file's
	// time and size stay as they are.
	maxTries = 8
)

// pictureStream gives a picture, and where that came out of a file looks whether the
// file has changed. Reading it again goes on beside, so that no Grab takes long.
type pictureStream struct {
	picture *Picture
	prepare func(*Picture) error // each that is read, before anybody sees it; nil: nothing
	given   bool                 // the first picture was handed out

	checked time.Time
	loading chan loaded // nil: the file is not being read
	tried   os.FileInfo // what could not be read last
	tries   int
	trouble error // why the file can't be read; nil: it can
	since   time.Time
}

// loaded is what came of reading a file again.
type loaded struct {
	picture *Picture
	err     error
}

// Grab implements Stream. While the file can't be read for longer than a save takes,
// the error says why; the picture stays what it was, and the stream goes on looking.
func (s *pictureStream) Grab(ctx context.Context, f *capture.Frame) (changed bool, err error) {
	if err := ctx.Err(); err != nil {
		return false, err
	}
	changed = !s.given
	if !changed && s.picture.path != "" {
		changed = s.follow(time.Now())
		if s.trouble != nil && time.Since(s.since) >= saveTime {
			return false, fmt.Errorf("follow picture %q: %w", s.picture.path, bareError(s.trouble))
		}
	}
	if !changed {
		return false, nil
	}
	s.given = true
	p := s.picture
	*f = capture.Frame{Pix: p.Pix, Rest: p.Rest, Stride: p.Stride, Size: p.Size, Layout: capture.RGBA, At: time.Now(), Lasts: true, Space: p.Space}
	return true, nil
}

// follow takes a picture that was read again, or looks whether one should be.
func (s *pictureStream) follow(now time.Time) (changed bool) {
	if s.loading != nil {
		select {
		case l := <-s.loading:
			s.loading = nil
			return s.take(l, now)
		default:
			return false
		}
	}
	if now.Sub(s.checked) < checkEvery {
		return false
	}
	s.checked = now
	info, err := os.Stat(s.picture.path) // what is no file any more is found out by reading it
	switch {
	case err != nil:
		s.fail(err, now)
	case sameFile(info, s.picture.info):
		s.trouble = nil
	case sameFile(info, s.tried) && s.tries >= maxTries:
		// as senseless as before
	default:
		if !sameFile(info, s.tried) {
			s.tries = 0
		}
		s.tried = info
		s.tries++
		s.load()
	}
	return false
}

// load begins to read the file again.
func (s *pictureStream) load() {
	path, prepare, done := s.picture.path, s.prepare, make(chan loaded, 1)
	s.loading = done
	go func() {
		p, err := openPicture(path)
		if err == nil && prepare != nil {
			err = prepare(p)
		}
		done <- loaded{p, err}
	}()
}

// take takes what was read. The same pixels once more are no change.
func (s *pictureStream) take(l loaded, now time.Time) (changed bool) {
	if l.err != nil {
		s.fail(l.err, now)
		return false
	}
	old := s.picture
	s.picture, s.trouble, s.tried = l.picture, nil, nil
	return old.Size != l.picture.Size || !old.Colours.Equal(l.picture.Colours) || !bytes.Equal(old.Pix, l.picture.Pix) || !bytes.Equal(old.Rest, l.picture.Rest)
}

func (s *pictureStream) fail(err error, now time.Time) {
	if s.trouble == nil {
		s.since = now
	}
	s.trouble = err
}

// sameFile says whether a and b are the same file with the same contents, as far as
// the system tells without reading it.
func sameFile(a, b os.FileInfo) bool {
	return a != nil && b != nil && a.Size() == b.Size() && a.ModTime().Equal(b.ModTime()) && os.SameFile(a, b)
}

// Close implements Stream. There is nothing to close.
func (s *pictureStream) Close() error { return nil }
