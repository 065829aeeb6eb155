package monitors

import (
	"errors"
	"image"
)

// Monitor is one of the watched display.
type Monitor struct {
	// Name is what it is known by: the name that it gives itself, else that of the output it is
	// plugged into. No two of a list have the same. One line; never empty.
	Name string
	Rect image.Rectangle // in desktop pixels

	key string // by which the system keeps its profile: a property's name, or a device's
}

// ErrNone says that the desktop keeps no profile for a monitor.
var ErrNone = errors.New("no colour profile")

// MostProfile is how much of a profile is read, in bytes: what is longer is handed on cut, one byte
// over 4 MiB, so that whoever reads it sees that it is too long. Our choice.
const MostProfile = 4<<20 + 1

// Most returns the one that most of a part of the desktop lies on; ok is false where it is on none.
func Most(list []Monitor, part image.Rectangle) (m Monitor, ok bool) {
	most := 0
	for _, one := range list {
		on := one.Rect.Intersect(part)
		if area := on.Dx() * on.Dy(); area > most {
			m, most = one, area
		}
	}
	return m, most > 0
}

// Shows reports whether a rectangle is that of one of the monitors, or of all of them: where the
// desktop measures what it shares as it does its monitors, whatever it shares is one of these.
func Shows(list []Monitor, whole image.Rectangle) bool {
	all := image.Rectangle{}
	for _, one := range list {
		if one.Rect == whole {
			return true
		}
		all = all.Union(one.Rect)
	}
	return all == whole
}

// apart gives those of one name the name of their output too, and a number to those that are alike
// even so.
func apart(names, outputs []string) []string {
	count := map[string]int{}
	for _, n := range names {
		count[n]++
	}
	told := make([]string, len(names))
	taken := map[string]bool{}
	for i, n := range names {
		if n == "" || count[n] > 1 && outputs[i] != n {
			n = trimmed(n + " " + outputs[i])
		}
		for n == "" || taken[n] {
			n += "+"
		}
		told[i], taken[n] = n, true
	}
	return told
}
