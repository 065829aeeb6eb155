package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// licenceFile is how files with licence texts are called.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|copyright|notice|ofl|patents|unlicense)([-_.].*)?$`)

// isText says whether a file of this name holds a licence, or words that go with one.
func isText(name string) bool { return licenceFile.MatchString(name) && filepath.Ext(name) != ".go" }

// textsIn returns the licence texts that lie in dir itself.
func textsIn(dir string) (texts []string, err error) {
	entries, err := os.ReadDir(dir)
	for _, e := range entries {
		if isText(e.Name()) && e.Type().IsRegular() {
			texts = append(texts, filepath.Join(dir, e.Name()))
		}
	}
	return texts, err
}

// textsBelow returns the licence texts in dir and all folders below it.
func textsBelow(dir string) (texts []string, err error) {
	err = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err == nil && isText(e.Name()) && e.Type().IsRegular() {
			texts = append(texts, path)
		}
		return err
	})
	return texts, err
}

// readText returns a text with plain line ends and nothing at the ends of lines, so that
// texts are the same that read the same.
func readText(file string) (string, error) {
	data, err := os.ReadFile(file)
	var b strings.Builder
	for line := range strings.Lines(strings.Trim(string(data), "\ufeff \r\n")) {
		b.WriteString(strings.TrimRight(line, " \t\r\n") + "\n")
	}
	return b.String(), err
}
