package main

import (
	"os"
	"strings"
	"testing"
)

// Fyne complains about languages that it doesn't know as early as in its package's
// initialisation. None of it may reach the user, or is worth a file.
func TestStandardErrorIsEmptyInEveryLanguage(t *testing.T) {
	for _, env := range [][]string{
		{"LANG=C.UTF-8"}, {"LANG=sr_RS@latin"}, {"LC_ALL=C.UTF-8"}, {"LANG="}, {"LANG=nonsense"}, {"LANG=de_DE.UTF-8"},
	} {
		state := t.TempDir()
		e := deskWith(t, append(env, "XDG_STATE_HOME="+state), "", "spot", "#fff")
		if e.err != "" || e.code != 0 || !strings.Contains(e.out, "#ffffff") {
			t.Errorf("%v: code %d, standard error %q", env, e.code, e.err)
		}
		if kept, err := os.ReadDir(state); err != nil || len(kept) > 0 {
			t.Errorf("%v: kept %v, error %v", env, kept, err)
		}
	}
}

func TestHelp(t *testing.T) {
	first := desk(t, "", "help")
	first.plainErrors(t, 0)
	for _, args := range [][]string{{"--help"}, {"-h"}, {"read", "--help"}, {"spot", "-h"}, {"compare", "#fff", "--help"}} {
		if e := desk(t, "", args...); e != first {
			t.Errorf("%v: code %d, standard error %q, output\n%s", args, e.code, e.err, e.out)
		}
	}
	for _, want := range []string{"desk [PICTURE]", "desk read", "desk spot", "desk compare", "--json", "--spots", "--size", "--groups", "--ground", "--tolerance"} {
		if !strings.Contains(first.out, want) {
			t.Errorf("the usage does not name %s", want)
		}
	}
	for line := range strings.Lines(first.out) {
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
			e := desk(t, "", tt.args...)
			e.plainErrors(t, 1)
			if e.code != tt.code || e.out != "" {
				t.Errorf("code %d, want %d; output %q", e.code, tt.code, e.out)
			}
		})
	}
}
