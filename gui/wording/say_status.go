package wording

import (
	"time"

	"app.tonedesk/capture"
)

// SayStatus says how the watched source does, in a full and a short form. age is how long
// the state has lasted; while frozen, how old the held picture is.
func SayStatus(state capture.State, frozen bool, age time.Duration) (full, short string) {
	if frozen {
		return "Frozen, " + Age(age) + " old", "Frozen"
	}
	switch state {
	case capture.Waiting:
		return "Waiting for a picture", "Waiting"
	case capture.Live:
		return "Live", "Live"
	case capture.Unchanged:
		return "Unchanged for " + Age(age), "Unchanged"
	case capture.Hidden:
		return "Hidden for " + Age(age), "Hidden"
	case capture.Gone:
		return "Gone for " + Age(age), "Gone"
	case capture.NotAnswering:
		return "Not answering for " + Age(age), "Not answering"
	}
	return "State unknown", "Unknown"
}

// SaySource says what size the watched picture has and how often it is looked at.
func SaySource(width, height int, perSecond float64) string {
	return SizeSay(width, height) + " · " + RateSay(perSecond)
}
