package scenetest

import (
	"fmt"
	"math"
)

// measure fills in what the truths' masks say.
func (e *easel) measure() {
	s := e.scene
	sums := make([][4]mean3, len(s.Families))
	for i, l := range e.label {
		if f, side, ok := s.owner(l); ok {
			sums[f][side].add(e.pix[i])
		}
	}
	n := float64(len(e.label))
	for f, sum := range sums {
		t := &s.Families[f]
		t.Light, t.Shadow = sum[Light].colour(), sum[Shadow].colour()
		t.LightShare, t.ShadowShare = float64(sum[Light].count)/n, float64(sum[Shadow].count)/n
		if sum[Accent].count > 0 {
			c := sum[Accent].colour()
			t.Accent = &c
		}
	}
}

// doubt takes families out of the score of which too little shows.
func (e *easel) doubt() {
	for f := range e.scene.Families {
		t := &e.scene.Families[f]
		if !t.Scored {
			continue
		}
		if t.large(); !t.Scored {
			continue
		}
		if edge := e.commonEdge(f); edge < leastEdge {
			t.Scored, t.Why = false, fmt.Sprintf("hardly an edge between light and shadow shows: %.1f", edge)
		}
	}
}

// large takes a family out of the score if too little shows of a side.
func (t *Truth) large() {
	if least := min(t.LightShare, t.ShadowShare); t.Scored && least < leastShare {
		t.Scored, t.Why = false, fmt.Sprintf("only %.1f %% of the picture shows of a side", 100*least)
	}
}

// leastShare is the least that a scored side takes of the picture.
const leastShare = 0.012

// leastEdge is the least length of the edge between light and shadow, over the root of the
// smaller side's area: a square on the ground of another has 1 with one side on the edge.
const leastEdge = 0.8

// commonEdge counts the steps from light to shadow along rows and columns, over at most a
// band of the accent's width, against the root of the smaller side.
func (e *easel) commonEdge(family int) float64 {
	t := &e.scene.Families[family]
	reach := max(6, max(e.width, e.height)/16)
	if t.Accent == nil {
		reach = 6
	}
	reach = max(reach, t.between)
	side := make([]int8, len(e.label)) // 1 light, 2 shadow, 3 may be crossed
	for i, l := range e.label {
		if l == unjudged {
			side[i] = 3
		}
		if f, is, ok := e.scene.owner(l); ok && f == family {
			side[i] = [4]int8{1, 2, 3, 0}[is]
		}
	}
	run := func(length, step, first int) (edges int) {
		last, since := int8(0), 0
		for i := range length {
			switch now := side[first+i*step]; {
			case now == 3:
				since++
			case now == 0 || since > reach:
				last, since = now, 0
			default:
				if last != 0 && last != now {
					edges++
				}
				last, since = now, 0
			}
		}
		return edges
	}
	rows, columns := 0, 0
	for y := range e.height {
		rows += run(e.width, 1, y*e.width)
	}
	for x := range e.width {
		columns += run(e.height, e.width, x)
	}
	smaller := min(t.LightShare, t.ShadowShare) * float64(len(e.label))
	return math.Hypot(float64(rows), float64(columns)) / math.Sqrt(max(smaller, 1))
}

// mean3 averages paint in linear light.
type mean3 struct {
	red, green, blue float64
	count            int
}

func (m *mean3) add(p paint) {
	c := p.linear()
	m.red += c.Red
	m.green += c.Green
	m.blue += c.Blue
	m.count++
}

func (m *mean3) colour() Colour {
	n := float64(max(m.count, 1))
	return Colour{m.red / n, m.green / n, m.blue / n}
}
