package capture

import (
	"context"
	"errors"
	"image"
	"image/color"
	"slices"
	"testing"
	"testing/synctest"
	"time"
)

// tellingStream is a script's stream that tells of changes, and notes when it is asked.
type tellingStream struct {
	Stream
	changes chan struct{}
	asked   func()
}

func (s *tellingStream) Changes() <-chan struct{} { return s.changes }

func (s *tellingStream) Grab(ctx context.Context, f *Frame) (bool, error) {
	s.asked()
	return s.Stream.Grab(ctx, f)
}

// tell watches a telling script at a rate, and returns when its stream was asked.
func tell(t *testing.T, rate float64, steps []Step, act func(w *Watcher, s *Script, change func(), told *seen)) (asked []time.Duration) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		script, told := NewScript(steps...), &seen{start: time.Now()}
		changes := make(chan struct{}, 1)
		open := func(ctx context.Context) (Stream, error) {
			s, err := script.Open(ctx, image.Rectangle{})
			return &tellingStream{s, changes, func() { asked = append(asked, time.Since(told.start)) }}, err
		}
		w := NewWatcher(Watch{Open: open, Frame: told.frame, Status: told.status, PerSecond: rate})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		synctest.Wait()
		act(w, script, func() {
			select {
			case changes <- struct{}{}:
			default:
			}
			synctest.Wait()
		}, told)
		cancel()
		<-ended
	})
	return asked
}

func plain(v byte) Step { return Show(Plain(4, 3, color.NRGBA{v, v, v, 255})) }

// A source that tells of changes is asked once a second while it tells of none, and is
// unchanged after a second.
func TestWatcherLetsAQuietSourceBe(t *testing.T) {
	asked := tell(t, 10, []Step{plain(1)}, func(_ *Watcher, _ *Script, _ func(), told *seen) {
		time.Sleep(1100 * time.Millisecond)
		if want := []State{Waiting, Live, Unchanged}; !slices.Equal(told.stateNames(), want) {
			t.Errorf("states %v, want %v", told.stateNames(), want)
		}
		time.Sleep(9 * time.Second)
	})
	if len(asked) < 10 || len(asked) > 12 {
		t.Errorf("asked %d times in ten seconds: %v", len(asked), asked)
	}
}

// A change after a pause is read at once, those that follow by the rate, and the last always.
func TestWatcherReadsWhenTold(t *testing.T) {
	asked := tell(t, 10, []Step{plain(1)}, func(_ *Watcher, s *Script, change func(), told *seen) {
		time.Sleep(550 * time.Millisecond)
		s.Play(plain(2))
		change()
		time.Sleep(30 * time.Millisecond)
		s.Play(plain(3))
		change()
		time.Sleep(30 * time.Millisecond)
		change()
		time.Sleep(300 * time.Millisecond)
		if got := told.greys(); !slices.Equal(got, []byte{1, 2, 3}) {
			t.Errorf("shown %v", got)
		}
	})
	want := []time.Duration{0, 550 * time.Millisecond, 650 * time.Millisecond}
	if !slices.Equal(asked, want) {
		t.Errorf("asked at %v, want %v", asked, want)
	}
}

// Word of a change ends an error's wait, as far as the rate allows.
func TestWatcherResumesWhenTold(t *testing.T) {
	asked := tell(t, 10, []Step{plain(1), Fail(ErrMinimised), Fail(ErrMinimised), Fail(ErrMinimised), Fail(ErrMinimised), Fail(ErrMinimised)},
		func(_ *Watcher, s *Script, change func(), told *seen) {
			time.Sleep(200 * time.Millisecond)
			change() // minimised
			time.Sleep(4 * time.Second)
			last := told.states[len(told.states)-1]
			if last.state != Minimised || !errors.Is(last.err, ErrMinimised) {
				t.Errorf("state %v, %v", last.state, last.err)
			}
			s.Play(plain(2))
			change()
			if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
				t.Errorf("shown %v", got)
			}
		})
	if n := len(asked); asked[n-1] != 4200*time.Millisecond {
		t.Errorf("asked at %v, want at once when told", asked)
	}
}

// Frozen, nothing is read, whatever is told; after that the newest is.
func TestWatcherFrozenIsTold(t *testing.T) {
	asked := tell(t, 10, []Step{plain(1)}, func(w *Watcher, s *Script, change func(), told *seen) {
		time.Sleep(200 * time.Millisecond)
		w.Freeze(true)
		synctest.Wait()
		s.Play(plain(2))
		change()
		time.Sleep(5 * time.Second)
		w.Freeze(false)
		synctest.Wait()
		if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
			t.Errorf("shown %v", got)
		}
	})
	if want := []time.Duration{0, 5200 * time.Millisecond}; len(asked) < 2 || !slices.Equal(asked[:2], want) {
		t.Errorf("asked at %v, want %v", asked, want)
	}
}

// partStream is a script's stream whose pictures say that they differ in one row alone.
type partStream struct {
	Stream
	row *int
}

func (s partStream) Grab(ctx context.Context, f *Frame) (bool, error) {
	changed, err := s.Stream.Grab(ctx, f)
	if changed && *s.row >= 0 {
		f.Changed = image.Rect(0, *s.row, 4, *s.row+1)
	}
	return changed, err
}

