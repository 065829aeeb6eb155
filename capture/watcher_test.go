package capture

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io/fs"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"app.tonedesk/capture/memory"
)

// seen is what a watcher under test has told, with the time since its start.
type seen struct {
	mu     sync.Mutex // held while frames are noted and looked at
	frames []sight
	states []sight
	start  time.Time
	block  time.Duration // each Frame takes this long
	last   []byte        // the pixels of the last Frame, as they were then
}

type sight struct {
	at    time.Duration
	grey  byte // first byte of the picture
	again bool
	state State
	err   error
}

func (s *seen) frame(f *Frame, again bool) {
	s.note(f, again)
	time.Sleep(s.block)
}

func (s *seen) note(f *Frame, again bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.frames = append(s.frames, sight{at: time.Since(s.start), grey: f.Pix[0], again: again})
	s.last = bytes.Clone(f.Pix)
}

func (s *seen) status(st Status) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.states = append(s.states, sight{at: time.Since(s.start), state: st.State, err: st.Err})
}

// stateNames returns the states in order.
func (s *seen) stateNames() []State {
	s.mu.Lock()
	defer s.mu.Unlock()
	var names []State
	for _, x := range s.states {
		names = append(names, x.state)
	}
	return names
}

// greys returns the first bytes of the frames in order, the repeated ones excepted.
func (s *seen) greys() []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	var greys []byte
	for _, f := range s.frames {
		if !f.again {
			greys = append(greys, f.grey)
		}
	}
	return greys
}

func grey(v byte) *image.NRGBA { return Plain(4, 3, color.NRGBA{v, v, v, 255}) }

func opener(s *Script) func(context.Context) (Stream, error) {
	return func(ctx context.Context) (Stream, error) { return s.Open(ctx, image.Rectangle{}) }
}

// watch runs a watcher on script inside a bubble of its own time, calls act, ends
// the watcher and returns what it told. It fails if a stream was misused or left open.
func watch(t *testing.T, rate float64, steps []Step, act func(w *Watcher, s *Script, told *seen)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		script := NewScript(steps...)
		told := &seen{start: time.Now()}
		w := NewWatcher(Watch{Open: opener(script), Frame: told.frame, Status: told.status, PerSecond: rate})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		synctest.Wait()
		act(w, script, told)
		cancel()
		if err := <-ended; !errors.Is(err, context.Canceled) {
			t.Errorf("Run returned %v", err)
		}
		script.Release()
		synctest.Wait()
		if faults := script.Faults(); len(faults) > 0 {
			t.Errorf("misuse: %q", faults)
		}
		if c := script.Counts(); c.Opened != c.Closed {
			t.Errorf("%d streams opened, %d closed", c.Opened, c.Closed)
		}
	})
}

// pass lets time go by and waits until everything that it set off has settled.
func pass(d time.Duration) {
	time.Sleep(d)
	synctest.Wait()
}

const ms = time.Millisecond

func TestWatcherRate(t *testing.T) {
	for _, tt := range []struct {
		rate  float64
		grabs int // in 10 s, the one at 0 included
	}{{0, 101}, {10, 101}, {1, 11}, {60, 601}, {1000, 601}} {
		watch(t, tt.rate, []Step{Show(grey(1))}, func(w *Watcher, s *Script, told *seen) {
			pass(10*time.Second + ms/2)
			if got := s.Counts().Grabs; got != tt.grabs {
				t.Errorf("rate %g: %d reads in 10 s, want %d", tt.rate, got, tt.grabs)
			}
		})
	}
}

func TestWatcherSetRate(t *testing.T) {
	watch(t, 1, []Step{Show(grey(1))}, func(w *Watcher, s *Script, told *seen) {
		pass(500 * ms)
		w.SetRate(20) // next read at once: its point is past
		pass(ms)
		if got := s.Counts().Grabs; got != 2 {
			t.Errorf("%d reads, want 2", got)
		}
		pass(time.Second)
		if got := s.Counts().Grabs; got != 22 {
			t.Errorf("%d reads after a second at 20, want 22", got)
		}
	})
}

