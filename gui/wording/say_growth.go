package wording

import (
	"math"
	"reflect"
	"time"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/language"
)

// GrowthText is what is said and drawn of how a picture grew. Sentences are without their stops.
type GrowthText struct {
	Title string   // what turned most, or that nothing did
	More  []string // what else turned, or went one way throughout
	About string   // which pictures these are
	Lines []GrowthLine
}

// GrowthLine is a small line over time, ready to be drawn.
type GrowthLine struct {
	Name    string        // what it is of
	Colours []colour.RGB  // of a local colour: light and shadow; else none
	First   string        // its first figure
	Last    string        // its last, with its unit
	Points  []GrowthPoint // of the moments that have a figure
	Turn    int           // where it turned, an index into the points; -1 for nowhere
	Said    string        // of its turn; "" for none
}

// GrowthPoint is a place on a line: 0 to 1 from left to right and from below to the top.
type GrowthPoint struct {
	X, Y float64
	Gap  bool // between it and the point before there is a moment without a figure
}

// Equal reports whether either shows the same.
func (t GrowthText) Equal(o GrowthText) bool { return reflect.DeepEqual(t, o) }

// mostTurns is how many turns are said beside the first (our choice); mostFollowed of how many local
// colours, the largest, lines are drawn.
const (
	mostTurns    = 3
	mostFollowed = 6
)

// SayGrowth says how a picture grew; names are what the moments of the series are called, as
// MomentNames has them, and values count from white or from black.
func SayGrowth(s *growth.Series, names []string, fromWhite bool) (t GrowthText) {
	turned := s.Turned()
	t.Title = language.Say("nothing has turned, and nothing has gone far one way")
	for n, i := range turned {
		said := sayGrowthTurn(s, i, names)
		switch {
		case n == 0:
			t.Title = said
		case n <= mostTurns:
			t.More = append(t.More, said)
		}
	}
	if rest := len(turned) - 1 - mostTurns; rest > 0 {
		t.More = append(t.More, language.Count(rest, "%d"+Nbsp+"more line has changed", "%d"+Nbsp+"more lines have changed"))
	}
	t.About = sayMoments(names)
	places := growth.Places(s.Moments)
	for i := range s.Lines {
		if l := s.Lines[i].LocalColour; l == nil || *l < mostFollowed {
			t.Lines = append(t.Lines, growthLine(s, i, places, names, fromWhite))
		}
	}
	return t
}

// sayMoments says how many pictures there are and of when.
func sayMoments(names []string) string {
	said := language.Count(len(names), "%d"+Nbsp+"picture", "%d"+Nbsp+"pictures")
	if n := len(names); n > 1 && names[0] != names[n-1] {
		said = joined(said, language.Say("%s to %s", names[0], names[n-1]))
	}
	return said
}

// MomentNames are what moments are called by their times: "21:40" where all are of one day, else
// "1 Mar 21:40"; with seconds where neighbours would be called the same.
func MomentNames(times []time.Time) (names []string) {
	day, minute := "", "15:04"
	for i, at := range times {
		if at.Local().Format("2006-01-02") != times[0].Local().Format("2006-01-02") {
			day = language.Say("2\u00a0Jan\u00a0")
		}
		if i > 0 && at.Truncate(time.Minute).Equal(times[i-1].Truncate(time.Minute)) {
			minute = "15:04:05"
		}
	}
	for _, at := range times {
		names = append(names, at.Local().Format(day+minute))
	}
	return names
}

