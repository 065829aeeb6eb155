package capture

import (
	"context"
	"errors"
	"image"
	"time"

	"app.tonedesk/capture/memory"
)

// loop is a running watcher's state. One goroutine owns it.
type loop struct {
	w        *Watcher
	controls controls
	pace     pace
	back     backoff
	timer    *time.Timer
	status   Status

	reader *reader // nil: nothing is open
	lost   bool    // the reader's source has to be opened (again) before the next read
	busy   bool    // a question to the reader is open ...
	asked  time.Time

	changes <-chan struct{} // the source's word that something has changed; nil: it can't tell
	awake   bool            // something may have changed since the last read began

	last    Frame // the last picture handed over; Pix nil: none yet
	own     bool  // last.Pix is store, not a stream's
	store   []byte
	skipped image.Rectangle // what is new in last, and nobody was told of: in our own window
	later   time.Time       // when that is told of; zero: with the next picture
	held    Frame           // a picture that came while frozen; Pix nil: none
	seen    bool            // the present source has given a picture
	changed time.Time
	charged time.Duration // processor time that the pace knows of
}

func newLoop(w *Watcher) *loop {
	l := &loop{w: w, controls: w.current(), timer: time.NewTimer(time.Hour)}
	l.pace.restart(time.Now())
	l.pace.set(l.controls.rate)
	return l
}

func (l *loop) run(ctx context.Context) error {
	defer l.leave()
	l.report(Waiting, nil)
	for ctx.Err() == nil {
		l.update()
		l.act(ctx)
		var answers chan answer // nil never answers
		if l.busy {
			answers = l.reader.answers
		}
		var changes <-chan struct{}
		if l.reads() {
			changes = l.changes
		}
		l.arm()
		select {
		case <-ctx.Done():
		case <-l.w.wake:
		case <-l.timer.C:
		case <-changes:
			l.told(time.Now())
		case a := <-answers:
			if ctx.Err() == nil {
				l.receive(a)
			}
		}
	}
	return ctx.Err()
}

// update takes over the user's controls.
func (l *loop) update() {
	now := l.w.current()
	if now.rate != l.controls.rate {
		l.pace.set(now.rate)
	}
	if now.sources != l.controls.sources {
		l.drop()
		l.back = 0
		l.pace.restart(time.Now())
		l.report(Waiting, nil)
	}
	if l.controls.frozen && !now.frozen {
		l.awake = true
		if l.back == 0 {
			l.pace.restart(time.Now())
		}
	}
	l.controls = now
}

// act does whatever is due.
func (l *loop) act(ctx context.Context) {
	if f := l.held; f.Pix != nil && !l.controls.frozen {
		l.held = Frame{}
		l.show(f)
	}
	if l.last.Pix != nil && l.w.takeAgain() {
		l.deliverAgain()
	}
	now := time.Now()
	if l.putOff() && l.reads() && !now.Before(l.later) {
		f := l.last
		f.Changed = l.skipped
		l.show(f)
	}
	switch {
	case l.busy:
		// An answer may wait already, where Frame was slow.
		if now.Sub(l.asked) >= patience && len(l.reader.answers) == 0 {
			l.report(NotAnswering, ErrNotAnswering)
		}
	case l.reads() && !now.Before(l.due()):
		l.ask(ctx, now)
	}
}

// reads says whether pictures are wanted at all.
func (l *loop) reads() bool { return !l.controls.frozen && l.controls.open != nil }

// due returns when to read next: by the rate; from a source that would tell of a change and
// doesn't, only to see that it still answers, and that nothing has changed for a while.
func (l *loop) due() time.Time {
	idle := l.asked.Add(idleTime)
	if l.status.State == Live {
		idle = l.changed.Add(patience)
	}
	if l.changes == nil || l.awake || idle.Before(l.pace.due) {
		return l.pace.due
	}
	return idle
}

