package pointer

import (
	"context"
	"errors"
	"image"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/wording"
)

// run looks again and again until ctx ends, on a goroutine of its own. What is as before costs the
// window nothing.
func (r *Reader) run(ctx context.Context) {
	var last look
	var was image.Point
	var c chip
	tick := time.NewTicker(every)
	defer tick.Stop()
	defer func() {
		_ = c.Hide() // with its connection it goes anyway
		r.lain.went(image.Rectangle{}, time.Now())
		r.Soon(func() { r.hide(true) })
	}()
	for failed := false; ; {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		r.looks.Add(1)
		now, err := read(ctx, r.Acts, func(at image.Point) bool {
			return !r.overMirror(at, at != was) && !square(at).Overlaps(c.box)
		})
		if err != nil {
			if ctx.Err() == nil && !failed {
				r.fail(err)
			}
			failed, last = true, look{}
			r.put(&c, face{}, image.Rectangle{})
			continue
		}
		was = now.at
		if r.away.Load() {
			last = look{}
			r.put(&c, face{}, image.Rectangle{})
			continue
		}
		stale := r.stale.Swap(false)
		if now.same(last) && !stale && !failed {
			continue
		}
		last, failed = now, false
		r.pass(ctx, &c, now)
	}
}

// overMirror reports whether the pointer, now at a place, or the key cursor is over the mirror. The
// toolkit does not tell that the pointer has left the window: so here it is noted.
func (r *Reader) overMirror(at image.Point, moved bool) bool {
	if own := r.own.Load(); moved && (own == nil || !at.In(*own)) {
		r.away.Store(false)
	}
	return r.away.Load()
}

// pass has a look shown, and the chip where it then belongs.
func (r *Reader) pass(ctx context.Context, c *chip, now look) {
	screens, err := native.Screens()
	if err != nil {
		screens = nil // then there is no telling where the chip has room
	}
	var f face
	var box image.Rectangle
	r.OnWindow(func() {
		if ctx.Err() == nil {
			f, box = r.show(now, screens)
		}
	})
	r.put(c, f, box)
}

// put has the chip somewhere. If it can't be shown the painter is told so, once.
func (r *Reader) put(c *chip, f face, box image.Rectangle) {
	if c.failed {
		return
	}
	err := c.put(f, box)
	r.lain.went(c.box, time.Now())
	if err != nil {
		c.failed = true
		fyne.LogError("showing the chip at the pointer", err)
		r.OnWindow(func() { r.Messages.Fail(wording.ExplainChip(err)) })
	}
}

// fail says why there is no reading. Where there never can be one it is off from now on.
func (r *Reader) fail(err error) {
	fyne.LogError("reading under the pointer", err)
	passes := errors.Is(err, capture.ErrNotAnswering) || errors.Is(err, capture.ErrDisconnected) || errors.Is(err, capture.ErrOutside)
	r.OnWindow(func() {
		r.forget()
		r.Messages.Fail(wording.Explain("read under the pointer", err))
		if !passes {
			r.Off()
		}
	})
}
