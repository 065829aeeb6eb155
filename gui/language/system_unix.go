//go:build !windows && !darwin

package language

import (
	"os"
	"strings"
)

// OfSystem is the language that the system asks for, English where that is none of ours:
// LC_ALL, LC_MESSAGES and LANG in this order, and LANGUAGE's list before them where they name a
// language (POSIX.1-2024, Base Definitions, 8.2; GNU gettext manual, 2.3).
func OfSystem() Language {
	locale := ""
	for _, name := range localeNames {
		if locale = os.Getenv(name); locale != "" {
			break
		}
	}
	if locale == "" || none(locale) {
		return English
	}
	for _, wanted := range append(strings.Split(os.Getenv("LANGUAGE"), ":"), locale) {
		code, _, _ := strings.Cut(wanted, "_")
		code, _, _ = strings.Cut(code, ".")
		code, _, _ = strings.Cut(code, "@")
		if l := Language(strings.ToLower(code)); l.Own() != "" {
			return l
		}
	}
	return English
}

var localeNames = []string{"LC_ALL", "LC_MESSAGES", "LANG"}

// none reports whether a locale is that of no language.
func none(locale string) bool {
	name, _, _ := strings.Cut(locale, ".")
	return name == "C" || name == "POSIX"
}

// as has the toolkit take a language for the system's while something is added to its words: it
// looks into the environment then, and nowhere else can it be told. What the environment says
// stays for others.
func as(l Language, add func(tag string) error) error {
	for _, name := range append([]string{"LANGUAGE"}, localeNames...) {
		was, there := os.LookupEnv(name)
		defer func() {
			if there {
				_ = os.Setenv(name, was)
			} else {
				_ = os.Unsetenv(name)
			}
		}()
		_ = os.Setenv(name, string(l))
	}
	return add(string(l))
}
