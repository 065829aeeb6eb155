package main

import (
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// Words follow the locale, with its decimal sign (CLDR 47: de and es write a comma); an unknown one and
// none are English. JSON is the same in all of them, byte by byte, and so are exit codes.
func TestCommandsFollowTheLocale(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("the system has the language there, not the environment")
	}
	painting := filepath.Join(root, "assets", "example", "3-two-tones.png")
	plain := desktest.Run(t, "", "read", "--json", painting).Out
	for locale, want := range map[string][2]string{
		"C.UTF-8": {"74.2", "is 2.2 tones darker"}, "fr_FR.UTF-8": {"74.2", "is 2.2 tones darker"},
		"de_DE.UTF-8": {"74,2", "ist 2,2 Stufen dunkler"}, "ja_JP.UTF-8": {"74.2", "2.2段暗い"}, "es_MX.UTF-8": {"74,2", "es 2,2 pasos más oscuro"},
	} {
		env := []string{"LANG=" + locale}
		e := desktest.RunWith(t, env, "", "compare", "#e2ab85", "#b26a5c")
		if e.Err != "" || e.Code != 0 || !strings.Contains(e.Out, want[0]) || !strings.Contains(e.Out, want[1]) {
			t.Errorf("%s: code %d, %q, said\n%s", locale, e.Code, e.Err, e.Out)
		}
		if got := desktest.RunWith(t, env, "", "read", "--json", painting).Out; got != plain {
			t.Errorf("%s: other JSON", locale)
		}
		if e := desktest.RunWith(t, env, "", "read", "gone.png"); e.Code != 1 || strings.Count(e.Err, "\n") != 1 || !strings.Contains(e.Err, "gone.png") {
			t.Errorf("%s: code %d, said %q", locale, e.Code, e.Err)
		}
		for line := range strings.Lines(desktest.RunWith(t, env, "", "help").Out) {
			if len([]rune(line)) > 80 {
				t.Errorf("%s: the usage has a line of %d letters: %s", locale, len([]rune(line)), line)
			}
		}
	}
}
