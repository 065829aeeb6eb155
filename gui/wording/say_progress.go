package wording

import (
	"app.tonedesk/gui/language"
)

// SayProgress says how many of the pictures are read.
func SayProgress(done, of int) string { return language.Say("%d of %d pictures read", done, of) }
