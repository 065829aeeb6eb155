package pointer

import (
	"image"
	"time"
)

// asideMost is how long what needs the picture without the chip waits for it at most, where it is
// frozen or not read. Our choice: the chip's place isn't counted then.
const asideMost = time.Second

// Aside has act done once what is watched is shown without the chip, which stays away until act says
// that it is done; where none lies on it that is at once.
func (r *Reader) Aside(act func(done func())) {
	r.asides++
	r.stale.Store(true)
	r.waits = append(r.waits, func() {
		act(func() {
			r.asides--
			r.stale.Store(true)
		})
	})
	if len(r.lain.over(r.Watched())) == 0 {
		r.parted()
		return
	}
	r.Later(asideMost, r.parted)
}

// parted does what waits for the chip to be away.
func (r *Reader) parted() {
	waits := r.waits
	r.waits = nil
	for _, do := range waits {
		do()
	}
}

// chipAt is where the chip lies that belongs to a look: nowhere while it is to stay away.
func (r *Reader) chipAt(l look, f face, screens []image.Rectangle) (box image.Rectangle) {
	if r.asides > 0 {
		return box
	}
	box, _ = lie(l.at, f.size(), int(gap*float64(r.Host.Mirror.Scale())), screenAt(l.at, screens), r.Spots())
	return box
}
