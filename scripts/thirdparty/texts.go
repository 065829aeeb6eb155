package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// licenceFile matches the names of files with licence texts.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|copyright|notice|ofl|patents|unlicense)([-_.].*)?$`)

// textsIn returns the licence texts that lie in dir itself or, if deep, also in all folders below.
func textsIn(dir string, deep bool) (texts []string, err error) {
	err = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && path != dir && !deep:
			return fs.SkipDir
		case e.Type().IsRegular() && licenceFile.MatchString(e.Name()) && filepath.Ext(path) != ".go":
			texts = append(texts, path)
		}
		return nil
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
