package wording

// What is said of pictures that are kept by themselves.
const (
	SayKeepsNoMore  = "No longer kept by itself"
	SayItselfTooBig = "A still takes more room than those kept by themselves may: give them more in the settings"
)

// SayEvery says every how many minutes something is done.
func SayEvery(minutes int) string {
	if minutes%60 == 0 {
		return "every " + counted(minutes/60, "hour", "hours")
	}
	return "every " + counted(minutes, "minute", "minutes")
}

// SayKeepsItself says, as a chip, that the picture is kept every so many minutes while it changes, or
// why that rests.
func SayKeepsItself(minutes int, frozen bool) string {
	if frozen {
		return "Keeps none while frozen"
	}
	return "Keeps " + SayEvery(minutes)
}
