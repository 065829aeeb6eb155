package wording

import (
	"cmp"
	"errors"
	"strconv"
	"strings"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// SayBarred says why a still can't be marked.
func SayBarred(err error) string {
	if errors.Is(err, stills.ErrHeld) {
		return language.Say("Another window writes notes on this still, so this one only shows it.")
	}
	return ExplainWriting("write notes on this still", err)
}

// SayFullName says that a name has as many letters as it may.
func SayFullName(most int) string {
	return language.Say("A name has at most %s characters.", strconv.Itoa(most))
}

// SayFullNote says the same of a note.
func SayFullNote(most int) string {
	return language.Say("A note has at most %s characters.", strconv.Itoa(most))
}

// SayFullStill says that the notes of a still have as many letters as they may.
func SayFullStill() string {
	return language.Say("The notes of a still have at most %s characters together. Shorten some, or keep the picture as another still.", strconv.Itoa(notes.MostLetters))
}

// TimeSay returns a point in time, to the minute.
func TimeSay(at time.Time) string { return at.Local().Format("2006-01-02 15:04") }

// SayNotes says how many notes there are; "" for none.
func SayNotes(count int) string {
	if count == 0 {
		return ""
	}
	return language.Count(count, "%d"+Nbsp+"note", "%d"+Nbsp+"notes")
}

// SayMeasured says what is painted as light and as shadow on a still, in the window and on
// the sheet: the means with their standard deviation of lightness, how far they are apart, and how the
// shadow's lightest tenth lies to the light's darkest.
func SayMeasured(m notes.Measured) string {
	if m.Light == nil && m.Shadow == nil {
		return language.Say("Paint with Light and Shadow to measure two parts against each other.")
	}
	var parts []string
	if m.Light != nil {
		parts = append(parts, language.Say("Light: %s", saySide(m.Light)))
	}
	if m.Shadow != nil {
		parts = append(parts, language.Say("Shadow: %s", saySide(m.Shadow)))
	}
	if m.Light != nil && m.Shadow != nil {
		parts = append(parts, sayApart(analysis.AsPrinted(m.Tones))+Between()+sayTenths(analysis.AsPrinted(m.Overlap)))
	}
	for i, part := range parts {
		parts[i] = Stopped(part)
	}
	return strings.Join(parts, " ")
}

func saySide(s *analysis.Spot) string {
	return language.Say("lightness\u00a0%s, value\u00a0%s, varies by\u00a0%s", Tenth(s.Lightness), Tenth(s.Value), Tenth(s.Spread))
}

// sayApart says how far light and shadow are apart; below 0 they are the other way round.
func sayApart(tones float64) string {
	switch {
	case tones < 0:
		return language.Say("The other way round: the light is %s darker than the shadow", SayTones(-tones))
	case tones == 0:
		return language.Say("Light and shadow have the same value")
	}
	return language.Say("%s apart", SayTones(tones))
}

// sayTenths says how the shadow's lightest tenth lies to the light's darkest.
func sayTenths(overlap float64) string {
	switch {
	case overlap > 0:
		return language.Say("they overlap, the shadow's lightest tenth is %s lighter than the light's darkest tenth", SayTones(overlap))
	case overlap < 0:
		return language.Say("the shadow's lightest tenth is %s darker than the light's darkest tenth", SayTones(-overlap))
	}
	return language.Say("the shadow's lightest tenth is as light as the light's darkest tenth")
}

// SayOver says that the stills take more room than they may, and what would have to go.
func SayOver(over stills.Clearing) string {
	words := language.Say("The stills take %s, more than the %s that they may.", BytesSay(over.Used), BytesSay(over.Limit))
	if len(over.Removals) == 0 {
		return language.Say("%s There is nothing older to remove. Raise the limit in the settings.", words)
	}
	trash := 0
	for _, r := range over.Removals {
		if r.InTrash {
			trash++
		}
	}
	what := language.Say("%s\u00a0of the oldest", strconv.Itoa(len(over.Removals)-trash))
	switch trash {
	case 0:
	case len(over.Removals):
		what = language.Say("%s\u00a0from the trash", strconv.Itoa(trash))
	default:
		what = And([]string{language.Say("%s\u00a0from the trash", strconv.Itoa(trash)), what})
	}
	if !over.Enough() {
		return language.Say("%s Removing %s for good is not enough: %s would stay. Raise the limit in the settings.", words, what, BytesSay(over.After))
	}
	return language.Say("%s To keep to that, %s would be removed for good.", words, what)
}

// SayRemoval names a still that would be removed.
func SayRemoval(r stills.Removal) string {
	name := cmp.Or(r.Name, language.Say("without a name"))
	words := TimeSay(r.Time) + ", " + name + ", " + BytesSay(r.Bytes)
	if r.InTrash {
		words = joined(words, language.Say("in the trash"))
	}
	return words
}

// BytesSay returns a number of bytes in the largest unit that leaves at least one, in steps of 1024, as
// is common practice of desktops; whole numbers without a decimal.
func BytesSay(n int64) string {
	const k = 1 << 10
	in := func(unit int64) string {
		if n%unit == 0 {
			return Whole(float64(n / unit))
		}
		return Tenth(float64(n) / float64(unit))
	}
	switch {
	case n >= k*k*k:
		return language.Say("%s\u00a0GB", in(k*k*k))
	case n >= k*k:
		return language.Say("%s\u00a0MB", in(k*k))
	}
	return language.Say("%s\u00a0KB", in(k))
}

// SayProblem says what is wrong with a still, and where it was put.
func SayProblem(p stills.Problem) string {
	return Explain(On("open the still %s", p.ID), p)
}

// sayDamaged says that a still is damaged, and where it lies now.
func sayDamaged(what Phrase, p stills.Problem) string {
	if p.Aside == "" {
		return Cannot(what, "it is damaged", "it could not be set aside and lies where it was")
	}
	return Cannot(what, "it is damaged", On("it was set aside as it is, in %s", p.Aside))
}

// SayKeyFigures says a still's key figures in short: the gaps between its groups in tones,
// dark to light, what they are without, and its murk; "" if it has none.
func SayKeyFigures(f stills.Figures) string {
	if len(f.Gaps) == 0 {
		return ""
	}
	gaps := make([]string, len(f.Gaps))
	for i, gap := range f.Gaps {
		gaps[i] = Tenth(gap)
	}
	said := language.Say("%s\u00a0tones apart", And(gaps))
	if f.GroundShare != nil {
		said = language.Say("%s\u00a0tones apart without the ground", And(gaps))
	}
	if f.Murk != nil {
		said = joined(said, language.Say("murk %s", Percent(*f.Murk)))
	}
	return said
}
