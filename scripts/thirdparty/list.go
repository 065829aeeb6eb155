package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
)

// systems are what the program is built for, as go list and as people name them.
var systems = []struct{ goos, name string }{{"linux", "Linux"}, {"windows", "Windows"}, {"darwin", "macOS"}}

// linked is a package that the program carries, as go list describes it.
type linked struct {
	ImportPath, Dir      string
	Standard             bool
	EmbedFiles, CgoFiles []string
	Module               *module
	Error                *struct{ Err string }
}

// module is where a package comes from.
type module struct {
	Path, Version, Dir string
	Main               bool
}

// errNotHere says that a module is not on this machine, and can't be fetched now.
var errNotHere = errors.New("it is not on this machine, go mod download fetches it")

// makefileTags returns the build tags that the Makefile builds with.
func makefileTags(root string) (string, error) {
	data, err := os.ReadFile(filepath.Join(root, "Makefile"))
	if err != nil {
		return "", err
	}
	tags := regexp.MustCompile(`(?m)^TAGS := (\S+)$`).FindSubmatch(data)
	if tags == nil {
		return "", errors.New("the Makefile has no line TAGS")
	}
	return string(tags[1]), nil
}

// linkedOn returns all packages of the program built with tags for a system.
func linkedOn(root, tags, goos string) ([]linked, error) {
	list := exec.Command("go", "list", "-e", "-deps", "-tags="+tags,
		"-json=ImportPath,Dir,Standard,EmbedFiles,CgoFiles,Module,Error", "./cmd/desk")
	list.Dir = root
	list.Env = append(list.Environ(), "GOOS="+goos, "GOARCH=amd64", "CGO_ENABLED=1")
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list for %s: %w", goos, err)
	}
	var packages []linked
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p linked
		switch err := dec.Decode(&p); {
		case err == io.EOF:
			return packages, nil
		case err != nil:
			return nil, fmt.Errorf("go list for %s: %w", goos, err)
		case p.Error != nil && p.Dir == "":
			return nil, fmt.Errorf("read %s: %w (%s)", p.ImportPath, errNotHere, p.Error.Err)
		case p.Error != nil:
			return nil, fmt.Errorf("go list for %s: %s", goos, p.Error.Err)
		}
		packages = append(packages, p)
	}
}