// Slow Frames brake: each picture is the newest there is when the one before is done
// with, and none waits in a queue.
func TestWatcherNeverQueues(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		stream := &clockStream{start: start}
		told := &seen{start: start, block: 370 * ms}
		w := NewWatcher(Watch{Open: func(context.Context) (Stream, error) { return stream, nil },
			Frame: told.frame, PerSecond: 10})
		ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
		defer cancel()
		_ = w.Run(ctx)
		if len(told.frames) < 12 {
			t.Fatalf("only %d frames in 5 s", len(told.frames))
		}
		for i, f := range told.frames {
			if now := byte(f.at / (10 * ms)); f.grey != now {
				t.Errorf("frame %d at %v shows the picture of %d0 ms", i, f.at, f.grey)
			}
		}
	})
}

// clockStream always changes; its first byte counts hundredths of a second.
type clockStream struct {
	start time.Time
	bufs  [2][]byte
	seq   uint64
}

func (c *clockStream) Grab(_ context.Context, f *Frame) (bool, error) {
	buf := &c.bufs[c.seq%2]
	if *buf == nil {
		*buf = make([]byte, 4*64*64)
	}
	(*buf)[0] = byte(time.Since(c.start) / (10 * time.Millisecond))
	c.seq++
	*f = Frame{Pix: *buf, Stride: 4 * 64, Size: image.Pt(64, 64), At: time.Now()}
	return true, nil
}
func (c *clockStream) Close() error { return nil }

func TestWatcherUnchanged(t *testing.T) {
	steps := []Step{Show(grey(1))}
	for range 14 {
		steps = append(steps, Same())
	}
	steps = append(steps, Show(grey(2))) // read 15, at 1.5 s
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		pass(2 * time.Second)
		if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
			t.Errorf("frames %v, want 1 and 2 only", got)
		}
		if got, want := told.stateNames(), []State{Waiting, Live, Unchanged, Live}; !slices.Equal(got, want) {
			t.Fatalf("states %v, want %v", got, want)
		}
		if at := told.states[2].at; at != time.Second {
			t.Errorf("unchanged after %v, want 1 s", at)
		}
	})
}

// Whatever the phase of a change, it is shown within one step and the read.
func TestWatcherChangeReachesFrameInTime(t *testing.T) {
	for phase := time.Duration(0); phase < 100*ms; phase += 7 * ms {
		watch(t, 10, []Step{Show(grey(1))}, func(w *Watcher, s *Script, told *seen) {
			pass(3*time.Second + phase)
			changed := time.Since(told.start)
			s.Play(Step{After: 3 * ms, Picture: grey(9)})
			pass(200 * ms)
			f := told.frames[len(told.frames)-1]
			if late := f.at - changed; f.grey != 9 || late > 103*ms {
				t.Errorf("change at %v shown after %v", changed, late)
			}
		})
	}
}

func TestWatcherHang(t *testing.T) {
	watch(t, 10, []Step{Show(grey(1)), Hang(), Show(grey(2))}, func(w *Watcher, s *Script, told *seen) {
		pass(5 * time.Second)
		if got, want := told.stateNames(), []State{Waiting, Live, NotAnswering}; !slices.Equal(got, want) {
			t.Fatalf("states %v, want %v", got, want)
		}
		if hang := told.states[2]; hang.at != 1100*ms || !errors.Is(hang.err, ErrNotAnswering) {
			t.Errorf("not answering at %v with %v, want 1.1 s with its sentinel", hang.at, hang.err)
		}
		if c := s.Counts(); c.Grabs != 2 || c.Hanging != 1 {
			t.Errorf("%+v: a hanging read was doubled", c)
		}
		w.Again()
		synctest.Wait()
		if f := told.frames[len(told.frames)-1]; !f.again || f.grey != 1 {
			t.Errorf("again during a hang gave %+v", f)
		}
		s.Release()
		pass(100 * ms)
		if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
			t.Errorf("frames %v after the hang, want 1 and 2", got)
		}
		if got := told.states[len(told.states)-1].state; got != Live {
			t.Errorf("%v after the hang, want live", got)
		}
	})
}

// A slow Frame while a read is under way must not be taken for a hanging read.
func TestWatcherSlowAgainIsNoHang(t *testing.T) {
	steps := []Step{Show(grey(1)), {After: 10 * ms}}
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		pass(105 * ms) // the second read is under way
		told.block = 3 * time.Second
		w.Again()
		pass(3100 * ms)
		if slices.Contains(told.stateNames(), NotAnswering) {
			t.Errorf("states %v", told.stateNames())
		}
	})
}

