package command

import (
	"bufio"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
)

func TestReadListGoesOutLineByLine(t *testing.T) {
	// The second line comes only when the first one's answer has been seen.
	in, typed := io.Pipe()
	seen, out := io.Pipe()
	done := make(chan int)
	go func() {
		code := All["spot"]([]string{"--json", "-"}, Streams{in, out, io.Discard})
		out.Close()
		done <- code
	}()
	answers := bufio.NewScanner(seen)
	for _, colour := range []string{"#ffffff", "#000000"} {
		if _, err := io.WriteString(typed, colour+"\n"); err != nil {
			t.Fatal(err)
		}
		if !answers.Scan() || !strings.Contains(answers.Text(), colour) {
			t.Fatalf("the answer to %s is %q", colour, answers.Text())
		}
	}
	typed.Close()
	if answers.Scan() {
		t.Errorf("a further answer: %q", answers.Text())
	}
	if code := <-done; code != ExitDone {
		t.Errorf("exit code %d", code)
	}
}

func TestBrokenListIsSaid(t *testing.T) {
	var out, fault strings.Builder
	in := io.MultiReader(strings.NewReader("#fff\n"), iotest.ErrReader(errors.New("unplugged")))
	code := All["spot"]([]string{"--json", "-"}, Streams{in, &out, &fault})
	if code != ExitUnread || strings.Count(out.String(), "\n") != 1 {
		t.Errorf("code %d, output %q", code, out.String())
	}
	if said := fault.String(); strings.Count(said, "\n") != 1 || !strings.HasPrefix(said, "Can't ") {
		t.Errorf("standard error says %q", said)
	}
}

// endless gives the same byte for ever, as /dev/zero does.
type endless byte

func (e endless) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = byte(e)
	}
	return len(b), nil
}

// What never ends a line is given up, and what came before it is done.
func TestListWithoutEnd(t *testing.T) {
	var out, fault strings.Builder
	in := io.MultiReader(strings.NewReader("#fff\n"), endless('x'))
	if code := All["spot"]([]string{"-"}, Streams{in, &out, &fault}); code != ExitUnread || !strings.Contains(out.String(), "#ffffff") {
		t.Errorf("code %d, output %q", code, out.String())
	}
	if said := fault.String(); strings.Count(said, "\n") != 2 || !strings.Contains(said, "no list of lines") {
		t.Errorf("standard error says %q", said)
	}
}

// Lines come in order, none is too long, and what was a line of colours stays one.
func FuzzEachLine(f *testing.F) {
	f.Add("a\nb\r\n\n\ufeffc")
	f.Add(strings.Repeat("x", maxLine+1) + "\nend")
	f.Fuzz(func(t *testing.T, text string) {
		last := 0
		err := eachLine(bufio.NewReaderSize(strings.NewReader(text), 16), func(number int, line string, err error) error {
			if number <= last || number > 1+strings.Count(text, "\n") {
				t.Errorf("line %d after %d of %q", number, last, text)
			}
			last = number
			if len(line) > maxLine || strings.Contains(line, "\n") || err == nil && line == "" {
				t.Errorf("line %d is %q", number, line)
			}
			if err == nil && !strings.Contains(text, line) {
				t.Errorf("line %d, %q, is not in %q", number, line, text)
			}
			return nil
		})
		if err != nil && !(errors.Is(err, errEndless) && len(text) > maxSkipped) {
			t.Error(err)
		}
	})
}
