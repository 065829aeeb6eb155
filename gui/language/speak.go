package language

import (
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"golang.org/x/text/language"
)

// Language is one that the program speaks, by its code (ISO 639-1).
type Language string

// The languages. The zero value is the system's, where something is chosen.
const (
	English  Language = "en"
	German   Language = "de"
	Japanese Language = "ja"
	Spanish  Language = "es"
)

// All are the languages, English first.
func All() []Language { return []Language{English, German, Japanese, Spanish} }

// Own is what a language calls itself.
func (l Language) Own() string {
	return map[Language]string{English: "English", German: "Deutsch", Japanese: "日本語", Spanish: "Español"}[l]
}

//go:embed words
var files embed.FS

// speech is a language with its words.
type speech struct {
	language Language
	tag      language.Tag
	said     map[Words]string // none in English: it is what the keys say
}

var spoken atomic.Pointer[speech]

func init() { spoken.Store(&speech{language: English, tag: language.English}) }

// Current is the language that is spoken.
func Current() Language { return spoken.Load().language }

// Use speaks a language from now on, and has the toolkit do so; another than ours is English. An
// error says that its words can't be read: a mistake of the program, and English is spoken.
func Use(l Language) error {
	said, err := wordsOf(l)
	if said == nil {
		l = English
		err = errors.Join(err, as(l, func(tag string) error { return lang.AddTranslationsForLocale(nil, fyne.Locale(tag)) }))
	}
	spoken.Store(&speech{l, language.Make(string(l)), said})
	return err
}

// wordsOf reads a language's words through the toolkit; none of English, and none of others.
func wordsOf(l Language) (map[Words]string, error) {
	if l == English || l.Own() == "" {
		return nil, nil
	}
	data, err := files.ReadFile("words/" + string(l) + ".json")
	if err != nil {
		return nil, err
	}
	var keys map[string]string
	if err := json.Unmarshal(data, &keys); err != nil {
		return nil, fmt.Errorf("words of %s: %w", l, err)
	}
	if err := as(l, func(tag string) error { return lang.AddTranslationsForLocale(data, fyne.Locale(tag)) }); err != nil {
		return nil, fmt.Errorf("words of %s: %w", l, err)
	}
	said := make(map[Words]string, len(keys))
	for key := range keys {
		said[Words(key)] = lang.LocalizeKey(key, key)
	}
	return said, nil
}
