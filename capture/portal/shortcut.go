package portal

// Shortcut is a key of the whole desktop that is asked for.
type Shortcut struct {
	ID      string // our name for it, which never changes
	Does    string // what it does, for people
	Trigger string // the key that we would like, as SHORTCUTS writes it: "CTRL+ALT+1"
}

// ShortcutHearer hears of keys that the desktop handed out. Its functions are called on a goroutine
// of this package, and return at once.
type ShortcutHearer struct {
	Pressed func(id string)
	Changed func(keys map[string]string) // what AskShortcuts returns is another by now
	Ended   func(why error)              // none is handed out any more, by no doing of ours
}
