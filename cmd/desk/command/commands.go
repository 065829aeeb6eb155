package command

// All are what the program does without a window.
var All = map[string]func([]string, Streams) int{
	"read": runRead, "spot": runSpot, "compare": runCompare, "change": runChange, "sheet": runSheet,
	"stills": runStills, "shade": runShade, "match": runMatch, "palette": runPalette,
	"help": help, "--help": help, "-h": help,
}

func help(_ []string, s Streams) int { return runHelp(s) }
