package main

import (
	"os"

	"app.tonedesk/capture/memory"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/console"
	"app.tonedesk/cmd/desk/quiet"
)

func main() {
	os.Exit(run(os.Args[1:], command.Streams{In: os.Stdin, Out: os.Stdout, Err: console.Errors()}))
}

// run does what the arguments ask for and returns the exit code.
func run(args []string, io command.Streams) int {
	if len(args) > 0 && command.All[args[0]] != nil {
		quiet.Aloud()
		abandonOnSignal()
		memory.Hold(memory.OfCommands)
		return runCommand(args[0], func() int { return command.All[args[0]](args[1:], io) }, io, quiet.Keep)
	}
	return openWindow(args, io)
}
