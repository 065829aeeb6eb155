package wording

import "app.tonedesk/gui/language"

// What is said of pictures that are kept by themselves.
const (
	SayKeepsNoMore  language.Words = "No longer kept by itself"
	SayItselfTooBig language.Words = "A still takes more room than those kept by themselves may: give them more in the settings"
)

// SayEvery says every how many minutes something is done.
func SayEvery(minutes int) string {
	if minutes%60 == 0 {
		return language.Count(minutes/60, "every %d"+Nbsp+"hour", "every %d"+Nbsp+"hours")
	}
	return language.Count(minutes, "every %d"+Nbsp+"minute", "every %d"+Nbsp+"minutes")
}

// SayKeepsItself says, as a chip, that the picture is kept every so many minutes while it changes, or
// why that rests.
func SayKeepsItself(minutes int, frozen bool) string {
	if frozen {
		return language.Say("Keeps none while frozen")
	}
	return language.Say("Keeps %s", SayEvery(minutes))
}
