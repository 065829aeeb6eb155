package wording

import (
	"errors"
	"slices"

	"app.tonedesk/capture"
	"app.tonedesk/gui/language"
)

// How sharing by the desktop is called.
const (
	ShareScreen  language.Words = "Share the screen"
	SharedScreen language.Words = "Shared screen"
)

// SayAsksWhatToShare says what to do while the desktop asks.
const SayAsksWhatToShare language.Words = "Your desktop asks what to share: answer there"

// SayNothingShared answers a no to that question.
const SayNothingShared language.Words = "Nothing is shared: you can choose again with R"

// OfX11Alone says which windows can be followed in a Wayland session.
const OfX11Alone language.Words = "of a program that runs by X11"

// SayNoX11Window says that there is none of these.
const SayNoX11Window language.Words = "No window of an X11 program is open: share it with R"

// SayNotShared says in short why what is shared can't be read.
func SayNotShared(err error) string {
	switch {
	case errors.Is(err, capture.ErrStopped):
		return language.Say("Sharing has ended")
	case errors.Is(err, capture.ErrPart):
		return language.Say("Too small now")
	case errors.Is(err, capture.ErrGone):
		return language.Say("Screen is gone")
	case errors.Is(err, capture.ErrNotAnswering):
		return language.Say("Desktop does not answer")
	}
	return language.Say("Nothing is shared")
}

// sharingReasons are what errors mean where the desktop shares the screen; other errors mean there
// what they mean everywhere.
var sharingReasons = []reason{
	{capture.ErrNoLibrary, "PipeWire's library is not installed", "install libpipewire (on Debian libpipewire-0.3-0) and start Tonedesk again, or follow an X11 window"},
	{capture.ErrNoPortal, "this desktop has no portal that shares the screen", "install xdg-desktop-portal and the one for your desktop, log in again, or follow an X11 window"},
	{capture.ErrGivenUp, "the desktop's question was answered with no", "choose again with R"},
	{capture.ErrUnanswered, "the desktop's question was not answered for three minutes", "choose again with R, and look for its window"},
	{capture.ErrNotAnswering, "the desktop does not answer", "try again with R, or log in again"},
	{capture.ErrSharing, "the desktop could not share it", "try again with R; the log has its words"},
	{capture.ErrNotShared, "nothing is shared any more", "choose again with R"},
	{capture.ErrStopped, "the desktop has ended the sharing", "choose again with R"},
	{capture.ErrPart, "it has become too small for the part that is watched", "watch all of it with E"},
	{capture.ErrFormat, "the desktop sends pictures of a kind that would give wrong colours", "set the screen to 8 bits a colour, and choose again with R"},
	{capture.ErrGone, "the screen is switched off or gone", "bring it back, and watching goes on by itself, or choose again with R"},
}

// ExplainSharing is Explain for what the desktop is to share.
func ExplainSharing(what Phrase, err error) string {
	return explain(what, err, slices.Concat(sharingReasons, reasons))
}
