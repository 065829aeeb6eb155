package live

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
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Wanted is what the window wants to be shown. The window writes it, the worker reads it.
type Wanted struct {
	Setup    setup.Setup
	Settings settings.Settings
	Lay      func(bounds image.Rectangle) Lay // which part of the picture is shown, and how large
	Covered  image.Rectangle                  // by our own window, in desktop pixels
	Look     image.Point                      // pixel under the pointer or key cursor
	Looking  bool
	Families bool         // are to be looked for
	Halves   bool         // another picture stands beside this one: no room for a small one
	Copies   int          // how many copies of the picture were asked for so far
	Pick     *image.Point // whose lightness is asked for; nil: none
}

// Shown is what the worker made of a frame. The window may use it until it returns from
// the worker's show call; img and loupe until the call after.
type Shown struct {
	Img     *image.RGBA
	Loupe   *image.RGBA // nil: none
	Bounds  image.Rectangle
	Part    image.Rectangle // of the picture, that img shows
	Flipped bool
	Reading *analysis.Reading
	Spots   []Reading
	Hand    []FamilyReading      // the families set by hand
	Copied  *Copy                // if one was asked for
	Beside  *image.RGBA          // the whole picture made small, in a view that has it beside; else nil
	Small   []analysis.GapChange // and what becomes of the gaps in it
	Picked  *image.Point         // whose lightness was asked for
	Tone    float64              // and what it is
	Jumped  bool                 // the whole picture jumped since the frame before
	At      time.Time
	Text    bool // figures may be renewed; else only the picture
}

// Worker turns frames into what is shown. All of it runs on the watcher's goroutine, but
// for want, which any goroutine may call.
type Worker struct {
	mu   sync.Mutex
	next Wanted

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
	Done    Shown
	last    Wanted
	reduced *reduce.Picture
	Text    time.Time // when figures were last renewed
	search  *Search
	copies  int       // made so far
	due     bool      // the picture changed since families were looked for
	asked   time.Time // when the last frame will come back for them
	again   func(after time.Duration)
	show    func(*Shown)
}

// NewWorker returns a worker; show is called with what was made, and again is asked for
// the last frame once more after a while. Families are looked for by search.
func NewWorker(show func(*Shown), again func(time.Duration), search *Search) *Worker {
	w := &Worker{
		reader: analysis.NewReader(), reducer: reduce.New(), near: reduce.New(), tiny: reduce.New(),
		jump: new(movement.Jump), show: show, again: again, search: search,
	}
	w.reader.Steady = true
	return w
}

// Close lets go of the worker's goroutines. No frame may be under way.
func (w *Worker) Close() {
	w.reader.Close()
	w.reducer.Close()
	w.near.Close()
	w.tiny.Close()
}

// Want says what is to be shown from the next frame on.
func (w *Worker) Want(next Wanted) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.next = next
}

func (w *Worker) wanted() Wanted {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.next
}

// TextEvery is the least time between two renewals of the figures: a reading that dances
// can't be read.
const TextEvery = 100 * time.Millisecond

// Frame works on a frame and shows the outcome; again says that the frame is the one
// before, and only what is wanted has changed.
func (w *Worker) Frame(f *capture.Frame, again bool) {
	defer func() {
		if r := recover(); r != nil { // a mistake of ours must not end the painter's session
			fyne.LogError(fmt.Sprintf("working on a frame: %v\n%s", r, debug.Stack()), nil)
		}
	}()
	next := w.wanted()
	if again && next.Setup.Source.Feed() != w.last.Setup.Source.Feed() {
		return // a frame of what was watched before; the next is under way
	}
	if !again && f.Layout == capture.RGBA {
		pictures.Pixels(f).LayOver(pictures.Paper)
	}
	p, bounds := pixelsOf(f, next.Setup.Source)
	if bounds.Empty() || next.Lay == nil {
		return
	}
	again = again && bounds == w.Done.Bounds
	lay := next.Lay(bounds)
	next.Setup.Out(&w.out, bounds.Min, next.Covered.Intersect(bounds))
	counts := again && sameCount(next, w.last)
	if !counts {
		w.Done.Reading = w.reader.Read(p, analysis.Options{Groups: next.Settings.Groups, Edges: next.Setup.Edges, Out: &w.out})
	}
	if bounds != w.Done.Bounds || next.Setup.Source.Feed() != w.last.Setup.Source.Feed() {
		w.jump.Forget() // another part of the same picture is no jump: spots stay on what they were put on
	}
	w.Done.Jumped = !again && w.jump.Moved(w.Done.Reading)
	reduced := counts && lay == w.lastLay()
	if !reduced {
		next.Setup.Out(&w.partOut, lay.Bounds.Min, next.Covered.Intersect(bounds))
		w.reduced = w.reducer.Reduce(p.Crop(lay.Bounds.Sub(bounds.Min)), lay.Pixels.X, lay.Pixels.Y, &w.partOut)
	}
	w.Done.Bounds, w.Done.Part, w.Done.Flipped, w.Done.At = bounds, lay.Bounds, next.Settings.Mirrored, f.At
	if !reduced || !sameLook(next.Settings, w.last.Settings) {
		w.paint(next)
	}
	w.paintBeside(p, bounds, next, counts && next.Halves == w.last.Halves && sameLook(next.Settings, w.last.Settings) && next.Settings.Mirrored == w.last.Settings.Mirrored)
	w.paintLoupe(p, bounds, next)
	w.readSpots(p, bounds.Min, next)
	w.readFamilies(p, bounds.Min, next)
	w.findFamilies(p, bounds.Min, next, !counts)
	w.pick(bounds, next)
	w.copyPicture(p, bounds, next)
	w.Done.Text = w.textDue(again)
	w.last = next
	w.show(&w.Done)
}

