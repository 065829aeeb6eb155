package main

import (
	"flag"
	"fmt"
	"log"
	"runtime"
	"sync"

	"app.tonedesk/analysis/families"
)

const (
	parts = 10
	// ridge is how strongly weights are held near 0, in examples (our choice: halving or doubling
	// it changes little).
	ridge = 5
)

func main() {
	log.SetFlags(0)
	truths := flag.String("truths", "testdata/drawings", "folder of the drawings' truths")
	out := flag.String("o", "analysis/families/weights.go", "where the weights are written")
	check := flag.Bool("check", false, "write nothing; fail where the file has other weights")
	flag.Parse()
	all, err := gather(*truths)
	if err != nil {
		log.Fatal(err)
	}
	// Which colours touch does not depend on the model: one that joins and proposes nothing lists them.
	apart := &families.Model{}
	apart.Link[0] = -9
	weighAll(all, func(*picture) *families.Model { return apart }, (*picture).takeLinks)
	models := make([]*families.Model, parts)
	for k := range models {
		models[k] = &families.Model{}
		copy(models[k].Link[:], fit(examples(all, k, links), ridge))
	}
	heldOut := func(p *picture) *families.Model { return models[p.part] }
	weighAll(all, heldOut, (*picture).takeLocals)
	for k := range models {
		fitSure(models[k], all, k)
	}
	fmt.Print(report(all, heldOut))

	model := &families.Model{}
	copy(model.Link[:], fit(examples(all, -1, links), ridge))
	fitSure(model, all, -1) // of local colours as held-out models join them
	if *check {
		err = differs(*out, model)
	} else {
		err = write(*out, model, len(all))
	}
	if err != nil {
		log.Fatal(err)
	}
}

// rounds is how often the model of what is sure is fitted anew on what it chooses (our choice: a
// third round changes little).
const rounds = 2

// fitSure fits the model of what is sure on all pictures but those of a part: first on all that may
// be a local colour, then on those that are chosen, since it is of these that confidence is said.
func fitSure(m *families.Model, all []*picture, but int) {
	copy(m.Sure[:], fit(examples(all, but, func(p *picture) []example { return p.locals }), ridge))
	for range rounds {
		chosen := func(p *picture) (list []example) {
			_, of := p.chosen(m)
			for _, i := range of {
				list = append(list, p.locals[i])
			}
			return list
		}
		copy(m.Sure[:], fit(examples(all, but, chosen), ridge))
	}
}

func links(p *picture) []example { return p.links }

// examples returns the examples of all pictures but those of a part.
func examples(all []*picture, but int, of func(*picture) []example) (list []example) {
	for _, p := range all {
		if p.part != but {
			list = append(list, of(p)...)
		}
	}
	return list
}

// weighAll has a finder weigh every picture with its model, on all cores.
func weighAll(all []*picture, model func(*picture) *families.Model, take func(*picture, *families.Weighed)) {
	var wait sync.WaitGroup
	next := make(chan *picture)
	for range runtime.NumCPU() {
		wait.Go(func() {
			for p := range next {
				f := families.NewFinderWith(model(p))
				pixels := p.paint()
				f.Take(pixels, nil)
				take(p, f.Weigh(families.DefaultRules()))
				f.Close()
			}
		})
	}
	for _, p := range all {
		next <- p
	}
	close(next)
	wait.Wait()
}
