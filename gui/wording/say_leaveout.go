package wording

import "app.tonedesk/gui/language"

// What is said of leaving our own window out of pictures of the screen.
const (
	SayLeaveOut     language.Words = "Leave this window out"
	SayLeaveOutNote language.Words = "All pictures and recordings of the screen show what lies beneath it."
	SayNotLeftOut   language.Words = "Can't leave the window out: the system does not do it; move the window aside instead."
)