func TestWatcherOpenHangs(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		release := make(chan struct{})
		script := NewScript(Show(grey(1)))
		told := &seen{start: time.Now()}
		w := NewWatcher(Watch{
			Open: func(ctx context.Context) (Stream, error) {
				<-release
				return script.Open(context.Background(), image.Rectangle{})
			},
			Frame: told.frame, Status: told.status,
		})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		pass(2 * time.Second)
		if got, want := told.stateNames(), []State{Waiting, NotAnswering}; !slices.Equal(got, want) {
			t.Errorf("states %v, want %v", got, want)
		}
		before := time.Now()
		cancel()
		<-ended
		if took := time.Since(before); took > farewell {
			t.Errorf("Run ended %v after its context", took)
		}
		close(release) // the stream comes too late and is closed all the same
		synctest.Wait()
		if c := script.Counts(); c.Opened != 1 || c.Closed != 1 {
			t.Errorf("%+v, want one stream opened and closed", c)
		}
	})
}

// Each error gives its state, waits 0.25, 0.5, 1, 2, 2 s, and is got over without help.
func TestWatcherErrors(t *testing.T) {
	other := errors.New("something else")
	tests := []struct {
		err     error
		state   State
		reopens bool
	}{
		{ErrNotAnswering, NotAnswering, false},
		{context.DeadlineExceeded, NotAnswering, false},
		{ErrGone, Gone, true},
		{ErrOutside, Gone, true},
		{ErrDisconnected, Gone, true},
		{ErrClosed, Gone, true},
		{ErrFormat, Gone, false},
		{ErrLocked, Gone, false},
		{other, Gone, false},
	}
	for _, tt := range tests {
		t.Run(tt.err.Error(), func(t *testing.T) {
			steps := []Step{Show(grey(1)), Fail(tt.err), Fail(tt.err), Fail(tt.err), Fail(tt.err), Fail(tt.err), Show(grey(2))}
			watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
				pass(5900 * ms) // 0.1 + 0.25 + 0.5 + 1 + 2 + 2 = 5.85 s
				if got, want := told.stateNames(), []State{Waiting, Live, tt.state, Live}; !slices.Equal(got, want) {
					t.Fatalf("states %v, want %v", got, want)
				}
				if !errors.Is(told.states[2].err, tt.err) {
					t.Errorf("status error %v", told.states[2].err)
				}
				if at := told.frames[1].at; at != 5850*ms {
					t.Errorf("resumed at %v, want 5.85 s", at)
				}
				if opened := s.Counts().Opened; (opened > 1) != tt.reopens {
					t.Errorf("opened %d times", opened)
				}
				if told.states[3].err != nil {
					t.Errorf("live with error %v", told.states[3].err)
				}
			})
		})
	}
}

// At one read a second an error does not make it ask more often.
func TestWatcherBackoffKeepsSlowRate(t *testing.T) {
	watch(t, 1, []Step{Show(grey(1)), Fail(ErrFormat), Show(grey(2))}, func(w *Watcher, s *Script, told *seen) {
		pass(2500 * ms)
		if at := told.frames[1].at; at != 2*time.Second {
			t.Errorf("resumed at %v, want 2 s", at)
		}
	})
}

func TestWatcherOpenFails(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		script := NewScript(Show(grey(1)))
		script.FailOpen(ErrNoDisplay, ErrRefused, ErrRefused)
		told := &seen{start: time.Now()}
		w := NewWatcher(Watch{Open: opener(script), Frame: told.frame, Status: told.status})
		ctx, cancel := context.WithTimeout(t.Context(), 1800*ms)
		defer cancel()
		_ = w.Run(ctx)
		if got, want := told.stateNames(), []State{Waiting, Gone, Gone, Live}; !slices.Equal(got, want) {
			t.Fatalf("states %v, want %v", got, want)
		}
		if !errors.Is(told.states[2].err, ErrRefused) {
			t.Errorf("third status %v", told.states[2].err)
		}
		if told.frames[0].at != 1750*ms {
			t.Errorf("first frame at %v, want 1.75 s", told.frames[0].at)
		}
	})
}

