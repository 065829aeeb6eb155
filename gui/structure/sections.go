package structure

import (
	"slices"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// section is a part of the list of local colours.
type section uint8

const (
	sureOnes section = iota // with their verdicts: those set by hand, kept, or found with confidence
	unsureOnes
	refusedOnes
	sectionCount
)

// stays is a row that stays where it was pressed, until it is left: rows that move up at a press
// would have the next press do something else.
type stays struct {
	track int
	in    section
}

// listed is a row of the list.
type listed struct {
	item Item
	text wording.FamilyRowText
}

// sectionOf is where a track belongs.
func (l *LocalColours) sectionOf(r live.Track) section {
	if r.ID == l.stays.track && r.ID != 0 {
		return l.stays.in
	}
	return l.verdictOf(r)
}

// verdictOf is where a track belongs by what is known of it now.
func (l *LocalColours) verdictOf(r live.Track) section {
	switch j, ok := l.Steps.Now().JudgedAs(r.ID); {
	case ok && !j.Kept:
		return refusedOnes
	case ok || r.Sure:
		return sureOnes
	}
	return unsureOnes
}

// left lets a row go where it belongs now, and reports whether it stayed elsewhere.
func (l *LocalColours) left(i Item) bool {
	if i.Track == 0 || i.Track != l.stays.track {
		return false
	}
	l.stays = stays{}
	return true
}

// sections are the rows of the list.
func (l *LocalColours) sections() (all [sectionCount][]listed) {
	now := l.Steps.Now()
	for i, r := range l.Manual {
		text := wording.SayLostFamily(i)
		if r.Err == nil {
			moved := i < len(now.Families) && now.Families[i].Moved()
			text = wording.SayManualFamily(i, r.Family, moved, now.Shade)
		}
		all[sureOnes] = append(all[sureOnes], listed{Item{Hand: i}, text})
	}
	for _, r := range l.tracker.Tracks() {
		in := l.sectionOf(r)
		all[in] = append(all[in], listed{Item{Track: r.ID}, l.textOf(r, in)})
	}
	return all
}

// textOf is what the row of a track says.
func (l *LocalColours) textOf(r live.Track, in section) wording.FamilyRowText {
	now := l.Steps.Now()
	j, judged := now.JudgedAs(r.ID)
	switch {
	case judged && !j.Kept:
		return wording.SayRefusedFamily(r.Family)
	case in == unsureOnes:
		return wording.SayUnsureFamily(r.Family, judged)
	case r.Index < 0 && judged:
		at := slices.IndexFunc(l.kept, func(k live.FollowedReading) bool { return k.Track == r.ID })
		if at < 0 || l.kept[at].Err != nil || !r.ReadsAs(l.kept[at].Family) {
			return wording.SayAbsentFamily(r.Family)
		}
		return wording.SayFollowedFamily(l.kept[at].Family, now.Shade)
	}
	return wording.SayFoundFamily(r.Family, judged, now.Shade)
}

// FoundList are the families that were found and are listed with a verdict, in the order of the
// list.
func (l *LocalColours) FoundList() (list []families.Family) {
	for _, r := range l.tracker.Tracks() {
		if l.sectionOf(r) == sureOnes {
			list = append(list, r.Family)
		}
	}
	return list
}

// most is how many rows a section has: the largest are listed, and of what is folded all that a
// picture can have.
var most = [sectionCount]int{setup.MaxManualFamilies + 12, 63, 63}
