package main

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const root = "../.."

func TestThirdPartyIsUpToDate(t *testing.T) {
	if _, err := os.Stat(filepath.Join(root, "go.mod")); err != nil { // so that a kept result ends when it changes
		t.Fatal(err)
	}
	want, err := notices(root)
	if errors.Is(err, errNotHere) {
		t.Skip(err) // without network, and with modules of one system only
	}
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(root, "THIRD_PARTY.md"))
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("THIRD_PARTY.md is not what the program carries now: run make notices")
	}
	here, err := filepath.Abs(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, private := range []string{here, filepath.Join("pkg", "mod")} {
		if strings.Contains(want, private) {
			t.Errorf("it holds the path %s", private)
		}
	}
}

// Without the Makefile's tags the program would carry a font that has no licence beside it.
func TestFontWithoutLicenceIsRefused(t *testing.T) {
	_, err := carried(root, "")
	if errors.Is(err, errNotHere) {
		t.Skip(err)
	}
	if err == nil || !strings.Contains(err.Error(), "EmojiOneColor.otf") {
		t.Errorf("the error is %v", err)
	}
}

func TestCheck(t *testing.T) {
	tests := []struct {
		texts []string
		ok    bool
	}{
		{nil, false},
		{[]string{"/m/PATENTS"}, false},
		{[]string{"/m/PATENTS", "/m/LICENSE"}, true},
	}
	for _, tt := range tests {
		w := work{name: "example.org/work", texts: tt.texts}
		if err := w.check(); (err == nil) != tt.ok {
			t.Errorf("%v: %v", tt.texts, err)
		} else if err != nil && !strings.Contains(err.Error(), w.name) {
			t.Errorf("the error does not name the work: %v", err)
		}
	}
}

// A package's texts lie beside it, above it as far as its module goes, and, if it includes
// C, below it.
func TestWhereTextsLie(t *testing.T) {
	outside := t.TempDir()
	dir := filepath.Join(outside, "module")
	for _, file := range []string{"LICENSE", "module/LICENCE.txt", "module/a/NOTICE", "module/a/license.go", "module/a/c/COPYING", "module/b/LICENSE"} {
		file = filepath.Join(outside, file)
		if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	p := linked{ImportPath: "example.org/some/a", Dir: filepath.Join(dir, "a")}
	p.Module = &module{Path: "example.org/work", Dir: dir}
	for _, tt := range []struct {
		c    []string
		want []string
	}{
		{nil, []string{"LICENCE.txt", "a/NOTICE"}},
		{[]string{"c.go"}, []string{"LICENCE.txt", "a/NOTICE", "a/c/COPYING"}},
	} {
		p.CgoFiles = tt.c
		works, err := p.works()
		if err != nil || len(works) != 1 {
			t.Fatal(works, err)
		}
		works[0].join(works[0], "Linux")
		var got []string
		for _, file := range works[0].texts {
			rel, _ := filepath.Rel(dir, file)
			got = append(got, filepath.ToSlash(rel))
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("with C %v: %v, want %v", tt.c, got, tt.want)
		}
	}
}

func TestTextsAreWrittenOnce(t *testing.T) {
	dir := t.TempDir()
	var works []*work
	for name, text := range map[string]string{"a": "Free.\r\n", "b": "Free.  \n\n", "c": "Free, too.\n"} {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		works = append(works, &work{name: name, texts: []string{file}})
	}
	slices.SortFunc(works, func(v, w *work) int { return strings.Compare(v.name, w.name) })
	got, err := page(works)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"| a |  | 1 |", "| b |  | 1 |", "| c |  | 2 |", "For a, b.", "For c."} {
		if strings.Count(got, want) != 1 {
			t.Errorf("%q is not there once:\n%s", want, got)
		}
	}
	if strings.Count(got, "Free.") != 1 {
		t.Errorf("the same text stands there more than once:\n%s", got)
	}
}
