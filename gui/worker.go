package gui

import (
	"fmt"
	"image"
	"runtime/debug"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
)

// wanted is what the window wants to be shown. The window writes it, the worker reads it.
type wanted struct {
	setup    setup
	settings Settings
	lay      func(bounds image.Rectangle) lay // which part of the picture is shown, and how large
	covered  image.Rectangle                  // by our own window, in desktop pixels
	look     image.Point                      // pixel under the pointer or key cursor
	looking  bool
	families bool         // are to be looked for
	halves   bool         // another picture stands beside this one: no room for a small one
	copies   int          // how many copies of the picture were asked for so far
	pick     *image.Point // whose lightness is asked for; nil: none
}

// shown is what the worker made of a frame. The window may use it until it returns from
// the worker's show call; img and loupe until the call after.
type shown struct {
	img     *image.RGBA
	loupe   *image.RGBA // nil: none
	bounds  image.Rectangle
	part    image.Rectangle // of the picture, that img shows
	flipped bool
	reading *analysis.Reading
	spots   []reading
	hand    []handReading        // the families set by hand
	copied  *copiedPicture       // if one was asked for
	beside  *image.RGBA          // the whole picture made small, in a view that has it beside; else nil
	small   []analysis.GapChange // and what becomes of the gaps in it
	picked  *image.Point         // whose lightness was asked for
	tone    float64              // and what it is
	jumped  bool                 // the whole picture jumped since the frame before
	at      time.Time
	text    bool // figures may be renewed; else only the picture
}

// worker turns frames into what is shown. All of it runs on the watcher's goroutine, but
// for want, which any goroutine may call.
type worker struct {
	mu   sync.Mutex
	next wanted

	reader  *analysis.Reader
	reducer *reduce.Reducer
	near    *reduce.Reducer // for the loupe
	tiny    *reduce.Reducer // for the small picture beside
	jump    *movement.Jump
	gaps    analysis.GapMeter
	out     analysis.Mask
	partOut analysis.Mask // the same for the part that is shown
	nearOut analysis.Mask
	tinyOut analysis.Mask
	images  [2]*image.RGBA // the one shown, and the one to paint
	loupes  [2]*image.RGBA
	besides [2]*image.RGBA
	done    shown
	last    wanted
	reduced *reduce.Picture
	text    time.Time // when figures were last renewed
	search  *familyWatch
	copies  int       // made so far
	due     bool      // the picture changed since families were looked for
	asked   time.Time // when the last frame will come back for them
	again   func(after time.Duration)
	show    func(*shown)
}

// newWorker returns a worker; show is called with what was made, and again is asked for
// the last frame once more after a while. Families are looked for by search.
func newWorker(show func(*shown), again func(time.Duration), search *familyWatch) *worker {
	w := &worker{
		reader: analysis.NewReader(), reducer: reduce.New(), near: reduce.New(), tiny: reduce.New(),
		jump: new(movement.Jump), show: show, again: again, search: search,
	}
	w.reader.Steady = true
	return w
}

// close lets go of the worker's goroutines. No frame may be under way.
func (w *worker) close() {
	w.reader.Close()
	w.reducer.Close()
	w.near.Close()
	w.tiny.Close()
}

// want says what is to be shown from the next frame on.
func (w *worker) want(next wanted) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.next = next
}

func (w *worker) wanted() wanted {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.next
}

// textEvery is the least time between two renewals of the figures: a reading that dances
// can't be read.
const textEvery = 100 * time.Millisecond

// frame works on a frame and shows the outcome; again says that the frame is the one
// before, and only what is wanted has changed.
func (w *worker) frame(f *capture.Frame, again bool) {
	defer func() {
		if r := recover(); r != nil { // a mistake of ours must not end the painter's session
			fyne.LogError(fmt.Sprintf("working on a frame: %v\n%s", r, debug.Stack()), nil)
		}
	}()
	next := w.wanted()
	if again && next.setup.Source.feed() != w.last.setup.Source.feed() {
		return // a frame of what was watched before; the next is under way
	}
	if !again && f.Layout == capture.RGBA {
		Pixels(f).LayOver(paper)
	}
	p, bounds := pixelsOf(f, next.setup.Source)
	if bounds.Empty() || next.lay == nil {
		return
	}
	again = again && bounds == w.done.bounds
	lay := next.lay(bounds)
	next.setup.out(&w.out, bounds.Min, next.covered.Intersect(bounds))
	counts := again && sameCount(next, w.last)
	if !counts {
		w.done.reading = w.reader.Read(p, analysis.Options{Groups: next.settings.Groups, Edges: next.setup.Edges, Out: &w.out})
	}
	if bounds != w.done.bounds || next.setup.Source.feed() != w.last.setup.Source.feed() {
		w.jump.Forget() // another part of the same picture is no jump: spots stay on what they were put on
	}
	w.done.jumped = !again && w.jump.Moved(w.done.reading)
	reduced := counts && lay == w.lastLay()
	if !reduced {
		next.setup.out(&w.partOut, lay.Bounds.Min, next.covered.Intersect(bounds))
		w.reduced = w.reducer.Reduce(p.Crop(lay.Bounds.Sub(bounds.Min)), lay.Pixels.X, lay.Pixels.Y, &w.partOut)
	}
	w.done.bounds, w.done.part, w.done.flipped, w.done.at = bounds, lay.Bounds, next.settings.Mirrored, f.At
	if !reduced || !sameLook(next.settings, w.last.settings) {
		w.paint(next)
	}
	w.paintBeside(p, bounds, next, counts && next.halves == w.last.halves && sameLook(next.settings, w.last.settings) && next.settings.Mirrored == w.last.settings.Mirrored)
	w.paintLoupe(p, bounds, next)
	w.readSpots(p, bounds.Min, next)
	w.readFamilies(p, bounds.Min, next)
	w.findFamilies(p, bounds.Min, next, !counts)
	w.pick(bounds, next)
	w.copyPicture(p, bounds, next)
	w.done.text = w.textDue(again)
	w.last = next
	w.show(&w.done)
}

