package quiet

import (
	"bytes"
	"errors"
	"log"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

func TestFilterDropsTheLocaleAlone(t *testing.T) {
	about, cause, at := "Fyne error:  Error parsing user locale C", "  Cause: language: tag is not well-formed", "  At: /x/locale.go:35"
	tests := []struct {
		name  string
		lines []string
		want  string
	}{
		{"a locale", []string{about, cause, at}, ""},
		{"two locales", []string{about, cause, at, about, cause, at}, ""},
		{"a locale again before its place", []string{about, cause, about, cause, at}, ""},
		{"another error of Fyne's", []string{"Fyne error:  Failed to look up user locale", cause, at}, "Fyne error:  Failed to look up user locale\n" + cause + "\n" + at + "\n"},
		{"one that names a locale", []string{"lost: Error parsing user locale"}, "lost: Error parsing user locale\n"},
		{"ours after a locale", []string{about, cause, at, "painting lost", cause, at}, "painting lost\n" + cause + "\n" + at + "\n"},
		{"ours in the midst", []string{about, "painting lost", cause, at}, "painting lost\n" + cause + "\n" + at + "\n"},
		{"a place too many", []string{about, cause, at, at}, at + "\n"},
		{"a detail alone", []string{cause}, cause + "\n"},
		{"a name that steers a terminal", []string{"open a\x1b]0;b\a\u009b\u202e\xff\tü.png"}, `open a\x1b]0;b\a\u009b\u202e` + "\ufffd\tü.png\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got bytes.Buffer
			l := log.New(NewFilter(&got), "", 0)
			for _, line := range tt.lines {
				l.Println(line)
			}
			if got.String() != tt.want {
				t.Errorf("passed on %q, want %q", got.String(), tt.want)
			}
		})
	}
}

func TestFilterReportsWhatWasNotWritten(t *testing.T) {
	broken := errors.New("broken")
	if _, err := NewFilter(failing{broken}).Write([]byte("painting lost")); !errors.Is(err, broken) {
		t.Errorf("a writer that fails: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

// Whatever a message holds steers no terminal, and what is printable in it is passed on.
func FuzzFilter(f *testing.F) {
	f.Add("open a\x1b]0;b\a: no such file\n\tat x.go:1")
	f.Add("Fyne error:  Error parsing user locale \x1b")
	f.Fuzz(func(t *testing.T, message string) {
		var got strings.Builder
		n, err := NewFilter(&got).Write([]byte(message))
		if n != len(message) || err != nil {
			t.Fatal(n, err)
		}
		printable := true
		for _, r := range message {
			printable = printable && (unicode.IsPrint(r) || r == '\n' || r == '\t')
		}
		for _, r := range got.String() {
			if !unicode.IsPrint(r) && r != '\n' && r != '\t' {
				t.Fatalf("%q is passed on as %q", message, got.String())
			}
		}
		if printable && utf8.ValidString(message) && got.Len() > 0 && got.String() != message {
			t.Errorf("%q is passed on as %q", message, got.String())
		}
	})
}
