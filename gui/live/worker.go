package live

import (
	"fmt"
	"image"
	"runtime/debug"
	"sync"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/capture"
	"app.tonedesk/gui/setup"
)

// Owner is whom a worker works for. Its functions are called on the goroutine of frames.
type Owner struct {
	Show  func(*Shown)
	Again func(after time.Duration) // asks for the last frame once more after a while
	Log   func(error)               // takes a mistake of ours
}

// Worker turns frames into what is shown, one at a time: Frame belongs to the watcher's
// goroutine, and so does what it makes. Want may be called from any.
type Worker struct {
	TextEvery     time.Duration // least time between two renewals of the figures; set before the first frame
	CanvasSettles time.Duration // how long a canvas must have stayed for it to be told; the same

	mu   sync.Mutex
	next Wanted

	owner  Owner
	search *Search
	now    func() time.Time

	paper    analysis.Paper
	reader   *analysis.Reader
	mask     analysis.Mask // what isn't counted
	grower   grower
	canvas   canvasFinder
	finder   movement.Finder
	mirror   mirror
	beside   beside
	loupe    loupe
	previews previews
	flicker  flicker
	shown    Shown
	under    Reading // under the pointer
	melting  Melting // the same

	fresh changes      // of the picture, since it was last worked on to the end
	feed  setup.Source // that the last new frame is of
	last  task         // the one before, without its pixels
	whole bool         // what was made in it is of the last frame, and was made to the end

	copies int       // made so far
	due    bool      // the picture changed since families were looked for
	asked  time.Time // when the last frame will come back for them
	text   time.Time // when figures were last renewed

	focusDue    bool      // the picture changed since its contrast was measured
	focusWanted bool      // it was to be measured
	focusAsked  time.Time // when the last frame will come back for it
}

// NewWorker returns a worker that has families looked for by search. Close it at the end.
func NewWorker(owner Owner, search *Search) *Worker {
	w := &Worker{TextEvery: textEvery, CanvasSettles: canvasSettles, owner: owner, search: search, now: time.Now, reader: analysis.NewReader()}
	w.reader.Steady = true
	w.grower.Grower = analysis.NewGrower()
	w.mirror.reducer, w.beside.reducer, w.loupe.reducer, w.previews.reducer = reduce.New(), reduce.New(), reduce.New(), reduce.New()
	return w
}

// Close lets go of the worker's goroutines. No frame may be under way.
func (w *Worker) Close() {
	w.reader.Close()
	w.grower.Close()
	w.mirror.reducer.Close()
	w.beside.reducer.Close()
	w.loupe.reducer.Close()
	w.previews.reducer.Close()
}

// Want says what is to be shown from the next frame on.
func (w *Worker) Want(next Wanted) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.next = next
}

// Covered returns what our own window covers of a watched region, in desktop pixels; empty for nothing,
// and where no region is watched.
func (w *Worker) Covered() image.Rectangle {
	if next := w.wanted(); next.Setup.Source.Kind == setup.SourceRegion {
		return next.Covered
	}
	return image.Rectangle{}
}

func (w *Worker) wanted() Wanted {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.next
}

// Last returns what was shown last, for the goroutine of frames.
func (w *Worker) Last() *Shown { return &w.shown }

// Frame works on a frame and shows the outcome; repeated says that the frame is the one
// before, and only what is wanted has changed. Nothing is written to f, or kept of it.
func (w *Worker) Frame(f *capture.Frame, repeated bool) {
	defer rescue("working on a frame", w.owner.Log)
	w.fresh.add(f, repeated)
	t, ok := w.begin(f, repeated)
	if !ok || w.heldBack(&t) {
		return
	}
	t.changed = w.fresh.take(t.bounds, t.Setup.Source.Feed())
	w.grower.grow(&t)
	s := &w.shown
	s.Flashes = w.flicker.flashes
	s.Bounds, s.Space = t.bounds, t.pixels.Space
	s.Part, s.Flipped, s.At = t.lay.Bounds, t.Settings.Flipped, f.At
	s.Reading = w.read(&t)
	s.Move = w.move(&t)
	s.Canvas = w.canvas.look(w, &t)
	s.Img = w.mirror.paint(&t, s.Reading)
	s.Beside, s.Small = w.beside.paint(&t, s.Reading)
	s.Loupe = w.loupe.paint(&t, s.Reading)
	s.Previews = w.previews.look(w, &t, s.Reading)
	s.Spots, s.Under = readSpots(s.Spots[:0], &t), readUnder(&w.under, &t)
	s.Melting = w.meltingUnder(&t)
	s.Manual = readFamilies(s.Manual[:0], &t)
	s.Kept = readFollowed(s.Kept[:0], &t)
	w.lookForFamilies(&t)
	w.lookForFocus(&t)
	s.Picked, s.Colour = pick(&t)
	s.Copied = w.copy(&t, f.At)
	s.Text = w.textDue(repeated)
	w.finish(t)
	w.owner.Show(s)
}

// rescue logs a panic: a mistake of ours must not end the painter's session. It is to be
// deferred.
func rescue(doing string, log func(error)) {
	if r := recover(); r != nil {
		log(fmt.Errorf("%s: %v\n%s", doing, r, debug.Stack()))
	}
}

// read reads the picture, unless the reading of the frame before still holds.
func (w *Worker) read(t *task) *analysis.Reading {
	t.leaveOut(&w.mask, t.bounds.Min)
	if t.same.reading {
		return w.shown.Reading
	}
	o := t.Settings.Grouping()
	o.Borders, o.Mask = t.Setup.Borders, &w.mask
	return w.reader.ReadChanged(t.pixels, o, t.changed)
}

// move says what became of where the whole picture lies since the frame before. Another part
// of the same picture is no movement: spots stay on what they were put on.
func (w *Worker) move(t *task) movement.Move {
	if t.bounds != w.last.bounds || t.Setup.Source.Feed() != w.last.Setup.Source.Feed() {
		w.finder.Forget()
	}
	if t.same.picture {
		return movement.Move{}
	}
	return w.finder.NextChanged(w.shown.Reading, t.changed)
}

// textEvery is the least time between two renewals of the figures: a reading that dances
// can't be read (our choice).
const textEvery = 100 * time.Millisecond

// textDue says whether the figures may be renewed now; if not, it asks to come back when
// they may. What the painter did himself is answered at once.
func (w *Worker) textDue(repeated bool) bool {
	now := w.now()
	if wait := w.TextEvery - now.Sub(w.text); !repeated && wait > 0 {
		w.owner.Again(wait)
		return false
	}
	w.text = now
	return true
}