// pixelsOf returns the part of a frame that is watched, and where it lies in the source.
func pixelsOf(f *capture.Frame, from source) (analysis.Pixels, image.Rectangle) {
	p := Pixels(f)
	bounds := image.Rectangle{Max: f.Size}.Add(f.Origin)
	if from.Kind == sourceRegion || from.Region.Empty() {
		return p, bounds
	}
	part := from.Region.Intersect(bounds)
	return p.Crop(part.Sub(f.Origin)), part
}

// sameCount reports whether the statistics of two wants are the same for the same frame.
func sameCount(a, b wanted) bool {
	return a.settings.Groups == b.settings.Groups && a.covered == b.covered &&
		sameSlice(a.setup.Areas, b.setup.Areas) && sameSlice(a.setup.Tones, b.setup.Tones) && sameSlice(a.setup.Edges, b.setup.Edges)
}

// sameSlice reports whether two slices that are never written to are the same one.
func sameSlice[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// lay says which part of a picture is shown, in pixels of its source, and to how many pixels
// it is reduced.
type lay struct {
	Bounds image.Rectangle
	Pixels image.Point
}

func (w *worker) lastLay() lay {
	if w.last.lay == nil || w.reduced == nil {
		return lay{}
	}
	return w.last.lay(w.done.bounds)
}

// paint paints the view into the image that isn't shown.
func (w *worker) paint(next wanted) {
	size := image.Pt(w.reduced.Width, w.reduced.Height)
	img := backImage(&w.images, size)
	w.paintView(img.Pix, w.reduced, viewOf(next), next)
	views.DotMask(img.Pix, w.reduced)
	if next.settings.dotted() {
		views.DotLimits(img.Pix, w.reduced, next.settings.limits())
	}
	if next.settings.Mirrored {
		views.FlipLeftRight(img.Pix, size.X, size.Y)
	}
	w.done.img = img
}

// viewOf returns the view that is wanted.
func viewOf(next wanted) views.View {
	view, ok := views.ByKey(next.settings.View)
	if !ok { // settings of another version
		view = views.All()[0]
	}
	return view
}

// sameLook reports whether two settings show a reduced picture alike.
func sameLook(a, b Settings) bool {
	view := viewOf(wanted{settings: a})
	return a.View == b.View && a.knob(view) == b.knob(view) && a.dotted() == b.dotted() && a.limits() == b.limits()
}

// paintView paints src in a view.
func (w *worker) paintView(dst []byte, src *reduce.Picture, view views.View, next wanted) {
	view.Paint(dst, src, views.Look{Reading: w.done.reading, Knob: next.settings.knob(view)})
}

// backImage returns the image of the two that is not shown, in the size asked for.
func backImage(images *[2]*image.RGBA, size image.Point) *image.RGBA {
	images[0], images[1] = images[1], images[0]
	if images[1] == nil || images[1].Rect.Size() != size {
		images[1] = image.NewRGBA(image.Rectangle{Max: size})
	}
	return images[1]
}

// findFamilies has families looked for, if they are wanted and the picture changed since.
func (w *worker) findFamilies(p analysis.Pixels, origin image.Point, next wanted, changed bool) {
	rules := next.settings.Rules
	w.due = w.due || changed || next.families != w.last.families || rules != w.last.settings.Rules
	if !next.families || !w.due {
		return
	}
	wait := w.search.offer(p, &w.out, familySearch{rules, next.setup.Source, origin, image.Pt(p.Width, p.Height)})
	w.due = wait > 0
	if now := time.Now(); w.due && now.After(w.asked) {
		w.asked = now.Add(wait)
		w.again(wait)
	}
}

// pick reads the lightness that was asked for, as the histogram has it.
func (w *worker) pick(bounds image.Rectangle, next wanted) {
	w.done.picked = nil
	if next.pick == nil || !next.pick.In(bounds) {
		return
	}
	at := next.pick.Sub(bounds.Min)
	w.done.picked = next.pick
	w.done.tone = colour.LightnessOfBins(int(w.done.reading.Grey[at.Y*w.done.reading.Width+at.X]), 1)
}

// textDue says whether the figures may be renewed now; if not, it asks to come back when
// they may. What the painter did himself is answered at once.
func (w *worker) textDue(again bool) bool {
	now := time.Now()
	if wait := textEvery - now.Sub(w.text); !again && wait > 0 {
		w.again(wait)
		return false
	}
	w.text = now
	return true
}
