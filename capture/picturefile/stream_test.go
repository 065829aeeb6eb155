package picturefile

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/synctest"
	"time"

	"app.tonedesk/capture"
)

// follower is a picture file, and a stream that follows it in a time of its own.
type follower struct {
	t      *testing.T
	path   string
	stream capture.Stream
	saves  int
}

// follow runs test in a bubble with a stream on a file that shows grey 1.
func follow(t *testing.T, test func(f *follower)) {
	dir := t.TempDir() // outside: it is taken away after the bubble
	synctest.Test(t, func(t *testing.T) {
		f := &follower{t: t, path: filepath.Join(dir, "page.png")}
		f.save(pngOf(t, 1))
		p, err := Open(f.path)
		if err != nil {
			t.Fatal(err)
		}
		f.stream = p.Stream()
		f.expect(0, 1)
		test(f)
		if err := f.stream.Close(); err != nil {
			t.Error(err)
		}
	})
}

// Each picture of a file is prepared before anybody sees it, also one that is read again.
func TestFollowPictureIsPrepared(t *testing.T) {
	follow(t, func(f *follower) {
		stream, err := Follow(f.path, func(p *Picture) error { p.Pix[0] += 100; return nil })
		if err != nil {
			f.t.Fatal(err)
		}
		f.stream = stream
		f.expect(0, 101)
		f.save(pngOf(f.t, 2))
		f.expect(2*checkEvery, 102)
	})
}

func pngOf(t *testing.T, v byte) []byte {
	var b bytes.Buffer
	img := image.NewNRGBA(image.Rect(0, 0, 4, 3))
	draw.Draw(img, img.Rect, image.NewUniform(color.Gray{v}), image.Point{}, draw.Src)
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// save writes the file, with a time of its own, however coarse the system's clock.
func (f *follower) save(data []byte) {
	f.t.Helper()
	f.saves++
	at := time.Unix(1e9+int64(f.saves), 0)
	if err := errors.Join(os.WriteFile(f.path, data, 0o600), os.Chtimes(f.path, at, at)); err != nil {
		f.t.Fatal(err)
	}
}

// grab asks every 100 ms for as long as d and returns the last error and the greys seen.
func (f *follower) grab(d time.Duration) (greys []byte, last error) {
	var frame capture.Frame
	for end := time.Now().Add(d); ; {
		changed, err := f.stream.Grab(context.Background(), &frame)
		if changed {
			greys = append(greys, frame.Pix[0])
		}
		if !time.Now().Before(end) {
			return greys, err
		}
		time.Sleep(100 * time.Millisecond) // the bubble's time goes on only when the file has been read
	}
}

// expect asks for as long as d and wants to see greys, and no error at the end.
func (f *follower) expect(d time.Duration, greys ...byte) {
	f.t.Helper()
	if got, err := f.grab(d); !bytes.Equal(got, greys) || err != nil {
		f.t.Errorf("saw %v, error %v, want %v", got, err, greys)
	}
}

func TestPictureFollowsFile(t *testing.T) {
	follow(t, func(f *follower) {
		f.expect(2 * time.Second)
		f.save(pngOf(t, 2))
		f.expect(700*time.Millisecond, 2) // the look, and the next Grab after the reading
		f.save(pngOf(t, 2))               // the same picture, saved again
		f.expect(2 * time.Second)
		if err := os.Rename(f.other(pngOf(t, 3)), f.path); err != nil { // saved beside, then moved
			t.Fatal(err)
		}
		f.expect(time.Second, 3)
	})
}

// other writes a second file whose time and size tell nothing new.
func (f *follower) other(data []byte) string {
	path := f.path + ".part"
	at := time.Unix(1e9+int64(f.saves), 0)
	if err := errors.Join(os.WriteFile(path, data, 0o600), os.Chtimes(path, at, at)); err != nil {
		f.t.Fatal(err)
	}
	return path
}

// While a save is under way the old picture stays, without an error.
func TestPictureHalfSaved(t *testing.T) {
	follow(t, func(f *follower) {
		whole := pngOf(t, 2)
		f.save(nil)
		f.expect(time.Second)
		f.save(whole[:30])
		f.expect(time.Second)
		f.save(whole)
		f.expect(time.Second, 2)
	})
}

// A file that stays away is an error that says so, again and again, but no end.
func TestPictureMissingForLong(t *testing.T) {
	follow(t, func(f *follower) {
		if err := os.Remove(f.path); err != nil {
			t.Fatal(err)
		}
		f.expect(2 * time.Second)
		got, err := f.grab(3 * time.Second)
		if len(got) != 0 || !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("saw %v, error %v", got, err)
		}
		f.save(pngOf(t, 4))
		f.expect(time.Second, 4)
	})
}

func TestPictureSpoiltForLong(t *testing.T) {
	follow(t, func(f *follower) {
		f.save([]byte("not a picture any more"))
		if got, err := f.grab(20 * time.Second); len(got) != 0 || !errors.Is(err, ErrNotPicture) {
			t.Errorf("saw %v, error %v", got, err)
		}
		if tries := f.stream.(*pictureStream).tries; tries != maxTries {
			t.Errorf("read %d times, want %d", tries, maxTries)
		}
		f.save(pngOf(t, 5))
		f.expect(time.Second, 5)
	})
}

// The frame handed out stays as it was while the file changes.
func TestPictureFrameStays(t *testing.T) {
	follow(t, func(f *follower) {
		f.save(pngOf(t, 2))
		var old, now capture.Frame
		s := f.stream.(*pictureStream)
		old = capture.Frame{Pix: s.picture.Pix}
		for range 10 {
			if _, err := s.Grab(context.Background(), &now); err != nil {
				t.Fatal(err)
			}
			time.Sleep(100 * time.Millisecond)
		}
		if now.Pix == nil {
			t.Fatal("the new picture was not seen")
		}
		if old.Pix[0] != 1 || now.Pix[0] != 2 || now.Size != image.Pt(4, 3) {
			t.Errorf("old %d, new %d", old.Pix[0], now.Pix[0])
		}
	})
}

// A followed file goes through a watcher like any source.
func TestWatcherFollowsPicture(t *testing.T) {
	path := filepath.Join(t.TempDir(), "page.png")
	synctest.Test(t, func(t *testing.T) {
		f := &follower{t: t, path: path}
		f.save(pngOf(t, 1))
		p, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		var greys []byte
		frame := func(f *capture.Frame, again bool) {
			if !again {
				greys = append(greys, f.Pix[0])
			}
		}
		w := capture.NewWatcher(capture.Watch{Frame: frame, Status: func(capture.Status) {},
			Open: func(context.Context) (capture.Stream, error) { return p.Stream(), nil }})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		pass(time.Second)
		f.save(pngOf(t, 2))
		pass(time.Second)
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		pass(10 * time.Second)
		f.save(pngOf(t, 3))
		pass(3 * time.Second)
		cancel()
		<-ended
		if !bytes.Equal(greys, []byte{1, 2, 3}) {
			t.Errorf("saw %v", greys)
		}
	})
}

func pass(d time.Duration) {
	time.Sleep(d)
	synctest.Wait()
}
