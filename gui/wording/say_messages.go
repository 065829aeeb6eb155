package wording

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/gui/language"
)

// What lies over the picture as a chip: a few words, without a stop.
const (
	SayMoved   language.Words = "Picture moved"
	SayFlashes language.Words = "Flashes: shown 3 times a second"
)

// What is said of what lies on a picture that comes back, or no longer.
const (
	SayWentAlong language.Words = "The picture has another size: its spots went along"
	SayOtherSize language.Words = "It has another size: place the spots again"
)

// longestName is how many letters of a file's name a chip shows (our choice).
const longestName = 20

// SayBeingRead says that a picture file is still being read.
func SayBeingRead(path string) string {
	name := []rune(filepath.Base(path))
	if len(name) > longestName {
		name = append(name[:longestName-1], '…')
	}
	return language.Say("Reading %s", Quote(string(name)))
}

// SayUnreadable says in short that what is watched can't be read; screen is a part of the
// screen, else it is a file.
func SayUnreadable(screen bool, now capture.Status) string {
	switch {
	case !screen:
		return language.Say("File can't be read")
	case now.State == capture.NotAnswering:
		return language.Say("Screen does not answer")
	case errors.Is(now.Err, capture.ErrLocked):
		return language.Say("Screen is locked")
	}
	return language.Say("Screen can't be read")
}

// SayCoveredPart says how much of the picture is covered, a share in [0, 1].
func SayCoveredPart(share float64) string {
	return language.Say("Covered: %s not counted", Percent(share))
}

// SayFrozen says for how long the picture is held: "Frozen 0:42", with hours from one on.
func SayFrozen(since time.Duration) string {
	s := int(max(since, 0) / time.Second)
	clock := fmt.Sprintf(language.Say("%d:%02d"), s/60, s%60)
	if s >= 3600 {
		clock = fmt.Sprintf(language.Say("%d:%02d:%02d"), s/3600, s/60%60, s%60)
	}
	return language.Say("Frozen %s", clock)
}

// Lying is what lies on a picture.
type Lying struct {
	Spots                                  int
	Focus, Out, Colours, Borders, ToTarget bool // where the eye should go, left-out parts, what was said of local colours, borders by hand, a target
}

// SayForgotten says what of it was taken away: something was.
func SayForgotten(l Lying) string {
	var all []string
	for _, part := range []struct {
		there bool
		words string
	}{{l.Spots > 0, language.Count(l.Spots, "%d spot", "%d spots")}, {l.Focus, language.Say("focus")}, {l.Out, language.Say("left-out parts")}, {l.Colours, language.Say("local colours")}, {l.Borders, language.Say("borders")}, {l.ToTarget, language.Say("target")}} {
		if part.there {
			all = append(all, part.words)
		}
	}
	return Capitalised(language.Say("%s forgotten", strings.Join(all, comma())))
}

// SayCleared says how many spots were taken away.
func SayCleared(spots int) string {
	return language.Count(spots, "%d spot cleared", "%d spots cleared")
}