// The last picture is still there, unspoilt, while its source is gone for good.
func TestWatcherAgainWhenGone(t *testing.T) {
	steps := []Step{Show(grey(1)), Show(grey(7)), Fail(ErrGone)}
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		gone := make([]error, 20)
		for i := range gone {
			gone[i] = ErrGone
		}
		s.FailOpen(gone...)
		pass(3 * time.Second)
		w.Again()
		synctest.Wait()
		if f := told.frames[len(told.frames)-1]; !f.again || f.grey != 7 || !bytes.Equal(told.last, grey(7).Pix) {
			t.Errorf("again gave %+v, pixels %v", f, told.last)
		}
	})
}

func TestWatcherPanic(t *testing.T) {
	watch(t, 10, []Step{Show(grey(1)), {Panic: "index out of range"}, Show(grey(2))}, func(w *Watcher, s *Script, told *seen) {
		pass(time.Second)
		if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
			t.Errorf("frames %v", got)
		}
		if c := s.Counts(); c.Opened != 2 {
			t.Errorf("opened %d times, want twice", c.Opened)
		}
		if got := told.states[2]; got.state != Gone || got.err == nil {
			t.Errorf("status %+v", got)
		}
	})
}

func TestWatcherFreeze(t *testing.T) {
	steps := []Step{Show(grey(1)), Show(grey(2)), Show(grey(3))}
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		pass(150 * ms) // 1 and 2 shown
		w.Freeze(true)
		pass(10 * time.Second)
		if c := s.Counts(); c.Grabs != 2 {
			t.Errorf("%d reads, want none while frozen", c.Grabs)
		}
		w.Again()
		synctest.Wait()
		if f := told.frames[len(told.frames)-1]; !f.again || f.grey != 2 {
			t.Errorf("again while frozen gave %+v", f)
		}
		w.Freeze(false)
		synctest.Wait()
		if got := told.greys(); !slices.Equal(got, []byte{1, 2, 3}) {
			t.Errorf("frames %v after going on, want the third at once", got)
		}
	})
}

// Going on reads at once, however slow the rate.
func TestWatcherThaw(t *testing.T) {
	watch(t, 1, []Step{Show(grey(1)), Show(grey(2))}, func(w *Watcher, s *Script, told *seen) {
		pass(200 * ms)
		w.Freeze(true)
		pass(100 * ms)
		w.Freeze(false)
		synctest.Wait()
		if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
			t.Errorf("frames %v after going on, want 1 and 2", got)
		}
	})
}

// A new picture does for an Again that waited for one.
func TestWatcherAgainBeforeFirst(t *testing.T) {
	steps := []Step{{After: 50 * ms, Picture: grey(1)}}
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		w.Again()
		pass(time.Second)
		if len(told.frames) != 1 || told.frames[0].again {
			t.Errorf("frames %+v, want one new one", told.frames)
		}
	})
}

// After a success the waits begin at the least again.
func TestWatcherWaitsBeginAgain(t *testing.T) {
	steps := []Step{Show(grey(1)), Fail(ErrFormat), Fail(ErrFormat), Show(grey(2)), Fail(ErrFormat), Show(grey(3))}
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		pass(2 * time.Second) // 0.1 + 0.25 + 0.5 = 0.85 s; 0.85 + 0.1 + 0.25 = 1.2 s
		if at := told.frames[len(told.frames)-1]; at.grey != 3 || at.at != 1200*ms {
			t.Errorf("third picture: %+v, want it at 1.2 s", at)
		}
	})
}

// A picture that a hanging read brings while frozen waits for the thaw; the frozen
// one stays whole meanwhile.
func TestWatcherFreezeDuringHang(t *testing.T) {
	steps := []Step{Show(grey(1)), Show(grey(2)), {Hang: true, Picture: grey(3)}}
	watch(t, 10, steps, func(w *Watcher, s *Script, told *seen) {
		pass(1500 * ms)
		w.Freeze(true)
		w.Again()
		synctest.Wait()
		s.Release()
		pass(time.Second)
		w.Again()
		synctest.Wait()
		if f := told.frames[len(told.frames)-1]; f.grey != 2 || !bytes.Equal(told.last, grey(2).Pix) {
			t.Errorf("frozen picture became %+v", f)
		}
		if got := told.greys(); !slices.Equal(got, []byte{1, 2}) {
			t.Errorf("frames %v while frozen", got)
		}
		w.Freeze(false)
		synctest.Wait()
		if got := told.greys(); !slices.Equal(got, []byte{1, 2, 3}) {
			t.Errorf("frames %v after going on", got)
		}
	})
}

