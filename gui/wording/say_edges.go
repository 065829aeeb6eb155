package wording

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/language"
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
	text.Title = language.Say("no edge is lost in grey")
	if len(lost) > 0 {
		text.Title = language.Count(len(lost), "%d"+Nbsp+"lost edge, carried by colour alone, %s of the width in all",
			"%d"+Nbsp+"lost edges, carried by colour alone, %s of the width in all", Percent(lengthOf(lost)))
	}
	for i := range lost[:min(len(lost), mostEdges)] {
		text.Lines = append(text.Lines, sayLostEdge(f, &lost[i], in))
	}
	if rest := len(lost) - mostEdges; rest > 0 {
		text.Lines = append(text.Lines, language.Count(rest, "%d"+Nbsp+"shorter one, %s in all", "%d"+Nbsp+"shorter ones, %s in all", Percent(lengthOf(lost[mostEdges:]))))
	}
	if lined := f.Of(edges.Lined); len(lined) > 0 {
		text.Lines = append(text.Lines, language.Count(len(lined), "%d"+Nbsp+"edge of one lightness held by a line, %s", "%d"+Nbsp+"edges of one lightness held by a line, %s", Percent(lengthOf(lined))))
	}
	if alone := f.Of(edges.Lightness); len(alone) > 0 {
		text.Lines = append(text.Lines, language.Count(len(alone), "%d"+Nbsp+"edge carried by lightness alone, %s", "%d"+Nbsp+"edges carried by lightness alone, %s", Percent(lengthOf(alone))))
	}
	return text
}

// sayLostEdge says which neighbours melt into each other, and where.
func sayLostEdge(f *edges.Found, e *edges.Edge, in NamesIn) string {
	dark, light := in.sides(e.Dark, e.Light,
		func(do func(x, y float64)) { f.Beside(e, false, do) }, func(do func(x, y float64)) { f.Beside(e, true, do) })
	const whole = 1000 // finer than percent
	at, _ := f.At(e, image.Pt(whole, whole))
	said := language.Say("%s melts into %s: %s, %s long, %s", dark, light, SayTones(e.Tones), Percent(e.Length), in.at(float64(at.X)/whole, float64(at.Y)/whole))
	if groups := in.groupsOf(e.Dark, e.Light); groups != "" {
		said = joined(said, groups)
	}
	return said
}

// sides names the two sides of an edge by what lies at some places of each. Names that don't tell them
// apart have their colours' codes with them.
func (in NamesIn) sides(dark, light colour.RGB, darkAt, lightAt func(do func(x, y float64))) (darker, lighter string) {
	darker, lighter = in.neighbour(dark, darkAt), in.neighbour(light, lightAt)
	if darker == lighter {
		return darker + Nbsp + dark.Hex(), lighter + Nbsp + light.Hex()
	}
	return darker, lighter
}

// SayMelts says which neighbours melt into each other at a lost edge that is pointed at, each with
// places that tell its name, from the longest way to say it to the shortest.
func (in NamesIn) SayMelts(dark, light colour.RGB, tones float64, darkAt, lightAt []families.At) [3]string {
	all := func(list []families.At) func(do func(x, y float64)) {
		return func(do func(x, y float64)) {
			for _, at := range list {
				do(at.X, at.Y)
			}
		}
	}
	darker, lighter := in.sides(dark, light, all(darkAt), all(lightAt))
	apart := Tenth(tones)
	return [3]string{
		language.Say("%s melts into %s: %s", Capitalised(darker), lighter, SayTones(tones)),
		language.Say("%s, %s: %s¦melting", Capitalised(darker), lighter, apart),
		language.Say("Melts: %s", apart),
	}
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
