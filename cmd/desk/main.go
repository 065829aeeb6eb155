package main

import (
	"log"
	"os"

	"app.tonedesk/capture/memory"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/console"
	"app.tonedesk/cmd/desk/quiet"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/typeface"
)

func main() {
	os.Exit(run(os.Args[1:], command.Streams{In: os.Stdin, Out: os.Stdout, Err: console.Errors()}))
}

// run does what the arguments ask for and returns the exit code.
func run(args []string, io command.Streams) int {
	ink.Borrow(typeface.Outline)
	if len(args) > 0 && command.All[args[0]] != nil {
		quiet.Aloud()
		abandonOnSignal()
		memory.Hold(memory.OfCommands)
		speak("")
		return runCommand(args[0], func() int { return command.All[args[0]](args[1:], io) }, io, quiet.Keep)
	}
	return openWindow(args, io)
}

// speak has sentences said in a language; "" is the system's.
func speak(l language.Language) {
	if l == "" {
		l = language.OfSystem()
	}
	if err := language.Use(l); err != nil {
		log.Println("speaking", l, "failed:", err)
	}
}