func TestWatcherReopen(t *testing.T) {
	watch(t, 10, []Step{Show(grey(1)), Hang()}, func(w *Watcher, s *Script, told *seen) {
		pass(3 * time.Second) // hangs
		other := NewScript(Show(grey(8)))
		w.Reopen(opener(other))
		synctest.Wait()
		if got := told.greys(); !slices.Equal(got, []byte{1, 8}) {
			t.Errorf("frames %v, want the new source at once", got)
		}
		if got, want := told.stateNames(), []State{Waiting, Live, NotAnswering, Waiting, Live}; !slices.Equal(got, want) {
			t.Errorf("states %v, want %v", got, want)
		}
		if c := s.Counts(); c.Closed != 0 {
			t.Error("the hanging stream was closed under its read")
		}
		s.Release()
		synctest.Wait()
		if c := s.Counts(); c.Closed != 1 {
			t.Error("the stream that hung is still open")
		}
		w.Reopen(nil)
		pass(time.Second)
		w.Again() // the last picture stays
		synctest.Wait()
		if f := told.frames[len(told.frames)-1]; !f.again || f.grey != 8 {
			t.Errorf("again without a source gave %+v", f)
		}
		if c := other.Counts(); c.Closed != 1 {
			t.Errorf("%+v: the second source is still open", c)
		}
	})
}

func TestWatcherEndsDuringHang(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		script := NewScript(Show(grey(1)), Hang())
		w := NewWatcher(Watch{Open: opener(script)})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error, 1)
		go func() { ended <- w.Run(ctx) }()
		pass(300 * ms)
		before := time.Now()
		cancel()
		<-ended
		if took := time.Since(before); took > farewell {
			t.Errorf("Run ended %v after its context", took)
		}
		script.Release()
		synctest.Wait()
		if c := script.Counts(); c.Closed != 1 {
			t.Errorf("%+v: the stream was left open", c)
		}
	})
}

// The last picture of a file is let go of with its stream, since the next may need its room;
// that of a screen stays.
func TestFilePictureMakesRoom(t *testing.T) {
	for _, lasts := range []bool{false, true} {
		l := newLoop(NewWatcher(Watch{}))
		l.last = Frame{Pix: make([]byte, 4), Stride: 4, Size: image.Pt(1, 1), Lasts: lasts}
		if l.keep(); (l.last.Pix == nil) != lasts {
			t.Errorf("lasts %v: it holds %v", lasts, l.last.Pix)
		}
	}
	if !mustReopen(fmt.Errorf("follow: %w", &memory.Full{})) || mustReopen(errors.New("damaged")) {
		t.Error("a picture without room is opened anew, a damaged one looked at again")
	}
	if gone := fmt.Errorf("follow: %w", fs.ErrNotExist); stateOf(gone) != Gone || mustReopen(gone) {
		t.Error("a stream that goes on looking for its file is closed")
	}
}

// A frame is charged by what it takes and by what was spent since the one before, for drawing that;
// what is more than drawing can take is other work. The processor's time is made up.
func TestFrameIsChargedWithDrawing(t *testing.T) {
	const ms = time.Millisecond
	for _, tt := range []struct {
		name           string
		drawing, frame time.Duration
		charged        time.Duration
	}{
		{"drawn by a graphics card", 2 * ms, 8 * ms, 10 * ms},
		{"drawn by software", 25 * ms, 8 * ms, 33 * ms},
		{"an export meanwhile", 700 * ms, 8 * ms, mostDrawing + 8*ms},
		{"nothing known", -5 * ms, 8 * ms, 8 * ms},
	} {
		spent := time.Second
		w := NewWatcher(Watch{Processor: func() time.Duration { return spent }, Frame: func(*Frame, bool) { spent += tt.frame }})
		l := newLoop(w)
		l.deliver(false)
		owed := l.pace.owed
		l.pace.since = time.Now().Add(time.Hour) // no time passes
		spent += tt.drawing
		l.deliver(false)
		if got := (l.pace.owed - owed) / restShare; got != tt.charged {
			t.Errorf("%s: charged with %v, want %v", tt.name, got, tt.charged)
		}
	}
}
