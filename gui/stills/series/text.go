package series

import (
	"slices"
	"time"

	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// Told is how a series is told.
type Told struct {
	Groups    int // as growth.Of takes them
	Rules     growth.Rules
	FromWhite bool // values count from white
}

// Text is what is said and drawn of stills, which were taken out of so many.
func Text(list []stills.Entry, moments []growth.Moment, of int, told Told) wording.GrowthText {
	var times []time.Time
	for _, e := range list {
		times = append(times, e.Time)
	}
	text := wording.SayGrowth(growth.Of(moments, told.Groups, told.Rules), wording.MomentNames(times), told.FromWhite)
	text.About = wording.SayThinned(text.About, len(list), of)
	return text
}

// mostOnSheet is of how many stills the lines on a sheet are (our choice: each takes about half a second
// to be read).
const mostOnSheet = 24

// Grew says how the picture of a still grew, over all stills of its source; nil where there are not two
// that can be read. It may take long.
func Grew(store *stills.Store, id string, asked Asked, told Told) *wording.GrowthText {
	all, _, err := store.List()
	isIt := func(e stills.Entry) bool { return e.ID == id }
	at := slices.IndexFunc(all, isIt)
	if err != nil || at < 0 {
		return nil
	}
	same := Of(all, all[at].Source)
	thin := Thin(same, mostOnSheet, slices.IndexFunc(same, isIt))
	if len(thin) < 2 {
		return nil
	}
	of, moments, err := (&Reader{Store: store}).Read(thin, asked, nil, func(stills.Entry, error) {})
	if err != nil || len(of) < 2 {
		return nil
	}
	text := Text(of, moments, len(same), told)
	return &text
}