// pixelsOf returns the part of a frame that is watched, and where it lies in the source.
func pixelsOf(f *capture.Frame, from setup.Source) (analysis.Pixels, image.Rectangle) {
	p := pictures.Pixels(f)
	bounds := image.Rectangle{Max: f.Size}.Add(f.Origin)
	if from.Kind == setup.SourceRegion || from.Region.Empty() {
		return p, bounds
	}
	part := from.Region.Intersect(bounds)
	return p.Crop(part.Sub(f.Origin)), part
}

// sameCount reports whether the statistics of two wants are the same for the same frame.
func sameCount(a, b Wanted) bool {
	return a.Settings.Groups == b.Settings.Groups && a.Covered == b.Covered &&
		sameSlice(a.Setup.Areas, b.Setup.Areas) && sameSlice(a.Setup.Tones, b.Setup.Tones) && sameSlice(a.Setup.Edges, b.Setup.Edges)
}

// sameSlice reports whether two slices that are never written to are the same one.
func sameSlice[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// Lay says which part of a picture is shown, in pixels of its source, and to how many pixels
// it is reduced.
type Lay struct {
	Bounds image.Rectangle
	Pixels image.Point
}

func (w *Worker) lastLay() Lay {
	if w.last.Lay == nil || w.reduced == nil {
		return Lay{}
	}
	return w.last.Lay(w.Done.Bounds)
}

// paint paints the view into the image that isn't shown.
func (w *Worker) paint(next Wanted) {
	size := image.Pt(w.reduced.Width, w.reduced.Height)
	img := backImage(&w.images, size)
	w.paintView(img.Pix, w.reduced, ViewOf(next), next)
	views.DotMask(img.Pix, w.reduced)
	if next.Settings.Dotted() {
		views.DotLimits(img.Pix, w.reduced, next.Settings.Limits())
	}
	if next.Settings.Mirrored {
		views.FlipLeftRight(img.Pix, size.X, size.Y)
	}
	w.Done.Img = img
}

// ViewOf returns the view that is wanted.
func ViewOf(next Wanted) views.View {
	view, ok := views.ByKey(next.Settings.View)
	if !ok { // settings of another version
		view = views.All()[0]
	}
	return view
}

// sameLook reports whether two settings show a reduced picture alike.
func sameLook(a, b settings.Settings) bool {
	view := ViewOf(Wanted{Settings: a})
	return a.View == b.View && a.Knob(view) == b.Knob(view) && a.Dotted() == b.Dotted() && a.Limits() == b.Limits()
}

// paintView paints src in a view.
func (w *Worker) paintView(dst []byte, src *reduce.Picture, view views.View, next Wanted) {
	view.Paint(dst, src, views.Look{Reading: w.Done.Reading, Knob: next.Settings.Knob(view)})
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
func (w *Worker) findFamilies(p analysis.Pixels, origin image.Point, next Wanted, changed bool) {
	rules := next.Settings.Rules
	w.due = w.due || changed || next.Families != w.last.Families || rules != w.last.Settings.Rules
	if !next.Families || !w.due {
		return
	}
	wait := w.search.Offer(p, &w.out, Job{rules, next.Setup.Source, origin, image.Pt(p.Width, p.Height)})
	w.due = wait > 0
	if now := time.Now(); w.due && now.After(w.asked) {
		w.asked = now.Add(wait)
		w.again(wait)
	}
}

// Pick reads the lightness that was asked for, as the histogram has it.
func (w *Worker) pick(bounds image.Rectangle, next Wanted) {
	w.Done.Picked = nil
	if next.Pick == nil || !next.Pick.In(bounds) {
		return
	}
	at := next.Pick.Sub(bounds.Min)
	w.Done.Picked = next.Pick
	w.Done.Tone = colour.LightnessOfBins(int(w.Done.Reading.Grey[at.Y*w.Done.Reading.Width+at.X]), 1)
}

// textDue says whether the figures may be renewed now; if not, it asks to come back when
// they may. What the painter did himself is answered at once.
func (w *Worker) textDue(again bool) bool {
	now := time.Now()
	if wait := TextEvery - now.Sub(w.Text); !again && wait > 0 {
		w.again(wait)
		return false
	}
	w.Text = now
	return true
}
