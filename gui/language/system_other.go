//go:build windows || darwin

package language

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2/lang"
)

// OfSystem is the language that the system asks for, English where that is none of ours.
func OfSystem() Language {
	code, _, _ := strings.Cut(lang.SystemLocale().String(), "-")
	if l := Language(strings.ToLower(code)); l.Own() != "" {
		return l
	}
	return English
}

// as adds to the toolkit's words under the language's name and, since the toolkit speaks the
// system's language here whatever we choose, under the system's too: ours come in the chosen
// language then, and its own few in the system's.
func as(l Language, add func(tag string) error) error {
	err := add(string(l))
	if system := lang.SystemLocale().String(); OfSystem() != l {
		err = errors.Join(err, add(system))
	}
	return err
}
