package everywhere

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// readWait is how long the screen may take to say what lies at the pointer. Our choice: far longer
// than it needs.
const readWait = 2 * time.Second

// mostWaiting is how many presses wait for the one before; more of them are dropped. Our choice.
const mostWaiting = 8

// press is a key for a spot.
type press struct {
	spot int
	at   image.Point // desktop pixels
}

// queue has the presses for spots done one after another.
type queue struct {
	waiting []press
	busy    bool
}

func (q *queue) add(k *Keys, p press) {
	if len(q.waiting) < mostWaiting {
		q.waiting = append(q.waiting, p)
	}
	q.next(k)
}

// next begins the next press, if none is under way.
func (q *queue) next(k *Keys) {
	if q.busy || len(q.waiting) == 0 {
		return
	}
	p := q.waiting[0]
	q.waiting, q.busy = q.waiting[1:], true
	k.place(p, func() {
		q.busy = false
		q.next(k)
	})
}

// found is what lies at a press.
type found struct {
	own    bool        // our own window
	pixel  image.Point // of its inside
	inside bool        // the source
	place  setup.Place // there, or fixed
}

// place sets the spot of a press, and then calls done.
func (k *Keys) place(p press, done func()) {
	from, handle, side := k.Steps.Now().Source, k.Handle(), k.now.SpotSize
	if from.Kind == setup.SourceNothing {
		k.Messages.Note(wording.SayWatchFirst.String())
		done()
		return
	}
	var f found
	k.Background(func() (err error) {
		ctx, cancel := context.WithTimeout(context.Background(), readWait)
		defer cancel()
		f, err = k.find(ctx, from, handle, p.at, side)
		return err
	}, func(err error) {
		defer done()
		switch {
		case err != nil:
			k.Messages.Fail(wording.Explain("read the screen at the pointer", err))
			fyne.LogError("reading the screen at the pointer", err)
		case from.Feed() != k.Steps.Now().Source.Feed(): // another picture by now
		case f.own:
			if at, in := k.Shows(f.pixel); in {
				k.set(p.spot, setup.Place{At: at})
			} else {
				k.Messages.Note(wording.SayPointerOnUs.String())
			}
		default:
			k.set(p.spot, f.place)
		}
	})
}

// set puts spot A or B at a place, in the place of what it was.
func (k *Keys) set(spot int, at setup.Place) {
	now := k.Steps.Now()
	words := ""
	if at.Fixed != nil {
		words = wording.SayFixed(setup.SpotName(spot))
	}
	if spot > len(now.Places) {
		spot, words = len(now.Places), wording.SayFirstIsA.String()
	}
	k.Select(spot)
	k.Steps.Settle()
	k.Steps.Change(now.Placed(spot, at), "")
	if words != "" {
		k.Messages.Note(words)
	}
}

// find says what lies at a place of the desktop. It asks the system, so it runs in the background.
func (k *Keys) find(ctx context.Context, from setup.Source, own uintptr, at image.Point, side int) (f found, err error) {
	if f.own, _ = native.Topmost(own, at); f.own { // without an answer the screen is read as it is
		inside, err := native.ClientRect(own)
		f.pixel = at.Sub(inside.Min)
		return f, err
	}
	where := at
	switch from.Kind {
	case setup.SourceRegion:
		f.inside = from.Region.Empty() || at.In(from.Region)
	case setup.SourceWindow:
		if where, f.inside, err = k.inWindow(ctx, uint64(own), at); err != nil {
			return f, err
		}
		f.inside = f.inside && (from.Region.Empty() || where.In(from.Region))
	}
	if f.inside {
		f.place = setup.Place{At: where}
		return f, nil
	}
	spot, err := k.readAt(ctx, at, side)
	f.place = setup.Place{At: at, Fixed: &spot}
	return f, err
}

// inWindow returns which place of the followed window's inside shows at a place of the desktop.
func (k *Keys) inWindow(ctx context.Context, own uint64, at image.Point) (where image.Point, inside bool, err error) {
	err = k.Follower(func(f capture.Follower, followed capture.WindowStream) error {
		w, found, err := f.WindowAt(ctx, at, own)
		inside = found && followed != nil && w.ID == followed.Window().ID && at.In(w.Rect)
		where = at.Sub(w.Rect.Min)
		return err
	})
	return where, inside, err
}

// readAt reads the square of so many pixels around a place of the desktop, once, as far as it lies
// there.
func (k *Keys) readAt(ctx context.Context, at image.Point, side int) (analysis.Spot, error) {
	var f capture.Frame
	err := k.Use(func(b capture.Backend) (err error) {
		f, err = capture.ReadSquare(ctx, b, at, side)
		return err
	})
	if err != nil {
		return analysis.Spot{}, err
	}
	p := pictures.Pixels(&f)
	if k.SpaceAt != nil {
		p.Space = k.SpaceAt(ctx, at)
	}
	return analysis.ReadArea(p, image.Rectangle{Max: f.Size})
}