// told notes that something may have changed. What comes after a pause is read at once, and
// so is what may end an error's wait, and a source's first picture: the rate is between two.
func (l *loop) told(now time.Time) {
	l.awake = true
	if !l.seen && l.status.Err == nil {
		l.pace.restart(now)
		return
	}
	if soonest := l.asked.Add(l.pace.every); now.After(l.pace.due) || l.status.Err != nil {
		if soonest.Before(now) {
			soonest = now
		}
		l.pace.restart(soonest)
	}
}

// ask puts the next question to the reader.
func (l *loop) ask(ctx context.Context, now time.Time) {
	if l.reader == nil {
		l.reader, l.lost = newReader(ctx, l.controls.open), true
	}
	l.busy, l.asked, l.awake = true, now, false
	if l.lost {
		l.changes = nil
		l.keep() // opening closes what was open
		l.reader.ask(openQuestion)
		return
	}
	l.pace.begin(now)
	l.reader.ask(grabQuestion)
}

// receive takes the reader's answer.
func (l *loop) receive(a answer) {
	now := time.Now()
	l.busy = false
	if a.to == grabQuestion {
		l.pace.spend(now, now.Sub(l.asked))
	}
	switch {
	case a.err != nil:
		l.fail(a.err, now)
	case a.to == openQuestion:
		l.lost, l.changes, l.awake = false, a.changes, true
		l.pace.told = a.changes != nil
		l.pace.set(l.controls.rate)
		l.pace.restart(now)
	case a.changed && l.controls.frozen:
		l.held, l.back = a.frame, 0
		l.report(Live, nil)
	case a.changed && l.seen && isIn(&a.frame, l.w.watch.Own):
		l.skip(a.frame)
		l.same(now)
	case a.changed && l.seen && now.Before(l.changed.Add(ownTime)) && isIn(&a.frame, l.w.watch.PerhapsOwn):
		l.skip(a.frame)
		l.later = l.changed.Add(ownTime)
		l.same(now)
	case a.changed:
		l.show(a.frame)
	default:
		l.same(now)
	}
}

// fail notes an error and waits.
func (l *loop) fail(err error, now time.Time) {
	if mustReopen(err) {
		l.lost = true
	}
	l.awake = true
	l.pace.restart(now.Add(max(l.back.next(), l.pace.every)))
	l.report(stateOf(err), err)
}

// ownTime is how long what may be our own repaint waits. Our choice: a repaint takes some thirtieth of a
// second, and who paints beneath our window sees it there once a second.
const ownTime = time.Second

// isIn reports whether a picture is new in a place alone.
func isIn(f *Frame, place func() image.Rectangle) bool {
	return place != nil && !f.Changed.Empty() && f.Changed.Add(f.Origin).In(place())
}

// putOff reports whether something waits to be told of.
func (l *loop) putOff() bool { return !l.later.IsZero() && !l.skipped.Empty() && l.last.Pix != nil }

// skip keeps a picture that nobody is told of now.
func (l *loop) skip(f Frame) {
	l.last, l.own, l.skipped = f, false, l.skipped.Union(f.Changed)
}

// deliverAgain hands the last picture over once more, as a new one if it has what nobody was told of.
func (l *loop) deliverAgain() {
	again := l.skipped.Empty()
	if !again {
		l.last.Changed, l.skipped = l.skipped, image.Rectangle{}
	}
	l.deliver(again)
}

// show hands a new picture over.
func (l *loop) show(f Frame) {
	if !f.Changed.Empty() {
		f.Changed = f.Changed.Union(l.skipped)
	}
	l.last, l.own, l.store, l.skipped, l.later = f, false, nil, image.Rectangle{}, time.Time{}
	l.seen, l.back, l.changed = true, 0, time.Now()
	l.report(Live, nil)
	l.w.takeAgain() // the new picture does for that
	l.deliver(false)
}

