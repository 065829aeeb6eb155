package wording

import (
	"cmp"
	"time"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
)

// SayWhen returns a point in time to the minute, as it is said at another: "today 22:01".
func SayWhen(at, now time.Time) string {
	at, now = at.Local(), now.Local()
	day := func(t time.Time) string { return t.Format("2006-01-02") }
	switch day(at) {
	case day(now):
		return language.Say("today %s", at.Format("15:04"))
	case day(now.AddDate(0, 0, -1)):
		return language.Say("yesterday %s", at.Format("15:04"))
	}
	return TimeSay(at)
}

// SayKept says a still's name and its time in two short lines; one without a name says in the
// second how many notes there are on it.
func SayKept(m stills.Meta, now time.Time) (name, at string) {
	when := SayWhen(m.Time, now)
	if m.Name == "" {
		return when, cmp.Or(SayNotes(m.Notes.Count), language.Say("no name"))
	}
	return m.Name, when
}
