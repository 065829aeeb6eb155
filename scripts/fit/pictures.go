package main

import (
	"fmt"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/drawingtest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/scenetest"
)

// picture is a picture with what is true of it: a drawing, or a painted scene.
type picture struct {
	part    int
	drawing *drawingtest.Drawing
	scene   *scenetest.Scene
	weight  float64

	links, locals []example
	family        []int // of each local, -1 for none
	sure          []bool
	shares        []float64 // see families.Choose
	colours       [][]int32
}

// scales are the sizes that drawings are rendered in: the same drawing falls on other cells.
var scales = []float64{1, 0.93, 0.81}

const (
	// sceneWeight is what a painted scene counts, a drawing being 1: there are many scenes, and
	// they are cleaner than what people draw (our choice).
	sceneWeight = 0.15
	// arguableWeight is what counts that a painter could argue about.
	arguableWeight = 0.5
	// emptyWeight is how much more a scene without families counts for being sure.
	emptyWeight = 4
	chanceSeeds = 20 // of scenes by chance
	kindSeeds   = 10 // of each kind of scene
)

// gather returns all pictures. All renderings of a drawing are of one part.
func gather(truths string) (all []*picture, err error) {
	for _, scale := range scales {
		drawings, err := drawingtest.Load(truths, scale)
		if err != nil {
			return nil, err
		}
		for i := range drawings {
			all = append(all, &picture{part: i % parts, drawing: &drawings[i], weight: 1 / float64(len(scales))})
		}
	}
	var scenes []*scenetest.Scene
	for _, name := range scenetest.Names() {
		scenes = append(scenes, scenetest.Named(name))
	}
	for seed := range chanceSeeds {
		scenes = append(scenes, scenetest.Random(scenetest.FirstOpen+seed))
	}
	for _, kind := range scenetest.Kinds() {
		for seed := range kindSeeds {
			scenes = append(scenes, scenetest.Kind(kind, scenetest.FirstOpen+seed))
		}
	}
	for i, s := range scenes {
		all = append(all, &picture{part: i % parts, scene: s, weight: sceneWeight})
	}
	return all, nil
}

func (p *picture) paint() analysis.Pixels {
	if p.drawing != nil {
		return p.drawing.Pixels
	}
	return p.scene.Pixels()
}

// takeLinks makes examples of the colours that touch: true is that they are of one family,
// whatever their sides. A family of many pieces counts as the root of their number.
func (p *picture) takeLinks(w *families.Weighed) {
	var owners []int
	if p.scene != nil {
		owners = p.scene.Owners(w.Width, w.Height, w.Map, len(w.Colours))
	}
	pieces := map[int]float64{}
	var family []int
	for _, l := range w.Links {
		k, same, weight := -1, false, p.weight
		if p.drawing != nil {
			if k, same = p.drawing.Same(w.Colours[l.Light], w.Colours[l.Shadow]); same && !p.drawing.Families[k].Sure {
				weight *= arguableWeight
			}
		} else {
			k = owners[l.Light]
			if k == scenetest.Unscored || owners[l.Shadow] == scenetest.Unscored {
				continue
			}
			same = k >= 0 && k == owners[l.Shadow]
		}
		if same {
			pieces[k]++
		} else {
			k = -1
		}
		family = append(family, k)
		p.links = append(p.links, example{l.Figures[:], same, weight})
	}
	for i, k := range family {
		if k >= 0 {
			p.links[i].weight /= math.Sqrt(pieces[k])
		}
	}
}

// takeLocals makes examples of local colours: true is that they are a family with its sides.
func (p *picture) takeLocals(w *families.Weighed) {
	for _, l := range w.Locals {
		if len(l.Found.List) == 0 {
			continue
		}
		k, is, sure, weight := -1, false, false, p.weight
		if p.drawing != nil {
			if k, is = p.drawing.Fits(&l.Found.List[0]); is {
				if sure = p.drawing.Families[k].Sure; !sure {
					weight *= arguableWeight
				}
			}
		} else {
			answers, family := p.scene.Answers(l.Found)
			if answers[0] == scenetest.Ignored {
				continue
			}
			k, is = family[0], answers[0] == scenetest.Right
			sure = is
			if len(p.scene.Families) == 0 {
				weight *= emptyWeight
			}
		}
		if !is {
			k = -1
		}
		p.locals = append(p.locals, example{l.Figures[:], is, weight})
		p.shares, p.colours = append(p.shares, l.Part), append(p.colours, l.Colours)
		p.family, p.sure = append(p.family, k), append(p.sure, sure)
	}
	p.shareFamilies()
}

// shareFamilies lets all that are true of one family count as the root of their number.
func (p *picture) shareFamilies() {
	count := map[int]float64{}
	for _, k := range p.family {
		count[k]++
	}
	for i, k := range p.family {
		if k >= 0 {
			p.locals[i].weight /= math.Sqrt(count[k])
		}
	}
}

// chosen returns the confidence of all that may be a local colour, and which of them are chosen.
func (p *picture) chosen(m *families.Model) (confidence []float64, of []int) {
	for _, e := range p.locals {
		logit := 0.0
		for k, v := range e.figures {
			logit += m.Sure[k] * v
		}
		confidence = append(confidence, sigmoid(logit))
	}
	return confidence, families.Choose(confidence, p.shares, p.colours)
}

// truths returns how many families should be found.
func (p *picture) truths() (n int) {
	if p.drawing != nil {
		for _, f := range p.drawing.Families {
			if f.Sure {
				n++
			}
		}
		return n
	}
	for _, f := range p.scene.Families {
		if f.Scored {
			n++
		}
	}
	return n
}

func (p *picture) String() string {
	if p.drawing != nil {
		return p.drawing.Name
	}
	return fmt.Sprint("scene ", p.scene.Name)
}