// same notes that nothing is new.
func (l *loop) same(now time.Time) {
	l.back = 0
	switch {
	case !l.seen:
		l.report(Waiting, nil)
	case now.Sub(l.changed) >= patience:
		l.report(Unchanged, nil)
	default:
		l.report(Live, nil)
	}
}

func (l *loop) deliver(again bool) {
	if l.w.watch.Frame == nil {
		return
	}
	before := l.w.spent()
	l.w.watch.Frame(&l.last, again)
	after := l.w.spent()
	drawing := time.Duration(0)
	if l.w.watch.Processor != nil && l.charged > 0 { // by the clock it can't be known
		drawing = min(max(0, before-l.charged), mostDrawing)
	}
	l.charged = after
	l.pace.spend(time.Now(), drawing+after-before)
}

// mostDrawing is how much of what the program spends between two pictures can be for drawing the one
// before; what is more is other work, such as an export. Our choice, twice what
// a window of 380 x 760 takes of one core where no graphics card helps: 25 ms, measured.
const mostDrawing = 50 * time.Millisecond

// report tells of a state that differs from the last one reported.
func (l *loop) report(state State, err error) {
	since := l.status.Since
	if state != l.status.State || since.IsZero() {
		since = time.Now()
	} else if wordsOf(err) == wordsOf(l.status.Err) {
		return
	}
	l.status = Status{State: state, Err: err, Since: since}
	if l.w.watch.Status != nil {
		l.w.watch.Status(l.status)
	}
}

// arm sets the timer to whatever comes due next.
func (l *loop) arm() {
	switch {
	case l.busy && l.status.State != NotAnswering:
		l.timer.Reset(time.Until(l.asked.Add(patience)))
	case !l.busy && l.reads():
		next := l.due()
		if l.putOff() && l.later.Before(next) {
			next = l.later
		}
		l.timer.Reset(time.Until(next))
	default:
		l.timer.Stop()
	}
}

// keep copies the last picture into memory of our own, since its stream is to go. One that
// came out of a file goes too: it may leave no room for the next.
func (l *loop) keep() {
	if l.last.Lasts {
		l.last = Frame{}
	}
	if l.last.Pix != nil && !l.own {
		size := l.last.Stride*(l.last.Size.Y-1) + 4*l.last.Size.X
		l.store = append(l.store[:0], l.last.Pix[:min(size, len(l.last.Pix))]...)
		l.last.Pix, l.own = l.store, true
	}
	l.held = Frame{}
	l.seen, l.later = false, time.Time{}
}

// drop lets the present source go; the last picture stays, if it is of a screen.
func (l *loop) drop() {
	l.keep()
	if l.reader != nil {
		l.reader.letGo()
	}
	l.reader, l.busy, l.lost, l.changes = nil, false, false, nil
}

// leave lets the source go and waits a little for its end, unless it hangs.
func (l *loop) leave() {
	l.timer.Stop()
	r := l.reader
	if r == nil {
		return
	}
	hangs := l.busy && time.Since(l.asked) >= patience
	r.letGo()
	if hangs {
		return
	}
	l.timer.Reset(farewell)
	select {
	case <-r.done:
	case <-l.timer.C:
	}
}

// mustReopen says whether err leaves a stream that will never give a picture again, or one that
// might if its picture were let go of.
func mustReopen(err error) bool {
	if full := (*memory.Full)(nil); errors.As(err, &full) {
		return true
	}
	for _, lost := range []error{ErrDisconnected, ErrGone, ErrOutside, ErrClosed, errPanic} {
		if errors.Is(err, lost) {
			return true
		}
	}
	return false
}

// stateOf returns the state that err puts a source into.
func stateOf(err error) State {
	if errors.Is(err, ErrNotAnswering) || errors.Is(err, context.DeadlineExceeded) {
		return NotAnswering
	}
	if errors.Is(err, ErrMinimised) {
		return Minimised
	}
	return Gone
}

func wordsOf(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
