package wording

import (
	"fmt"
	"image"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
)

// EdgesText is what is said of a picture's edges, sentences without their stops.
type EdgesText struct {
	Title string   // how many are lost
	Lines []string // the longest of them, and what holds others
}

// mostEdges is how many lost edges are said one by one.
const mostEdges = 6

// SayEdges says which edges of a picture are lost in grey, between which neighbours, and how many
// others a line or lightness alone carries.
func SayEdges(f *edges.Found, in NamesIn) (text EdgesText) {
	lost := f.Of(edges.Lost)
	text.Title = "no edge is lost in grey"
	if len(lost) > 0 {
		text.Title = counted(len(lost), "lost edge", "lost edges") + ", carried by colour alone, " + Percent(lengthOf(lost)) + " of the width in all"
	}
	for i := range lost[:min(len(lost), mostEdges)] {
		text.Lines = append(text.Lines, sayLostEdge(f, &lost[i], in))
	}
	if rest := len(lost) - mostEdges; rest > 0 {
		text.Lines = append(text.Lines, counted(rest, "shorter one", "shorter ones")+", "+Percent(lengthOf(lost[mostEdges:]))+" in all")
	}
	if lined := f.Of(edges.Lined); len(lined) > 0 {
		text.Lines = append(text.Lines, counted(len(lined), "border", "borders")+" of one lightness held by a line, "+Percent(lengthOf(lined)))
	}
	if alone := f.Of(edges.Lightness); len(alone) > 0 {
		text.Lines = append(text.Lines, counted(len(alone), "edge", "edges")+" carried by lightness alone, "+Percent(lengthOf(alone)))
	}
	return text
}

// sayLostEdge says which neighbours melt into each other, and where. Names that don't tell them apart
// have their colours' codes with them.
func sayLostEdge(f *edges.Found, e *edges.Edge, in NamesIn) string {
	dark := in.neighbour(e.Dark, func(do func(x, y float64)) { f.Beside(e, false, do) })
	light := in.neighbour(e.Light, func(do func(x, y float64)) { f.Beside(e, true, do) })
	if dark == light {
		dark, light = dark+Nbsp+e.Dark.Hex(), light+Nbsp+e.Light.Hex()
	}
	const whole = 1000 // finer than percent
	at, _ := f.At(e, image.Pt(whole, whole))
	said := fmt.Sprintf("%s melts into %s: %s, %s long, %s", dark, light, SayTones(e.Tones), Percent(e.Length), in.at(float64(at.X)/whole, float64(at.Y)/whole))
	if groups := in.groupsOf(e.Dark, e.Light); groups != "" {
		said += ", " + groups
	}
	return said
}

// groupOf returns the name of a colour's group; "" where it is in none.
func groupOf(c colour.RGB, groups []analysis.Group) string {
	l := analysis.SpotOf(c).Lightness
	for _, g := range groups {
		if g.From <= l && l <= g.To {
			return g.Name
		}
	}
	return ""
}

// lengthOf adds up how long edges are, shares of the picture's width.
func lengthOf(list []edges.Edge) (sum float64) {
	for i := range list {
		sum += list[i].Length
	}
	return sum
}

// counted is a number with what is counted.
func counted(n int, one, more string) string {
	if n == 1 {
		return "1" + Nbsp + one
	}
	return strconv.Itoa(n) + Nbsp + more
}
