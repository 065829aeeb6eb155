package main

import (
	"os"

	"app.tonedesk/cmd/desk/quiet" // initialised first: takes what libraries print as they start
)

func main() {
	os.Exit(run(os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr}))
}

// commands are what the program does without a window.
var commands = map[string]func([]string, streams) int{
	"read": runRead, "spot": runSpot, "compare": runCompare, "change": runChange, "sheet": runSheet,
	"stills": runStills, "shade": runShade, "match": runMatch, "palette": runPalette,
	"help": help, "--help": help, "-h": help,
}

func help(_ []string, s streams) int { return runHelp(s) }

// run does what the arguments ask for and returns the exit code.
func run(args []string, io streams) int {
	if len(args) > 0 && commands[args[0]] != nil {
		quiet.Aloud()
		return commands[args[0]](args[1:], io)
	}
	return openWindow(args, io)
}
