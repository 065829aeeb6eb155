package main

import (
	"os"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// Fyne complains about languages that it doesn't know as early as in its package's
// initialisation. None of it may reach the user, or is worth a file.
func TestStandardErrorIsEmptyInEveryLanguage(t *testing.T) {
	for _, env := range [][]string{
		{"LANG=C.UTF-8"}, {"LANG=sr_RS@latin"}, {"LC_ALL=C.UTF-8"}, {"LANG="}, {"LANG=nonsense"}, {"LANG=de_DE.UTF-8"},
	} {
		state := t.TempDir()
		e := desktest.RunWith(t, append(env, "XDG_STATE_HOME="+state), "", "spot", "#fff")
		if e.Err != "" || e.Code != 0 || !strings.Contains(e.Out, "#ffffff") {
			t.Errorf("%v: code %d, standard error %q", env, e.Code, e.Err)
		}
		if kept, err := os.ReadDir(state); err != nil || len(kept) > 0 {
			t.Errorf("%v: kept %v, error %v", env, kept, err)
		}
	}
}

func TestHelp(t *testing.T) {
	first := desktest.Run(t, "", "help")
	first.PlainErrors(t, 0)
	for _, same := range [][2][]string{
		{{"--help"}, {"help"}}, {{"-h"}, {"help"}}, {{"help", "gone"}, {"help"}},
		{{"read", "--help"}, {"help", "read"}}, {{"spot", "-h"}, {"help", "spot"}}, {{"compare", "#fff", "--help"}, {"help", "compare"}},
	} {
		got, want := desktest.Run(t, "", same[0]...), desktest.Run(t, "", same[1]...)
		if got != want || got.Code != 0 || got.Err != "" || len(same[1]) > 1 && got.Out == first.Out {
			t.Errorf("%v: code %d, standard error %q, output\n%s", same[0], got.Code, got.Err, got.Out)
		}
	}
	for _, want := range []string{"desk [PICTURE]", "desk read", "desk spot", "desk compare", "--json", "--spots", "--size", "--groups", "--ground", "--tolerance"} {
		if !strings.Contains(first.Out, want) {
			t.Errorf("the usage does not name %s", want)
		}
	}
	for line := range strings.Lines(first.Out) {
		if len(line) > 81 {
			t.Errorf("wider than a terminal: %s", line)
		}
	}
}

func TestWindowArguments(t *testing.T) {
	tests := []struct {
		name string
		args []string
		code int
	}{
		{"unknown option", []string{"--nonsense"}, 2},
		{"two pictures", []string{"a.png", "b.png"}, 2},
		{"no display", nil, 1},
		{"missing picture", []string{"/nowhere/none.png"}, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", tt.args...)
			e.PlainErrors(t, 1)
			if e.Code != tt.code || e.Out != "" {
				t.Errorf("code %d, want %d; output %q", e.Code, tt.code, e.Out)
			}
		})
	}
}
