package wording

import (
	"strconv"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/gui/language"
)

// SourceState is how the watched source does, for the words of its state.
type SourceState struct {
	State  capture.State
	Frozen bool
	Partly bool          // our own window covers a part
	Age    time.Duration // how long the state has lasted; while frozen, how old the picture is
	Rate   float64       // pictures asked for a second
	Width  int           // of the picture, in pixels; 0 where none was seen
	Height int
}

// SayState says how the source does: with the picture's size, without it, and in a word.
func (s SourceState) SayState() [3]string {
	long, word := s.words()
	return s.sized(long, word)
}

// sized puts the picture's size before the words.
func (s SourceState) sized(long, word string) [3]string {
	if s.Width <= 0 {
		return [3]string{long, long, word}
	}
	return [3]string{SizeSay(s.Width, s.Height) + ", " + long, long, word}
}

// SayNothingChosen says that nothing is watched as yet, in the forms of SayState.
func SayNothingChosen() [3]string {
	return [3]string{language.Say("choose below"), language.Say("choose below"), language.Say("choose")}
}

func (s SourceState) words() (long, word string) {
	if s.Frozen {
		return language.Say("frozen, %s old", frozenAge(s.Age)), language.Say("frozen")
	}
	switch s.State {
	case capture.Waiting:
		return language.Say("waiting"), language.Say("waiting")
	case capture.Hidden:
		return language.Say("covered"), language.Say("covered")
	case capture.Minimised:
		return SayMinimised.String(), SayMinimised.String()
	case capture.Gone:
		if s.Age < time.Second {
			return language.Say("lost just now"), language.Say("lost")
		}
		return language.Say("lost %s ago", Age(s.Age)), language.Say("lost")
	case capture.NotAnswering:
		return language.Say("not answering"), language.Say("no answer")
	}
	switch {
	case s.Partly:
		return language.Say("partly covered"), language.Say("covered")
	case s.State == capture.Unchanged && s.Age < time.Second:
		return language.Say("unchanged"), language.Say("unchanged")
	case s.State == capture.Unchanged:
		return language.Say("unchanged for %s", Age(s.Age)), language.Say("unchanged")
	}
	return language.Say("live, %s", RateSay(s.Rate)), language.Say("live")
}

// frozenAge is the age of a picture that is held: to the second at first, since that is what one
// wants to know of it.
func frozenAge(age time.Duration) string {
	if age >= time.Second && age < time.Minute {
		return language.Say("%s\u00a0s", strconv.Itoa(int(age/time.Second)))
	}
	return Age(age)
}

// SayStill says of a still that is shown when it was kept, seen from now.
func (s SourceState) SayStill(kept, now time.Time) [3]string {
	return s.sized(language.Say("still, %s", DaySay(kept, now)), language.Say("still"))
}

// DaySay says when something was, seen from now: "today 22:01", else with its day.
func DaySay(at, now time.Time) string {
	at, now = at.Local(), now.Local()
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return language.Say("today\u00a0%s", at.Format("15:04"))
	}
	return at.Format(time.DateOnly)
}
