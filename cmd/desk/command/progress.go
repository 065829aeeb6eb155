package command

import (
	"fmt"
	"io"
	"os"
	"strings"

	"app.tonedesk/gui/wording"
)

// progress says on a terminal, in a line that is written over, how many of the pictures are done; on
// anything else, and of one picture, nothing.
type progress struct {
	of    int
	to    io.Writer
	width int // characters that stand there
}

// say says that so many are done.
func (p *progress) say(done int) {
	if p.of < 2 || !isTerminal(p.to) {
		return
	}
	line := wording.SayProgress(done, p.of)
	fmt.Fprint(p.to, "\r", line)
	p.width = len([]rune(line))
}

// clear leaves the line empty, for what else is to stand there.
func (p *progress) clear() {
	if p.width > 0 {
		fmt.Fprint(p.to, "\r", strings.Repeat(" ", p.width), "\r")
	}
	p.width = 0
}

// isTerminal reports whether what is written there is shown as it comes: by a device that takes
// characters.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
