package main

import (
	"log"
	"os"
	"runtime/debug"

	"app.tonedesk/cmd/desk/quiet"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// saidMore puts into a sentence, at its %s, where more stands about what went wrong.
func saidMore(sentence wording.Phrase) wording.Phrase {
	if quiet.Path() == "" {
		return wording.Part(sentence, "")
	}
	return wording.Part(sentence, language.Say(" (more about it stands in %s)", wording.Quote(quiet.Path())))
}

// keepCrashes has the runtime write what ends the program on any goroutine into the file
// of messages too. That takes an open file; the function that it returns ends it, and
// removes the file if nothing was written.
func keepCrashes() (forget func()) {
	f, err := quiet.Open()
	if err != nil {
		return func() {} // it goes to standard error alone then
	}
	defer f.Close() // the runtime takes a handle of its own
	if err := debug.SetCrashOutput(f, debug.CrashOptions{}); err != nil {
		log.Println("keeping crashes:", err)
	}
	return func() {
		_ = debug.SetCrashOutput(nil, debug.CrashOptions{})
		if info, err := os.Stat(quiet.Path()); err == nil && info.Size() == 0 {
			_ = os.Remove(quiet.Path()) // left there, it does no harm
		}
	}
}
