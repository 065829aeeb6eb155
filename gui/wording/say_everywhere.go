package wording

import (
	"errors"
	"slices"
	"strings"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xconn"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
)

// What is said of the keys that work in every program, at their rows and over the picture.
const (
	SayEverywhere     language.Words = "Keys while you paint"
	SayEverywhereNote language.Words = "They work in every program, where the pointer or the pen is. While this is off, no key is taken."
	SayKeysAbove      language.Words = "The keys above work in every program, those below in this window."
	SayListens        language.Words = "Press the new keys. Esc ends without a change, Delete clears."
	SayNeedsHeld      language.Words = "Hold Ctrl, Alt or Super with it."
	SayNoChord        language.Words = "Choose a letter, a figure, an arrow or F1 to F12."
	SayPointerOnUs    language.Words = "The pointer is on Tonedesk: hold it over the painting"
	SayWatchFirst     language.Words = "Choose what to watch first"
	SayFirstIsA       language.Words = "There was no spot A: this is it"
	SayPointerUnknown language.Words = "Your desktop hides the pointer: hold it over the picture in Tonedesk"
	SayAsksForKeys    language.Words = "Your desktop may ask about the keys: answer there."
	SayDesktopKeys    language.Words = "Your desktop gives these keys, and may give others than you choose here. It hides the pointer: spots come to lie where it is over the picture in this window."
)

// SayFixed says that a spot was read outside of what is watched.
func SayFixed(name string) string { return language.Say("%s is fixed: read once", name) }

// SayKeyTaken says that a key does something else already.
func SayKeyTaken(key, deed string) string {
	return language.Say("%s is the key for: %s.", SayKeys(key), deed)
}

// SayDesktopKey says at its row which key the desktop gave, in its own words; "" for none.
func SayDesktopKey(words string) string {
	if words == "" {
		return ""
	}
	return language.Say("Your desktop has it as %s.", Quote(words))
}

// SayKeyTrouble says at its row why a key is not held; "" where it is.
func SayKeyTrouble(key string, err error) string {
	switch {
	case err == nil:
		return ""
	case errors.Is(err, native.ErrKeyHeld):
		return language.Say("Another program holds %s; choose another key.", SayKeys(key))
	case errors.Is(err, native.ErrUngiven):
		return language.Say("Your desktop gave it no key; give it one in the settings of the desktop.")
	case errors.Is(err, native.ErrNoKey):
		return language.Say("This keyboard has no such key; choose another.")
	}
	return language.Say("It is not held: %s.", Quote(err.Error()))
}

// SayKeysHeld says over the picture which keys another program holds; "" for none.
func SayKeysHeld(held []string) string {
	var keys []string
	for _, key := range held {
		keys = append(keys, SayKeys(key))
	}
	switch n := len(keys); n {
	case 0:
		return ""
	case 1:
		return language.Say("Another program holds %s; choose another key in the list of keys, F1.", keys[0])
	default:
		return language.Say("Another program holds %s and %s; choose other keys in the list of keys, F1.", strings.Join(keys[:n-1], comma()), keys[n-1])
	}
}

// SayKeysTrouble says why no key can be held; "" where they can.
func SayKeysTrouble(err error) string {
	const what = "hear keys while you paint"
	switch {
	case err == nil:
		return ""
	case errors.Is(err, native.ErrUnsupported):
		return Cannot(what, "there is no way to do it on this system", "use the keys of this window, which F1 lists")
	case errors.Is(err, native.ErrOtherDisplay):
		return Cannot(what, "another display than this window's is watched", "start without TONEDESK_DISPLAY")
	case errors.Is(err, native.ErrKeysLost), errors.Is(err, xconn.ErrBroken):
		return Cannot(what, "the connection to the display was lost", "switch it off and on again")
	case errors.Is(err, xconn.ErrNotAnswering):
		return Cannot(what, "the display does not answer", "switch it off and on again when it does")
	}
	return explain(what, err, slices.Concat(desktopKeyReasons, reasons, systemReasons))
}

// desktopKeyReasons are what errors mean where the desktop hands keys out.
var desktopKeyReasons = []reason{
	{capture.ErrNoPortal, "this desktop offers no keys that work in every program", "use the keys of this window, which F1 lists, or log in with an X11 session"},
	{capture.ErrGivenUp, "the desktop's question was answered with no", "switch it on again to be asked again"},
	{capture.ErrUnanswered, "the desktop's question was not answered for three minutes", "switch it off and on again, and look for its window"},
	{capture.ErrNotAnswering, "the desktop's portal does not answer", "switch it off and on again"},
	{capture.ErrStopped, "the desktop has taken the keys back", "switch it off and on again"},
	{capture.ErrSharing, "the desktop's portal failed", "switch it off and on again; the log has its words"},
}
