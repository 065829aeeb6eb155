package command

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"strings"

	"app.tonedesk/gui/wording"
)

// maxLine is how many bytes a line of a list may have. Two colours need a few dozen.
const maxLine = 4096

// maxSkipped is how many bytes of a line that is too long are skipped, to go on with the next
// one. What goes on longer is no list, and may never end.
const maxSkipped = 1 << 20

var (
	errLong    = errors.New("line too long")
	errEndless = errors.New("line without an end")
)

// eachLine calls do with every line of r that isn't blank, and its number from 1. A line
// over maxLine is handed over as errLong, and the next ones go on. Line ends of Windows
// and a byte order mark are taken off. It ends with an error of do, or returns what r fails
// with.
func eachLine(r *bufio.Reader, do func(number int, line string, err error) error) error {
	for number := 1; ; number++ {
		line, long, err := readLine(r)
		if number == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff"))
		}
		if text := strings.TrimSpace(string(line)); text != "" || long != nil {
			if stop := do(number, text, long); stop != nil {
				return stop
			}
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
// is skipped; long is errLong then. err is errEndless where that goes on for too long.
func readLine(r *bufio.Reader) (line []byte, long, err error) {
	for skipped := 0; ; {
		part, err := r.ReadSlice('\n')
		if skipped += len(part); skipped > maxSkipped {
			return line, long, errEndless
		}
		if room := maxLine - len(line); len(part) > room {
			part, long = part[:room], errLong
		}
		line = append(line, part...)
		if !errors.Is(err, bufio.ErrBufferFull) {
			return line, long, err
		}
	}
}

// eachOfList runs do over the lines of standard input. What do reports goes out as soon as no
// further line waits, so that a list can be typed.
func (c *call) eachOfList(do func(line string) error) {
	in := bufio.NewReader(c.In)
	err := eachLine(in, func(number int, line string, err error) error {
		if err == nil {
			err = do(line)
		}
		if err != nil {
			c.failLine(number, line, err)
		}
		if in.Buffered() > 0 {
			return nil
		}
		return c.out.Flush()
	})
	switch {
	case err == nil || c.out.Flush() != nil:
	case errors.Is(err, errEndless):
		c.fail(wording.Cannot("read the list on standard input", "it is no list of lines", "write one a line"))
	default:
		c.fail(wording.Explain("read the list on standard input", err))
	}
}

// failLine says why a line of a list was not read.
func (c *call) failLine(number int, line string, err error) {
	what := wording.Part("read line %d of the list, %s", number, wording.Quote(line))
	var u usageError
	switch {
	case errors.Is(err, errLong):
		c.fail(wording.Cannot(what, wording.Part("it has more than %d characters", maxLine), "write one a line"))
	case errors.As(err, &u):
		c.fail(wording.Cannot(what, u.why, u.act))
	default:
		c.fail(wording.Explain(what, err))
	}
}
