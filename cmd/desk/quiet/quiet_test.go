package quiet

import (
	"bytes"
	"errors"
	"log"
	"testing"
	"testing/iotest"
)

func TestFilterSwallowsNoiseAndPassesTheRest(t *testing.T) {
	tests := []struct {
		name  string
		lines []string
		want  string
	}{
		{"a locale", []string{"Fyne error:  Error parsing user locale C", "  Cause: language: tag is not well-formed", "  At: /x/locale.go:35"}, ""},
		{"a message bus", []string{"Fyne error:  Unable to connect to session D-Bus", "  Cause: dial unix: no such file", "  At: y.go:1"}, ""},
		{"an error of ours", []string{"keeping the settings", "  Cause: disk full", "  At: z.go:2"}, "keeping the settings\n  Cause: disk full\n  At: z.go:2\n"},
		{"ours after noise", []string{"systray error: x", "  At: a.go:1", "painting lost"}, "painting lost\n"},
		{"noise after ours", []string{"painting lost", "XGB: conn.go:47: Could not get authority info", "  At: a.go:1"}, "painting lost\n"},
		{"a detail alone", []string{"  Cause: unknown"}, "  Cause: unknown\n"},
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
	f := NewFilter(iotest.TruncateWriter(failing{broken}, 0))
	if n, err := f.Write([]byte("painting lost")); err != nil || n != len("painting lost") {
		t.Errorf("a writer that takes everything: %d, %v", n, err)
	}
	if _, err := NewFilter(failing{broken}).Write([]byte("painting lost")); !errors.Is(err, broken) {
		t.Errorf("a writer that fails: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
