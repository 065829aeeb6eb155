package wording

import "app.tonedesk/gui/language"

// SayRegion names a region of the screen by its size, in pixels.
func SayRegion(w, h int) string { return language.Say("Region %s", SizeSay(w, h)) }
