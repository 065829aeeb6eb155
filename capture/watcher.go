package capture

import (
	"context"
	"image"
	"sync"
	"time"
)

// State says how a watched source does.
type State uint8

const (
	Waiting      State = iota // no picture yet
	Live                      // the last picture is the newest, and it changed within the last second
	Unchanged                 // read all right, and nothing has changed for a second
	Hidden                    // there, but covered by our own window, as only that knows
	Gone                      // no more there, or the connection broke
	NotAnswering              // a read has not come back for a second
	Minimised                 // the followed window is minimised, or on another workspace
)

var stateNames = [...]string{"waiting", "live", "unchanged", "hidden", "gone", "not answering", "minimised", "unknown"}

// String returns the state's plain name in lower case.
func (s State) String() string { return stateNames[min(int(s), len(stateNames)-1)] }

// Status is a state with its reason.
type Status struct {
	State State
	Err   error     // the cause; nil while waiting without trouble, live or unchanged
	Since time.Time // when the state began
}

// Watch says what a Watcher watches and whom it tells. The functions are called on
// the goroutine that runs the watcher, one at a time. Nil functions are left out.
type Watch struct {
	// Open opens the source: at first, and again after it was lost. It has to
	// connect anew where the connection broke. It runs on a goroutine of its own.
	// Nil waits for Reopen.
	Open func(context.Context) (Stream, error)

	// Frame takes a new picture, or (again) the last one once more, whose Changed then means
	// nothing. f and its pixels
	// are good until Frame returns. While Frame blocks nothing is read and nothing
	// piles up: the next picture is the newest there is then.
	Frame func(f *Frame, again bool)

	// Status takes the state whenever it, or the words of its error, change.
	Status func(Status)

	// PerSecond is how often to read, 1 to 60. 0 is the automatic rate: 60 from a source that
	// tells of changes, when it does, and 10 from others; less where reading, Frame and what
	// is drawn after it take more than a fifth of a core's time.
	PerSecond float64

	// Own returns where our own window lies, in desktop pixels. A picture that is new there alone
	// counts as the same: what shows pictures must not be fed by its own repaint. What it changed
	// goes with the next picture that is handed over. Nil, or empty: nowhere.
	Own func() image.Rectangle

	// PerhapsOwn is Own where it isn't known whether another window lies over ours: what is new there
	// alone is handed over no sooner than a second after the picture before.
	PerhapsOwn func() image.Rectangle

	// Processor returns the processor time that the program has used so far, of all cores, by which
	// Frame and what is drawn after it are charged. Nil: Frame alone, by the clock, as if it worked
	// on one core.
	Processor func() time.Duration
}

// Watcher asks one source for pictures on a timer, or when the source tells of a change (see
// Notifier), hands over the newest one and says how it goes. It goes on through every error, with growing waits of 0.25 to 2
// seconds, until its context ends. All methods may be called from any goroutine and
// return at once, Run excepted.
type Watcher struct {
	watch Watch
	wake  chan struct{} // holds at most one: the controls have changed

	mu       sync.Mutex
	controls controls
	again    bool
}

// controls is what the user wants just now.
type controls struct {
	rate    float64
	frozen  bool
	open    func(context.Context) (Stream, error)
	sources int // counts Reopen
}

// NewWatcher returns a watcher that does nothing until Run.
func NewWatcher(w Watch) *Watcher {
	return &Watcher{
		watch:    w,
		wake:     make(chan struct{}, 1),
		controls: controls{rate: w.PerSecond, open: w.Open},
	}
}

// Run watches until ctx ends and returns ctx's error. A watcher does one Run at a time. It
// closes the stream before it returns; where a call to the source hangs, the stream is closed
// as soon as that call comes back, and Run does not wait for it.
func (w *Watcher) Run(ctx context.Context) error { return newLoop(w).run(ctx) }

// SetRate asks for perSecond reads a second from now on, held to 1 to 60; 0 is the
// automatic rate. A rate once chosen is kept, whatever reading costs.
func (w *Watcher) SetRate(perSecond float64) {
	w.change(func() { w.controls.rate = perSecond })
}

// Freeze stops reading, or goes on. While frozen the last picture stays; what a read
// brings that was under way is handed over when it goes on.
func (w *Watcher) Freeze(frozen bool) {
	w.change(func() { w.controls.frozen = frozen })
}

// Again hands the last picture over once more, soon, also while frozen or while a
// read hangs. Many calls may end in one; a new picture does as well.
func (w *Watcher) Again() {
	w.change(func() { w.again = true })
}

// Reopen watches another source from now on; nil watches none. The last picture
// stays, for Again, until the new source gives one, but that of a file goes. While frozen, the new source is
// opened when it goes on.
func (w *Watcher) Reopen(open func(context.Context) (Stream, error)) {
	w.change(func() {
		w.controls.open = open
		w.controls.sources++
	})
}

// began is when the clock of watchers began.
var began = time.Now()

// spent is the time by which Frame is charged, from any moment on.
func (w *Watcher) spent() time.Duration {
	if w.watch.Processor != nil {
		return w.watch.Processor()
	}
	return time.Since(began)
}

// change changes the controls and wakes the loop.
func (w *Watcher) change(set func()) {
	w.mu.Lock()
	set()
	w.mu.Unlock()
	select {
	case w.wake <- struct{}{}:
	default: // it is to wake up already
	}
}

// current returns the present controls.
func (w *Watcher) current() controls {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.controls
}

// takeAgain says whether Again was called since it was last asked.
func (w *Watcher) takeAgain() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	again := w.again
	w.again = false
	return again
}

// Limits of patience. Our choices.
const (
	// patience is how long a read may take until the source is not answering, and
	// how long nothing may change until it is unchanged.
	patience = time.Second
	// farewell is how long Run waits at its end for a read under way.
	farewell = 200 * time.Millisecond
	// idleTime is how long a source that tells of changes is let be when it tells of none:
	// then it is asked all the same, whether it still answers.
	idleTime = time.Second
)
