package main

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
)

// work is what somebody else made and the program carries.
type work struct {
	name, version string
	note          string   // its own words on whose it is
	systems       []string // on which the program carries it
	texts         []string // files with its licence
}

// carried returns all works in the program built with tags, sorted by name.
func carried(root, tags string) ([]*work, error) {
	found := map[string]*work{}
	for _, system := range systems {
		packages, err := linkedOn(root, tags, system.goos)
		if err != nil {
			return nil, err
		}
		for _, p := range packages {
			brought, err := p.works()
			if err != nil {
				return nil, err
			}
			for _, w := range brought {
				if found[w.name] == nil {
					found[w.name] = w
				}
				found[w.name].join(w, system.name)
			}
		}
	}
	var works []*work
	for _, name := range slices.Sorted(maps.Keys(found)) {
		if err := found[name].check(); err != nil {
			return nil, err
		}
		works = append(works, found[name])
	}
	return works, nil
}

// works returns what p brings into the program: its module, and fonts. All of Go's own
// packages count as one, which comes with its runtime.
func (p linked) works() ([]*work, error) {
	switch {
	case p.ImportPath == "runtime":
		texts, err := textsIn(filepath.Dir(filepath.Dir(p.Dir)), false) // above src/runtime
		return []*work{{name: "Go, its runtime and standard library", texts: texts}}, err
	case p.Standard, p.Module.Main:
		return nil, nil
	}
	module := &work{name: p.Module.Path, version: p.Module.Version}
	for dir := p.Dir; len(dir) >= len(p.Module.Dir); dir = filepath.Dir(dir) {
		texts, err := textsIn(dir, dir == p.Dir && len(p.CgoFiles) > 0) // C that it includes lies in folders below
		if err != nil {
			return nil, err
		}
		module.texts = append(module.texts, texts...)
	}
	fonts, err := p.fonts()
	return append(fonts, module), err
}

// join adds what one more package says of the same work.
func (w *work) join(other *work, system string) {
	if !slices.Contains(w.systems, system) {
		w.systems = append(w.systems, system)
	}
	w.texts = slices.Concat(w.texts, other.texts)
	slices.Sort(w.texts)
	w.texts = slices.Compact(w.texts)
}

// check returns an error if no file says how w may be passed on; patents alone don't.
func (w *work) check() error {
	for _, file := range w.texts {
		if !strings.HasPrefix(filepath.Base(file), "PATENTS") {
			return nil
		}
	}
	return fmt.Errorf("no licence text lies beside %s; find out how it may be passed on, or leave it out of the program", w.name)
}
