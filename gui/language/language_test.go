package language

import (
	"runtime"
	"strings"
	"testing"
)

// speak has a language spoken for a test.
func speak(t *testing.T, l Language) {
	t.Helper()
	if err := Use(l); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = Use(English) })
}

// POSIX.1-2024, Base Definitions, 8.2, and GNU gettext manual, 2.3: which variable counts.
func TestOfSystem(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("the system is asked there, not the environment")
	}
	for _, tt := range []struct {
		all, messages, lang, language string
		want                          Language
	}{
		{"", "", "", "", English},
		{"", "", "", "de", English},
		{"", "", "C", "", English},
		{"", "", "C.UTF-8", "", English},
		{"", "", "POSIX", "", English},
		{"C", "de_DE.UTF-8", "de_DE.UTF-8", "de", English},
		{"", "", "de_DE.UTF-8", "", German},
		{"", "", "de_AT@euro", "", German},
		{"", "", "de", "", German},
		{"", "ja_JP.UTF-8", "de_DE.UTF-8", "", Japanese},
		{"es_MX.UTF-8", "ja_JP.UTF-8", "de_DE.UTF-8", "", Spanish},
		{"", "", "fr_FR.UTF-8", "", English},
		{"", "", "fr_FR.UTF-8", "br:de:en", German},
		{"", "", "de_DE.UTF-8", "en_GB:de", English},
	} {
		t.Setenv("LC_ALL", tt.all)
		t.Setenv("LC_MESSAGES", tt.messages)
		t.Setenv("LANG", tt.lang)
		t.Setenv("LANGUAGE", tt.language)
		if got := OfSystem(); got != tt.want {
			t.Errorf("%+v: %s", tt, got)
		}
	}
}

func TestEnglishSaysItsKeys(t *testing.T) {
	speak(t, "fr") // none of ours
	if got := Say("light¦theme") + Say("%s of %d¦reading", "2", 3); got != "light2 of 3" || Current() != English {
		t.Errorf("said %q in %s", got, Current())
	}
	if one, more := Count(1, "%d spot", "%d spots"), Count(2, "%d spot", "%d spots"); one != "1 spot" || more != "2 spots" {
		t.Errorf("counted %q, %q", one, more)
	}
}

// CLDR 47, plurals, cardinal: English and German one is 1, Japanese has no forms, Spanish one is 1.
func TestPlural(t *testing.T) {
	for _, tt := range []struct {
		l    Language
		n    int
		want Words
	}{
		{English, 1, "a"}, {English, 0, "b"}, {English, 2, "b"}, {German, 1, "a"}, {German, 0, "b"}, {German, 21, "b"},
		{Japanese, 1, "b"}, {Japanese, 2, "b"}, {Spanish, 1, "a"}, {Spanish, 0, "b"}, {Spanish, 2, "b"}, {English, -1, "a"},
	} {
		speak(t, tt.l)
		if got := Plural(tt.n, "a", "b"); got != tt.want {
			t.Errorf("%s, %d: %s", tt.l, tt.n, got)
		}
	}
}

// CLDR 47, numbers, symbols-numberSystem-latn, decimal.
func TestNumber(t *testing.T) {
	for l, want := range map[Language]string{English: "2.50", German: "2,50", Japanese: "2.50", Spanish: "2,50"} {
		speak(t, l)
		if got := Number(2.5, 2); got != want {
			t.Errorf("%s: %s", l, got)
		}
		if got := Number(2, -1); got != "2" {
			t.Errorf("%s: %s", l, got)
		}
	}
}

// The language that is spoken reaches the toolkit, and leaves the environment as it was.
func TestUseLeavesTheEnvironment(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("the system is asked there, not the environment")
	}
	t.Setenv("LANG", "C.UTF-8")
	t.Setenv("LC_ALL", "")
	speak(t, German)
	if got := OfSystem(); got != English || Current() != German {
		t.Errorf("the environment says %s, and %s is spoken", got, Current())
	}
}

// Whatever the environment says: the language is one of ours, and another than English only where
// somebody asked for it by its code.
func FuzzOfSystem(f *testing.F) {
	f.Add("de_DE.UTF-8", "", "en_US", "ja:de")
	f.Add("", "C", "es@euro", ":::")
	f.Add("\xff_\xff.", "POSIX.x", "DE", "_")
	f.Fuzz(func(t *testing.T, all, messages, lang, language string) {
		said := strings.Join([]string{all, messages, lang, language}, " ")
		if strings.ContainsRune(said, 0) {
			return // the environment can't hold that
		}
		for name, value := range map[string]string{"LC_ALL": all, "LC_MESSAGES": messages, "LANG": lang, "LANGUAGE": language} {
			t.Setenv(name, value)
		}
		got := OfSystem()
		if got.Own() == "" || got != English && !strings.Contains(strings.ToLower(said), string(got)) {
			t.Errorf("%q in %q", got, said)
		}
	})
}
