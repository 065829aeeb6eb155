package wording

import "app.tonedesk/gui/language"

// What the entry in the desktop's tray offers, and what is said of it.
const (
	SayTray       language.Words = "Tray entry"
	SayTrayNote   language.Words = "Shows, hides, freezes and keeps, where the desktop has a tray. From the next start on."
	SayTrayShow   language.Words = "Show or hide the window"
	SayTrayFreeze language.Words = "Freeze, or resume"
	SayTrayKeep   language.Words = "Keep a still"
	SayTrayQuit   language.Words = "Quit"
	SayTrayComes  language.Words = "The tray entry comes with the next start"
	SayTrayGoes   language.Words = "The tray entry goes with the next start"
	SayTrayNone   language.Words = "This desktop shows no tray now: the entry comes once it does, from the next start on"
)
