package command

import (
	"path/filepath"
	"slices"
	"strings"

	"app.tonedesk/gui/wording"
)

// option is what may be given beside the operands: its name without the dashes, and how
// its value is written in the usage ("" for an option without one).
type option struct{ name, value string }

// list says whether an option's value is a list of places: given again it goes on.
func (o option) list() bool { return strings.Contains(o.value, ";") }

// arguments are a command's arguments, sorted.
type arguments struct {
	values   map[string]string // by option; an option without value has ""
	operands []string
}

// given says whether an option was given.
func (a arguments) given(name string) bool {
	_, ok := a.values[name]
	return ok
}

// parseArguments sorts args. Options may stand before, between and behind the operands,
// as --name value or --name=value; what follows -- is an operand, and so is a single -.
// Of an option given twice the last one counts, but a list goes on. Errors are usageErrors.
func parseArguments(args []string, options []option) (arguments, error) {
	a := arguments{values: map[string]string{}}
	for i := 0; i < len(args); i++ {
		arg := args[i]
		switch {
		case arg == "--":
			a.operands = append(a.operands, args[i+1:]...)
			return a, nil
		case arg == "-" || !strings.HasPrefix(arg, "-"):
			a.operands = append(a.operands, arg)
			continue
		}
		name, value, inline := strings.Cut(strings.TrimPrefix(arg, "--"), "=")
		at := slices.IndexFunc(options, func(o option) bool { return o.name == name })
		if at < 0 {
			return arguments{}, usageError{wording.On("use the option %s", arg), "it is not known here", "see desk help"}
		}
		o := options[at]
		switch {
		case o.value == "" && inline:
			return arguments{}, usageError{wording.On("use the option %s", arg), "it takes no value", "leave the value out"}
		case o.value != "" && !inline:
			if i++; i == len(args) {
				return arguments{}, usageError{wording.On("use the option %s", "--"+name), "its value is missing", wording.On("write %s", "--"+name+" "+o.value)}
			}
			value = args[i]
		}
		if before, again := a.values[name]; again && o.list() {
			value = before + ";" + value
		}
		a.values[name] = value
	}
	return a, nil
}

// asksForHelp says whether a command is asked how it is used.
func asksForHelp(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--help") || slices.Contains(args, "-h")
}

// WindowArgs are what the window is started with.
type WindowArgs struct {
	Picture string // absolute path; "" for none
	Trace   string // file that gets a line for all that is shown; "" for none
	Menu    bool   // started from the desktop's menu or file manager: nobody sees standard error
}

// WindowArguments reads the arguments of the window.
func WindowArguments(args []string) (WindowArgs, error) {
	a, err := parseArguments(args, []option{{"trace", "FILE"}, {"from-menu", ""}})
	if err != nil {
		return WindowArgs{}, err
	}
	w := WindowArgs{Trace: a.values["trace"], Menu: a.given("from-menu")}
	switch len(a.operands) {
	case 0:
		return w, nil
	case 1:
		w.Picture, err = filepath.Abs(a.operands[0])
		return w, err
	}
	return WindowArgs{}, usageError{wording.On("open %s", a.operands[1]), "the window shows one picture at a time", "name one file"}
}
