package main

import (
	"debug/buildinfo"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"
)

// document is the part of CycloneDX 1.5 that we write, by its names.
type document struct {
	Format       string       `json:"bomFormat"`
	Spec         string       `json:"specVersion"`
	Version      int          `json:"version"` // of the document
	Metadata     metadata     `json:"metadata"`
	Components   []component  `json:"components"`
	Dependencies []dependency `json:"dependencies"`
}

type metadata struct {
	Timestamp string    `json:"timestamp"`
	Component component `json:"component"`
}

// component is something that the program is made of, or the program.
type component struct {
	Ref        string     `json:"bom-ref"`
	Type       string     `json:"type"`
	Name       string     `json:"name"`
	Version    string     `json:"version"`
	PURL       string     `json:"purl"`
	Properties []property `json:"properties,omitempty"`
}

type property struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// dependency says what the program is made of. Which module brings which, it doesn't know.
type dependency struct {
	Ref string   `json:"ref"`
	On  []string `json:"dependsOn"`
}

func main() {
	version := flag.String("version", "", "the program's version")
	seconds := flag.Int64("time", 0, "the document's time, in seconds since 1970")
	flag.Parse()
	if *version == "" || flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "Use it as sbom -version VERSION -time SECONDS PROGRAM.")
		os.Exit(2)
	}
	info, err := buildinfo.ReadFile(flag.Arg(0))
	if err == nil {
		err = write(os.Stdout, describe(info, *version, time.Unix(*seconds, 0)))
	}
	if err != nil {
		fmt.Fprintf(os.Stderr, "Can't write down what the program is made of: %v.\n", err)
		os.Exit(1)
	}
}

// describe lists what a program is made of, in the order in which it names it: by path.
func describe(info *buildinfo.BuildInfo, version string, at time.Time) document {
	program := component{Type: "application", Name: "tonedesk", Version: version, PURL: "pkg:generic/tonedesk@" + escaped(version)}
	program.Ref = program.PURL
	goVersion := strings.TrimPrefix(info.GoVersion, "go")
	parts := []component{{Type: "library", Name: "std", Version: goVersion, PURL: "pkg:golang/std@" + escaped(goVersion)}}
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		part := component{Type: "library", Name: m.Path, Version: m.Version, PURL: "pkg:golang/" + strings.ToLower(m.Path) + "@" + escaped(m.Version)}
		if m.Sum != "" { // of a folder's files, as in go.sum: no checksum of a file, which hashes would be
			part.Properties = []property{{"app.tonedesk:go.sum", m.Sum}}
		}
		parts = append(parts, part)
	}
	made := dependency{Ref: program.Ref}
	for i := range parts {
		parts[i].Ref = parts[i].PURL
		made.On = append(made.On, parts[i].Ref)
	}
	return document{
		Format: "CycloneDX", Spec: "1.5", Version: 1,
		Metadata:   metadata{at.UTC().Format(time.RFC3339), program},
		Components: parts, Dependencies: []dependency{made},
	}
}

// escaped writes a version as package URLs ask for it: a plus sign would be a space.
func escaped(version string) string { return strings.ReplaceAll(version, "+", "%2B") }

// write writes the document, a line a field.
func write(w io.Writer, d document) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(d)
}