// What is new in our own window alone is handed over to nobody and leaves the picture unchanged, but
// is not lost: the next picture, or the last once more, says that it changed there too.
func TestWatcherIsNotFedByItself(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		script, told, row := NewScript(plain(1)), &seen{start: time.Now()}, -1
		open := func(ctx context.Context) (Stream, error) {
			s, err := script.Open(ctx, image.Rectangle{})
			return partStream{s, &row}, err
		}
		var boxes []image.Rectangle
		w := NewWatcher(Watch{Open: open, Status: told.status, PerSecond: 10,
			Own: func() image.Rectangle { return image.Rect(0, 1, 4, 2) },
			Frame: func(f *Frame, again bool) {
				told.frame(f, again)
				if !again {
					boxes = append(boxes, f.Changed)
				}
			}})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		synctest.Wait()
		paint := func(at int, v byte) {
			row = at
			script.Play(plain(v))
			time.Sleep(150 * time.Millisecond)
			synctest.Wait()
		}
		for v := range byte(20) {
			paint(1, 2+v)
		}
		if last := told.states[len(told.states)-1].state; last != Unchanged || len(boxes) != 1 {
			t.Errorf("fed by ourselves: state %v, told %v", last, boxes)
		}
		w.Again()
		synctest.Wait()
		w.Again() // and now it is the same
		synctest.Wait()
		paint(1, 30)
		paint(2, 31)
		want := []image.Rectangle{{}, image.Rect(0, 1, 4, 2), image.Rect(0, 1, 4, 3)}
		if !slices.Equal(boxes, want) {
			t.Errorf("told %v, want %v", boxes, want)
		}
		cancel()
		<-ended
	})
}

// What may be our own repaint is handed over once a second, with all that is new by then; what is new
// elsewhere at once, and a single change at once too.
func TestWatcherIsFedSlowlyByWhatMayBeItself(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		script, told, row := NewScript(plain(1)), &seen{start: time.Now()}, -1
		open := func(ctx context.Context) (Stream, error) {
			s, err := script.Open(ctx, image.Rectangle{})
			return partStream{s, &row}, err
		}
		type shown struct {
			box  image.Rectangle
			code byte
		}
		var all []shown
		w := NewWatcher(Watch{Open: open, Status: told.status, PerSecond: 10,
			PerhapsOwn: func() image.Rectangle { return image.Rect(0, 1, 4, 3) },
			Frame: func(f *Frame, again bool) {
				told.frame(f, again)
				all = append(all, shown{f.Changed, f.Pix[0]})
			}})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		synctest.Wait()
		wait := func(d time.Duration) {
			time.Sleep(d)
			synctest.Wait()
		}
		paint := func(at int, v byte) {
			row = at
			script.Play(plain(v))
			wait(150 * time.Millisecond)
		}
		for v := range byte(20) { // three seconds
			paint(1+int(v)%2, 10+v)
		}
		if n := len(all); n < 3 || n > 4 {
			t.Errorf("in three seconds %d pictures: %v", n, all)
		}
		wait(2 * time.Second) // the last of it is told of by then, and nothing after that
		if last := all[len(all)-1]; last.code != 29 {
			t.Errorf("at the end it shows %v", last)
		}
		before := len(all)
		paint(1, 40)
		if len(all) != before+1 {
			t.Error("a change after a pause waits")
		}
		paint(2, 41)
		paint(0, 42)
		if last := all[len(all)-1]; len(all) != before+2 || last.box != image.Rect(0, 0, 4, 3) || last.code != 42 {
			t.Errorf("a change elsewhere: %v", all[before:])
		}
		cancel()
		<-ended
	})
}

// lateStream has no picture until it is there.
type lateStream struct {
	changes chan struct{}
	there   bool
}

func (s *lateStream) Changes() <-chan struct{} { return s.changes }
func (s *lateStream) Close() error             { return nil }

func (s *lateStream) Grab(_ context.Context, f *Frame) (bool, error) {
	if s.there {
		*f = Frame{Pix: make([]byte, 4), Stride: 4, Size: image.Pt(1, 1)}
	}
	return s.there, nil
}

// The first picture of a source that tells of it is shown at once, whatever the rate; of those after it
// the rate counts.
func TestWatcherShowsTheFirstPictureAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &lateStream{changes: make(chan struct{}, 1)}
		var shown []time.Duration
		start := time.Now()
		w := NewWatcher(Watch{PerSecond: 1,
			Open:  func(context.Context) (Stream, error) { return s, nil },
			Frame: func(*Frame, bool) { shown = append(shown, time.Since(start)) },
		})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		for range 5 { // what is told of, and isn't there yet
			s.changes <- struct{}{}
			time.Sleep(7 * time.Millisecond)
			synctest.Wait()
		}
		s.there = true
		s.changes <- struct{}{}
		synctest.Wait()
		s.changes <- struct{}{}
		time.Sleep(2 * time.Second)
		synctest.Wait()
		if want := []time.Duration{35 * time.Millisecond, 1035 * time.Millisecond}; len(shown) < 2 || shown[0] != want[0] || shown[1] != want[1] {
			t.Errorf("shown at %v, want %v", shown, want)
		}
		cancel()
		<-ended
	})
}
