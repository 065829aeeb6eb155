package wording

import (
	"cmp"
	"errors"
	"strconv"
	"strings"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// SayBarred says why a still can't be marked.
func SayBarred(err error) string {
	if errors.Is(err, stills.ErrHeld) {
		return "Another window writes notes on this still, so this one only shows it."
	}
	return ExplainWriting("write notes on this still", err)
}

// SayFull says that a name or a note has as many letters as it may.
func SayFull(what string, most int) string {
	return "A " + what + " has at most " + strconv.Itoa(most) + " characters."
}

// SayFullStill says that the notes of a still have as many letters as they may.
func SayFullStill() string {
	return "The notes of a still have at most " + strconv.Itoa(notes.MostLetters) + " characters together. Shorten some, or keep the picture as another still."
}

// TimeSay returns a point in time, to the minute.
func TimeSay(at time.Time) string { return at.Local().Format("2006-01-02 15:04") }

// SayNotes says how many notes there are; "" for none.
func SayNotes(count int) string {
	switch count {
	case 0:
		return ""
	case 1:
		return "1" + Nbsp + "note"
	}
	return strconv.Itoa(count) + Nbsp + "notes"
}

// SayMeasured says what is painted as light and as shadow on a still, in the window and on
// the sheet: the means with their standard deviation of lightness, how far they are apart, and how the
// shadow's lightest tenth lies to the light's darkest.
func SayMeasured(m notes.Measured) string {
	if m.Light == nil && m.Shadow == nil {
		return "Paint with Light and Shadow to measure two parts against each other."
	}
	var parts []string
	if m.Light != nil {
		parts = append(parts, "Light: "+saySide(m.Light))
	}
	if m.Shadow != nil {
		parts = append(parts, "Shadow: "+saySide(m.Shadow))
	}
	if m.Light != nil && m.Shadow != nil {
		parts = append(parts, sayApart(analysis.AsPrinted(m.Tones))+"; "+sayTenths(analysis.AsPrinted(m.Overlap)))
	}
	return strings.Join(parts, ". ") + "."
}

func saySide(s *analysis.Spot) string {
	return "lightness" + Nbsp + Tenth(s.Lightness) + ", value" + Nbsp + Tenth(s.Value) + ", varies by" + Nbsp + Tenth(s.Spread)
}

// sayApart says how far light and shadow are apart; below 0 they are the other way round.
func sayApart(tones float64) string {
	switch {
	case tones < 0:
		return "The other way round: the light is " + SayTones(-tones) + " darker than the shadow"
	case tones == 0:
		return "Light and shadow have the same value"
	}
	return SayTones(tones) + " apart"
}

// sayTenths says how the shadow's lightest tenth lies to the light's darkest.
func sayTenths(overlap float64) string {
	const lies = "the shadow's lightest tenth is "
	switch {
	case overlap > 0:
		return "they overlap, " + lies + SayTones(overlap) + " lighter than the light's darkest tenth"
	case overlap < 0:
		return lies + SayTones(-overlap) + " darker than the light's darkest tenth"
	}
	return lies + "as light as the light's darkest tenth"
}

// SayOver says that the stills take more room than they may, and what would have to go.
func SayOver(over stills.Clearing) string {
	words := "The stills take " + BytesSay(over.Used) + ", more than the " + BytesSay(over.Limit) + " that they may. "
	const raise = "Raise the limit in the settings."
	if len(over.Removals) == 0 {
		return words + "There is nothing older to remove. " + raise
	}
	trash := 0
	for _, r := range over.Removals {
		if r.InTrash {
			trash++
		}
	}
	what := strconv.Itoa(len(over.Removals)-trash) + Nbsp + "of the oldest"
	switch trash {
	case 0:
	case len(over.Removals):
		what = strconv.Itoa(trash) + Nbsp + "from the trash"
	default:
		what = strconv.Itoa(trash) + Nbsp + "from the trash and " + what
	}
	if !over.Enough() {
		return words + "Removing " + what + " for good is not enough: " + BytesSay(over.After) + " would stay. " + raise
	}
	return words + "To keep to that, " + what + " would be removed for good."
}

// SayRemoval names a still that would be removed.
func SayRemoval(r stills.Removal) string {
	name := cmp.Or(r.Name, "without a name")
	words := TimeSay(r.Time) + ", " + name + ", " + BytesSay(r.Bytes)
	if r.InTrash {
		words += ", in the trash"
	}
	return words
}

// BytesSay returns a number of bytes in the largest unit that leaves at least one.
func BytesSay(n int64) string {
	const k = 1 << 10
	switch {
	case n >= k*k*k:
		return Tenth(float64(n)/(k*k*k)) + Nbsp + "GiB"
	case n >= k*k:
		return Tenth(float64(n)/(k*k)) + Nbsp + "MiB"
	}
	return Tenth(float64(n)/k) + Nbsp + "KiB"
}

// SayProblem says what is wrong with a still, and where it was put.
func SayProblem(p stills.Problem) string {
	return Explain(On("open the still", p.ID), p)
}

// sayDamaged says that a still is damaged, and where it lies now.
func sayDamaged(what Phrase, p stills.Problem) string {
	if p.Aside == "" {
		return Cannot(what, "it is damaged", "it could not be set aside and lies where it was")
	}
	return Cannot(what, "it is damaged", On("it was set aside as it is, in", p.Aside))
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
	said := strings.Join(gaps, " and ") + Nbsp + "tones apart"
	if f.GroundShare != nil {
		said += " without the ground"
	}
	if f.Murk != nil {
		said += ", murk " + Percent(*f.Murk)
	}
	return said
}
