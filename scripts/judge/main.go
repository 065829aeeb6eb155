package main

import (
	"flag"
	"fmt"
	"log"

	"app.tonedesk/analysis/drawingtest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/scenetest"
)

func main() {
	log.SetFlags(0)
	truths := flag.String("truths", "testdata/drawings", "folder of the drawings' truths")
	seeds := flag.Int("seeds", 10, "scenes of each kind")
	first := flag.Int("first", firstSeed, "the first seed: of other seeds only scenes are judged, for trying things out")
	every := flag.Bool("v", false, "name every fault")
	why := flag.Bool("why", false, "say of each family at which step it is lost")
	others := flag.Int("others", 0, "say only how stable other drawings of the package are, of every so many one")
	flag.Parse()
	f := families.NewFinder()
	defer f.Close()
	if *others > 0 {
		if err := otherStability(f, *truths, *others); err != nil {
			log.Fatal(err)
		}
		return
	}
	if *first != firstSeed {
		judgeScenes(f, seedsFrom(*first, *seeds), *every, *why)
		return
	}
	drawings, err := drawingtest.Load(*truths, 1)
	if err != nil {
		log.Fatal(err)
	}
	if *why {
		for i := range drawings {
			list(true, whyDrawing(f, &drawings[i]))
		}
		judgeScenes(f, seedsFrom(*first, *seeds), *every, true)
		return
	}
	var drawn drawingtest.Tally
	for i := range drawings {
		f.Take(drawings[i].Pixels, nil)
		drawn.Add(&drawings[i], f.Find(families.DefaultRules()).List)
	}
	fmt.Println("DRAWINGS")
	fmt.Println(&drawn)
	list(*every, drawn.Faults)
	scenes(f, "NAMED SCENES", scenetest.Names(), scenetest.Named, *every)
	scenes(f, "SCENES BY CHANCE", seedsFrom(*first, *seeds), scenetest.Random, *every)
	judgeScenes(f, seedsFrom(*first, *seeds), *every, false)
	fmt.Println("STABILITY, drawings and scenes by chance")
	steady := newStability(f)
	for i := range drawings {
		steady.add(drawings[i].Pixels)
	}
	for _, seed := range seedsFrom(*first, *seeds) {
		steady.add(scenetest.Random(seed).Pixels())
	}
	fmt.Print(steady)
}

// firstSeed is the first of the seeds of scenes that are judged: weights are fitted on seeds before it.
const firstSeed = scenetest.FirstOpen + 20

func seedsFrom(first, n int) (seeds []int) {
	for i := range n {
		seeds = append(seeds, first+i)
	}
	return seeds
}

// judgeScenes judges the kinds of scenes, or says of each family where it is lost.
func judgeScenes(f *families.Finder, seeds []int, every, why bool) {
	for _, kind := range scenetest.Kinds() {
		paint := func(seed int) *scenetest.Scene { return scenetest.Kind(kind, seed) }
		if !why {
			scenes(f, "SCENES: "+kind, seeds, paint, every)
			continue
		}
		for _, seed := range seeds {
			list(true, whyScene(f, paint(seed)))
		}
	}
}

func list(every bool, faults []string) {
	if every {
		for _, fault := range faults {
			fmt.Println("  " + fault)
		}
	}
}

// scenes judges painted scenes.
func scenes[T any](f *families.Finder, name string, which []T, paint func(T) *scenetest.Scene, every bool) {
	var sum scenetest.Tally
	for _, w := range which {
		s := paint(w)
		f.Take(s.Pixels(), nil)
		sum.Add(s, f.Find(families.DefaultRules()))
	}
	fmt.Println(name)
	fmt.Println(&sum)
	list(every, sum.Faults)
}
