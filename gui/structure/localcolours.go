package structure

import (
	"image"
	"slices"
	"time"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// LocalColours owns the families (local colours with a light and a shadow side) of the
// picture: those found in it, what the painter said of them, and what those set by hand read.
// It is used on the Fyne goroutine only.
type LocalColours struct {
	*host.Host
	Search   *live.Search
	Focus    *Focuses
	Manual   []live.FamilyReading // what those set by hand read
	tracker  live.Tracker
	judged   []setup.Judged         // that the tracker knows of
	kept     []live.FollowedReading // what those read that are kept and not found now
	asked    []live.Followed        // to be read so
	stays    stays
	pointed  Item     // that is outlined
	scrolled []func() // tell the rows that they lie elsewhere
	lit      lighting
	late     func() // keeps what is missing from being dropped, if that waits
	byHand
	LocalActs
}

// LocalActs are what the owner of local colours asks of the window.
type LocalActs struct {
	Ask      func(Side)                      // takes the next click for a side, or no longer
	Asked    func() Side                     // what it is taken for now
	MakePair func(light, shadow setup.Place) // makes two places the spots A and B
	GoOnFrom func(colour.RGB)                // shows what can be painted next to a colour
	Refresh  func()                          // has the last picture shown again
	Keep     func([]setup.Judged)            // keeps it in the still that is open, if one is
	// KeepFocus keeps there where the eye should go.
	KeepFocus func([]setup.Place)
}

// Item is a local colour of the list: one that is followed, or one set by hand.
type Item struct {
	Track int // of the tracker; 0 for one set by hand
	Hand  int // its place among these
}

// none is no item.
var none = Item{Hand: -1}

// NewLocalColours returns the owner of local colours; none are known yet.
func NewLocalColours(h *host.Host, acts LocalActs) *LocalColours {
	l := &LocalColours{Host: h, LocalActs: acts, pointed: none, late: func() {}}
	l.Search = live.NewSearch(func(f live.Found) { l.OnWindow(func() { l.TakeFound(f) }) }, host.LogMistake)
	l.Focus = &Focuses{Host: h, colours: l, reveal: func() {}}
	l.Search.Focused = func(f live.Focused) { l.OnWindow(func() { l.Focus.take(f) }) }
	return l
}

// missingMost is how long what was found stays without being found again, where no other
// search comes: two searches' time (our choice).
const missingMost = time.Second

// TakeFound takes the families that were found, if what they were found in is still watched.
func (l *LocalColours) TakeFound(f live.Found) {
	if f.Source != l.Steps.Now().Source {
		return // of what was watched before
	}
	l.late()
	l.late = func() {}
	if l.tracker.Take(f) {
		l.late = l.Later(missingMost, func() {
			if l.tracker.Drop() {
				l.tell()
			}
		})
	}
	l.follow()
	l.tell()
}

// TakeManual takes what the families set by hand read, and reports whether light and shadow
// changed sides in one.
func (l *LocalColours) TakeManual(hand []live.FamilyReading) (turned bool) {
	turned = !slices.EqualFunc(l.Manual, hand, func(a, b live.FamilyReading) bool { return a.Turned == b.Turned })
	l.Manual = append(l.Manual[:0], hand...)
	return turned
}

// TakeKept takes what those read that are kept and not found now.
func (l *LocalColours) TakeKept(kept []live.FollowedReading) { l.kept = append(l.kept[:0], kept...) }

// Followed are those that are to be read so. The list is never written to.
func (l *LocalColours) Followed() []live.Followed { return l.asked }

// follow has those read that are kept and not found now, where they have gone to.
func (l *LocalColours) follow() {
	var asked []live.Followed
	for _, r := range l.tracker.Tracks() {
		if j, ok := l.Steps.Now().JudgedAs(r.ID); ok && j.Kept && r.Index < 0 {
			asked = append(asked, live.Followed{Track: r.ID, Family: setup.Family{Light: setup.Place{At: r.Light}, Shadow: setup.Place{At: r.Shadow}}})
		}
	}
	if !slices.Equal(asked, l.asked) {
		l.asked = asked
		l.Refresh()
	}
}

// Forget forgets what was found, since something else is watched.
func (l *LocalColours) Forget() {
	l.tracker.Forget()
	l.judged, l.asked, l.stays = nil, nil, stays{}
	l.askLight()
	l.ShowOutline()
	l.ShowLight()
	l.Focus.forget()
}

// Renew takes over what the painter, undo or a still says of local colours now.
func (l *LocalColours) Renew() {
	l.Focus.renew()
	now := l.Steps.Now().Judged
	if slices.Equal(now, l.judged) {
		return
	}
	l.judged = now
	l.tracker.Judge(now)
	l.follow()
	l.Keep(l.Judged())
	l.tell()
}

// Adopt returns what a still that was opened says of local colours, to be part of the setup.
func (l *LocalColours) Adopt(list []setup.Judged) []setup.Judged {
	l.judged = l.tracker.Adopt(list)
	return l.judged
}

// Judged is what the painter said of local colours, with the colours and places of now.
func (l *LocalColours) Judged() (list []setup.Judged) {
	for _, j := range l.Steps.Now().Judged {
		if r := l.tracker.Track(j.Track); r != nil {
			j = r.Judge(j.Kept)
		}
		list = append(list, j)
	}
	return list
}

// judge has the last word on a local colour: it is kept, or it is none. Said once more, it is
// left to the search again.
func (l *LocalColours) judge(i Item, kept bool) {
	now, r := l.Steps.Now(), l.tracker.Track(i.Track)
	if r == nil {
		return
	}
	l.stays = stays{i.Track, l.sectionOf(*r)}
	if j, ok := now.JudgedAs(i.Track); ok && (j.Kept == kept || !j.Kept) {
		l.Steps.Change(now.WithoutJudged(i.Track), "")
		return
	}
	l.Steps.Change(now.WithJudged(r.Judge(kept)), "")
}

// refuse says that an item is no local colour; one set by hand is taken away.
func (l *LocalColours) refuse(i Item) {
	if i.Track == 0 {
		l.remove(i.Hand)
		return
	}
	l.judge(i, false)
}

// Point outlines an item of the list in the mirror.
func (l *LocalColours) Point(i Item) {
	l.pointed = i
	l.ShowOutline()
}

// PointAtNone outlines none.
func (l *LocalColours) PointAtNone() { l.Point(none) }

// Scrolled says that another row lies under the pointer now, or none.
func (l *LocalColours) Scrolled() {
	for _, tell := range l.scrolled {
		tell()
	}
}

// ShowOutline outlines the family that is pointed at, if it was found in the picture of now.
func (l *LocalColours) ShowOutline() {
	m, f := l.Mirror, l.tracker.Last()
	r := l.tracker.Track(l.pointed.Track)
	if r == nil || r.Index < 0 || f.Origin != m.Bounds().Min {
		m.SetOverlay(widgets.OverlayOutline, nil)
		return
	}
	m.SetOverlay(widgets.OverlayOutline, outlineOf(f, r.Index, m.Bounds(), l.Lay(), m.Asked() == ""))
}

// outlineOf outlines a family that was found, with its accents and where its lines vanish, and says
// in a line what that is, but where the mirror says something else.
func outlineOf(f live.Found, index int, whole image.Rectangle, lay overlay.Lay, said bool) *image.RGBA {
	img, own := overlay.Outline(f.Found, index, whole, lay), families.FormsOf(f.Forms, index)
	overlay.Along(img, own, whole, lay)
	if full, short := wording.SayPointed(own); said {
		overlay.Words(img, liesLow(own), lay.Unit, full, short)
	}
	return img
}

// liesLow reports whether most of some forms lies in the lower half of the picture: words at its
// foot would cover it.
func liesLow(forms []families.Form) bool {
	low := 0.0
	for _, f := range forms {
		low += f.Share * (f.Y - 0.5)
	}
	return low > 0
}

// choose makes the sides of an item the spots A and B.
func (l *LocalColours) choose(i Item) {
	if byHand := l.Steps.Now().Families; i.Track == 0 && i.Hand >= 0 && i.Hand < len(byHand) {
		l.MakePair(byHand[i.Hand].Light, byHand[i.Hand].Shadow)
	} else if r := l.tracker.Track(i.Track); r != nil {
		l.MakePair(setup.Place{At: r.Light}, setup.Place{At: r.Shadow})
	}
}