// sayGrowthTurn says since when a line has changed, and by how much.
func sayGrowthTurn(s *growth.Series, i int, names []string) string {
	l := &s.Lines[i]
	since := language.Say("since %s ", names[l.Turn.At])
	if l.Turn.Throughout {
		since = language.Say("from the first picture on, %s, ", names[l.Turn.At])
	}
	by := math.Abs(l.Turn.Change)
	way := func(down, up language.Words, args ...any) string {
		if l.Turn.Change < 0 {
			return since + language.Say(down, args...)
		}
		return since + language.Say(up, args...)
	}
	switch l.Kind {
	case growth.GroupShare:
		return way("%s has shrunk by %s of the picture", "%s has grown by %s of the picture", groupName(l.Group), Percent(by))
	case growth.Gap:
		return way("%s and %s have drawn together by %s", "%s and %s have moved apart by %s", groupName(l.Group), groupName(l.Lighter), SayTones(by))
	case growth.MeanValue:
		return way("the picture has become %s darker", "the picture has become %s lighter", SayTones(by))
	case growth.Murk:
		return way("the murk has shrunk by %s of the picture", "the murk has grown by %s of the picture", Percent(by))
	case growth.Tones:
		return way("light and shadow of the %s have drawn together by %s", "light and shadow of the %s have moved apart by %s", codeOf(s, l), SayTones(by))
	case growth.HueShift:
		from, to := SayHueTick(math.Round(l.Turn.From), false), SayHueTick(math.Round(l.Turn.To), false)
		return since + language.Say("the hue shift of the %s has gone from %s to %s", codeOf(s, l), from, to)
	case growth.LostEdges:
		return way("lost edges have shrunk by %s of the width", "lost edges have grown by %s of the width", Percent(by))
	case growth.Distance:
		return way("the picture has come nearer to the target by %s", "the picture has moved away from the target by %s", SayTones(by))
	}
	return ""
}

// growthLine is a line as it is drawn.
func growthLine(s *growth.Series, i int, places []float64, names []string, fromWhite bool) GrowthLine {
	l := &s.Lines[i]
	first, last := l.Ends()
	g := GrowthLine{First: sayGrown(l.Kind, first, false), Last: sayGrown(l.Kind, last, true), Turn: -1}
	if l.Kind == growth.MeanValue {
		g.First, g.Last = ValueSay(first, fromWhite), ValueSay(last, fromWhite)
	}
	g.Name = growthNames[l.Kind].String()
	switch l.Kind {
	case growth.GroupShare:
		g.Name = language.Name(l.Group)
	case growth.Gap:
		g.Name = language.Say("%s to %s", language.Name(l.Group), language.Name(l.Lighter))
	case growth.Tones, growth.HueShift:
		c := &s.LocalColours[*l.LocalColour]
		g.Colours = []colour.RGB{c.Light.Colour, c.Shadow.Colour}
	}
	low, high := l.Span()
	gap := false
	for k, v := range l.Values {
		if math.IsNaN(v) {
			gap = len(g.Points) > 0
			continue
		}
		if l.Turn != nil && l.Turn.At == k && !l.Turn.Throughout {
			g.Turn = len(g.Points)
		}
		y := 0.5
		if high > low {
			y = (v - low) / (high - low)
		}
		g.Points = append(g.Points, GrowthPoint{places[k], y, gap})
		gap = false
	}
	if l.Turn != nil {
		g.Said = sayGrowthTurn(s, i, names)
	}
	return g
}

// growthNames are what the lines are called that have no names of their own.
var growthNames = map[growth.Kind]language.Words{
	growth.MeanValue: "mean value", growth.Murk: "murk", growth.Tones: "tones", growth.HueShift: "hue shift",
	growth.LostEdges: "lost edges", growth.Distance: "from target",
}

// sayGrown is a figure of a line, with its unit or without.
func sayGrown(k growth.Kind, v float64, unit bool) string {
	if math.IsNaN(v) {
		return Unknown
	}
	switch k {
	case growth.GroupShare, growth.Murk, growth.LostEdges:
		if unit {
			return Percent(v)
		}
		return Whole(100 * v)
	case growth.HueShift:
		return SayHueTick(math.Round(v), false)
	}
	if unit {
		return SayTones(v)
	}
	return Tenth(v)
}

// SayNoSeries says why no lines are drawn of so many pictures.
func SayNoSeries(pictures int) string {
	if pictures == 0 {
		return language.Say("Nothing is kept of it yet.")
	}
	return language.Say("It takes two stills of one picture: keep another one.")
}

// SayReadingSeries says how many pictures of a series are read.
func SayReadingSeries(done, of int) string { return language.Say("Reading %d of %d …", done+1, of) }

// codeOf is what a local colour is called by: its hue, and the code of its light.
func codeOf(s *growth.Series, l *growth.Line) string {
	light := s.LocalColours[*l.LocalColour].Light
	return hueWord(light) + Nbsp + light.Colour.Hex()
}

// SayThinned adds to what is said of so many pictures that they were taken out of more.
func SayThinned(about string, taken, of int) string {
	if taken == of {
		return about
	}
	return joined(about, language.Say("taken out of %s", Whole(float64(of))))
}
