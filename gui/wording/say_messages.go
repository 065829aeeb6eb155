package wording

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"app.tonedesk/capture"
)

// What lies over the picture as a chip: a few words, without a stop.
const (
	SayMoved   = "Picture moved"
	SayFlashes = "Flashes: shown 3 times a second"
)

// What is said of what lies on a picture that comes back, or no longer.
const (
	SayWentAlong = "The picture has another size: its spots went along"
	SayOtherSize = "It has another size: place the spots again"
)

// longestName is how many letters of a file's name a chip shows (our choice).
const longestName = 20

// SayBeingRead says that a picture file is still being read.
func SayBeingRead(path string) string {
	name := []rune(filepath.Base(path))
	if len(name) > longestName {
		name = append(name[:longestName-1], '…')
	}
	return "Reading " + Quote(string(name))
}

// SayUnreadable says in short that what is watched can't be read; screen is a part of the
// screen, else it is a file.
func SayUnreadable(screen bool, state capture.State) string {
	switch {
	case !screen:
		return "File can't be read"
	case state == capture.NotAnswering:
		return "Screen does not answer"
	}
	return "Screen can't be read"
}

// SayCoveredPart says how much of the picture is covered, a share in [0, 1].
func SayCoveredPart(share float64) string {
	return "Covered: " + Percent(share) + " not counted"
}

// SayFrozen says for how long the picture is held: "Frozen 0:42", with hours from one on.
func SayFrozen(since time.Duration) string {
	s := int(max(since, 0) / time.Second)
	if s >= 3600 {
		return fmt.Sprintf("Frozen %d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("Frozen %d:%02d", s/60, s%60)
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
	}{{l.Spots == 1, "1 spot"}, {l.Spots > 1, strconv.Itoa(l.Spots) + " spots"}, {l.Focus, "focus"}, {l.Out, "left-out parts"}, {l.Colours, "local colours"}, {l.Borders, "borders"}, {l.ToTarget, "target"}} {
		if part.there {
			all = append(all, part.words)
		}
	}
	said := strings.Join(all, ", ") + " forgotten"
	return strings.ToUpper(said[:1]) + said[1:]
}

// SayCleared says how many spots were taken away.
func SayCleared(spots int) string {
	if spots == 1 {
		return "1 spot cleared"
	}
	return strconv.Itoa(spots) + " spots cleared"
}
