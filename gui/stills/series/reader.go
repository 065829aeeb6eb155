package series

import (
	"sync"

	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/stills"
)

// Reader reads stills one after another, and none twice that has stayed as it was. Its methods may be
// called from any goroutine; one of them reads at a time.
type Reader struct {
	Store *stills.Store

	mu    sync.Mutex
	asked Asked // of all that is known
	known map[string]known
}

// known is what was measured of a still.
type known struct {
	of  stills.Entry
	now growth.Moment
}

// Read measures stills in their order. Ones that can't be read are told to fail and left out; without
// fail the first ends it. Before each, goOn is asked with how many are done; it may be nil. The stills
// that were read come back beside their moments.
func (r *Reader) Read(list []stills.Entry, asked Asked, goOn func(done int) bool, fail func(stills.Entry, error)) (of []stills.Entry, moments []growth.Moment, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.known == nil || asked != r.asked {
		r.known, r.asked = map[string]known{}, asked
	}
	for i, e := range list {
		if goOn != nil && !goOn(i) {
			return of, moments, nil
		}
		k, ok := r.known[e.ID]
		if !ok || !k.of.Unchanged(e) {
			still, err := r.Store.Open(e.ID)
			if err != nil && fail == nil {
				return of, moments, err
			}
			if err != nil {
				fail(e, err)
				continue
			}
			k = known{e, asked.Still(still)}
			r.known[e.ID] = k
		}
		of, moments = append(of, e), append(moments, k.now)
	}
	return of, moments, nil
}
