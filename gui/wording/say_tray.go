package wording

// What the entry in the desktop's tray offers, and what is said of it.
const (
	SayTray       = "Tray entry"
	SayTrayNote   = "Shows, hides, freezes and keeps, where the desktop has a tray. From the next start on."
	SayTrayShow   = "Show or hide the window"
	SayTrayFreeze = "Freeze, or resume"
	SayTrayKeep   = "Keep a still"
	SayTrayQuit   = "Quit"
	SayTrayComes  = "The tray entry comes with the next start"
	SayTrayGoes   = "The tray entry goes with the next start"
	SayTrayNone   = "This desktop shows no tray now: the entry comes once it does, from the next start on"
)
