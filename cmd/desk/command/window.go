package command

import (
	"path/filepath"

	"app.tonedesk/gui/wording"
)

// WindowArgs are what the window is started with.
type WindowArgs struct {
	Picture string // absolute path; "" for none
	Trace   string // file that gets a line for all that is shown; "" for none
}

// WindowArguments reads the arguments of the window.
func WindowArguments(args []string) (WindowArgs, error) {
	a, err := parseArguments(args, []option{{"trace", "FILE"}})
	if err != nil {
		return WindowArgs{}, err
	}
	w := WindowArgs{Trace: a.values["trace"]}
	switch len(a.operands) {
	case 0:
		return w, nil
	case 1:
		w.Picture, err = filepath.Abs(a.operands[0])
		return w, err
	}
	return WindowArgs{}, usageError{"open " + wording.Quote(a.operands[1]), "the window shows one picture at a time", "name one file"}
}
