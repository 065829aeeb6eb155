package command

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"app.tonedesk/gui/wording"
)

// maxLine is how many bytes a line of a list may have. Two colours need a few dozen.
const maxLine = 4096

var errLong = errors.New("line too long")

// eachLine calls do with every line of r that isn't blank, and its number from 1. A line
// over maxLine is handed over as errLong, and the next ones go on. Line ends of Windows
// and a byte order mark are taken off. It returns what r fails with.
func eachLine(r *bufio.Reader, do func(number int, line string, err error)) error {
	for number := 1; ; number++ {
		line, long, err := readLine(r)
		if number == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff"))
		}
		text := strings.TrimSpace(string(line))
		switch {
		case long:
			do(number, text, errLong)
		case text != "":
			do(number, text, nil)
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// readLine returns the next line, or the first maxLine bytes of a long one, whose rest
// is skipped.
func readLine(r *bufio.Reader) (line []byte, long bool, err error) {
	for {
		part, err := r.ReadSlice('\n')
		if room := maxLine - len(line); len(part) > room {
			part, long = part[:room], true
		}
		line = append(line, part...)
		if !errors.Is(err, bufio.ErrBufferFull) {
			return line, long, err
		}
	}
}

// readList runs do over the lines of standard input. What do prints goes out as soon as
// no further line waits, so that a list can be typed. It returns the exit code.
func readList(s Streams, do func(out io.Writer, line string) error) int {
	in, out := bufio.NewReader(s.In), bufio.NewWriter(s.Out)
	code := ExitDone
	var unwritten error
	err := eachLine(in, func(number int, line string, err error) {
		if unwritten != nil {
			return
		}
		if err == nil {
			err = do(out, line)
		}
		if err != nil {
			s.sayLine(number, line, err)
			code = ExitUnread
		}
		if in.Buffered() == 0 {
			unwritten = out.Flush()
		}
	})
	if flushed := out.Flush(); unwritten == nil {
		unwritten = flushed
	}
	if unwritten != nil {
		return s.unwritten(unwritten)
	}
	if err != nil {
		s.Say(wording.Explain("read the list on standard input", err))
		return ExitUnread
	}
	return code
}

// sayLine says why a line of a list was not read.
func (s Streams) sayLine(number int, line string, err error) {
	what := fmt.Sprintf("read line %d of the list, %s", number, wording.Quote(line))
	var u usageError
	switch {
	case errors.Is(err, errLong):
		s.Say(wording.Sentence(what, fmt.Sprintf("it has more than %d characters", maxLine), "write one a line"))
	case errors.As(err, &u):
		s.Say(wording.Sentence(what, u.why, u.act))
	default:
		s.Say(wording.Explain(what, err))
	}
}

// isList says whether the operands ask for a list from standard input.
func isList(operands []string) bool { return len(operands) == 1 && operands[0] == "-" }
