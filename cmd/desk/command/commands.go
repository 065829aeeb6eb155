package command

import (
	"bufio"
	"errors"
	"io"
	"io/fs"

	"app.tonedesk/gui/wording"
)

// All are what the program does without a window, by name.
var All = map[string]func([]string, Streams) int{
	"read":    command{"read", readOptions, runRead}.run,
	"spot":    command{"spot", []option{{name: "json"}}, runSpot}.run,
	"compare": command{"compare", []option{{name: "json"}, {"tolerance", "T"}}, runCompare}.run,
	"sheet":   command{"sheet", sheetOptions, runSheet}.run,
	"stills":  command{"stills", stillsOptions, runStills}.run,
	"shade":   command{"shade", shadeOptions, runShade}.run,
	"match":   command{"match", []option{{name: "json"}}, runMatch}.run,
	"palette": command{"palette", paletteOptions, runPalette}.run,
	"relight": command{"relight", relightOptions, runRelight}.run,
	"help":    help, "--help": help, "-h": help,
	"--version": version,
}

// command is a command with the options that it knows.
type command struct {
	name    string
	options []option
	// do does what a call asks for. Its error is a usageError, or a sentence.
	do func(*call) error
}

// call is one call of a command.
type call struct {
	arguments
	Streams
	out   *bufio.Writer // the report; failures to write show when it is flushed
	begun bool          // something was reported
	code  int           // how the program ends
}

// run does what the arguments ask for and returns the exit code.
func (c command) run(args []string, s Streams) int {
	if asksForHelp(args) {
		return help([]string{c.name}, s)
	}
	a, err := parseArguments(args, c.options)
	if err != nil {
		return s.WrongUse(err)
	}
	call := &call{arguments: a, Streams: s, out: bufio.NewWriter(s.Out)}
	switch err := c.do(call).(type) {
	case nil:
	case usageError:
		return s.WrongUse(err)
	default:
		call.fail(err.Error())
	}
	if err := call.out.Flush(); err != nil {
		call.fail(wording.Explain("write the report", err))
	}
	return call.code
}

// fail says in a sentence why something that was asked for can't be done.
func (c *call) fail(sentence string) { c.code = c.Fail(sentence) }

// unwritten says why a file could not be written, nil if it was. Its error is a sentence.
func unwritten(path string, err error) error {
	what := wording.On("write %s", path)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return sentence(wording.Cannot(what, "there is a file of that name already", "choose another name, or write over it with --force"))
	}
	return sentence(wording.ExplainWriting(what, err))
}

// report reports data as a line of JSON, or has it written to be read.
func (c *call) report(data any, write func(io.Writer)) {
	if c.given("json") {
		writeJSON(c.out, data)
		return
	}
	if c.begun {
		_, _ = io.WriteString(c.out, "\n")
	}
	c.begun = true
	write(c.out)
}

// help prints the usage, or that of the one command that is named first.
func help(args []string, s Streams) int {
	page := usage()
	if len(args) > 0 {
		if of := usageOf(args[0]); of != "" {
			page = of
		}
	}
	if _, err := io.WriteString(s.Out, page); err != nil {
		return s.Fail(wording.Explain("write the report", err))
	}
	return ExitDone
}
