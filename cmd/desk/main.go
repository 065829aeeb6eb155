package main

import (
	"os"

	_ "app.tonedesk/cmd/desk/quiet" // first: swallows what libraries print as they start
)

func main() {
	os.Exit(run(os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr}))
}

// run does what the arguments ask for and returns the exit code.
func run(args []string, io streams) int {
	if len(args) == 0 {
		return openWindow(args, io)
	}
	switch args[0] {
	case "read":
		return runRead(args[1:], io)
	case "spot":
		return runSpot(args[1:], io)
	case "compare":
		return runCompare(args[1:], io)
	case "change":
		return runChange(args[1:], io)
	case "sheet":
		return runSheet(args[1:], io)
	case "stills":
		return runStills(args[1:], io)
	case "shade":
		return runShade(args[1:], io)
	case "match":
		return runMatch(args[1:], io)
	case "palette":
		return runPalette(args[1:], io)
	case "help", "--help", "-h":
		return runHelp(io)
	}
	return openWindow(args, io)
}
