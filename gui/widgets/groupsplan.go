package widgets

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// groupsPlan is where everything lies in a card of groups of a width, and which words fit.
type groupsPlan struct {
	edges   []float32     // left edge of every group, and the right one of the last
	shares  []placedWords // on the bar
	names   []placedWords // under it
	under   []placedWords // second lines of names that find no room in one
	gaps    []placedWords // under the names, at the borders
	words   [2]float32    // tops of the lines of names and of gaps
	choose  rect          // the segments
	short   bool          // their words are the short ones
	ground  rect          // the button that leaves the ground out
	murk    rect          // none where it stands in the quiet lines
	quiet   []string      // the lines below
	quietAt float32       // top of the first
	height  float32
}

// placedWords are words with where they begin; "" where they find no room.
type placedWords struct {
	words string
	x     float32
}

const (
	groupBarHigh = 4 * Step // with its hairline
	wordsApart   = Step / 2 // least room between words on one line
)

// quietLine is the height of a line of small words.
func quietLine() float32 { return round(17 * textScale()) }

// planGroups lays out what t says in a width.
func planGroups(t wording.GroupsText, width float32) groupsPlan {
	p := groupsPlan{edges: shareEdges(t.Groups, width-2)}
	for i := range p.edges {
		p.edges[i]++ // beside the hairline
	}
	lines := linesOfNames(t, width)
	p.words = [2]float32{groupBarHigh + Step/2, groupBarHigh + Step/2 + float32(lines)*quietLine()}
	p.placeNames(t, lines)
	p.placeGaps(t, width)
	y := p.words[1] + quietLine()
	if len(t.Gaps) == 0 {
		y = p.words[1]
	}
	y = p.placeChoice(t, width, y+Step*0.75)
	p.quietAt = y + 2
	p.placeQuiet(t, width)
	p.height = p.quietAt + float32(len(p.quiet))*quietLine()
	return p
}

// linesOfNames is how many lines are kept for names: two where a short one may find no room in one. That
// is so by the width, the size of text and the words alone: no line comes and goes as shares change.
func linesOfNames(t wording.GroupsText, width float32) int {
	const narrow = 5 // a group with less than this part of the width is narrower than most (our choice)
	for _, n := range t.Names {
		if strings.Contains(n.Short, " ") && smallWidth(n.Short)+wordsApart > width/narrow {
			return 2
		}
	}
	return 1
}

// placeNames stands shares on their groups and names under them, in so many lines, as long as there is
// room.
func (p *groupsPlan) placeNames(t wording.GroupsText, lines int) {
	for i := range t.Groups {
		left, room := p.edges[i], p.edges[i+1]-p.edges[i]-wordsApart
		middle := func(words string) placedWords {
			return placedWords{words, left + (room+wordsApart-smallWidth(words))/2}
		}
		share, name := t.Shares[i], nameWithin(t.Names[i], room, lines)
		if smallWidth(share) > room {
			share = ""
		}
		p.shares, p.names, p.under = append(p.shares, middle(share)), append(p.names, middle(name[0])), append(p.under, middle(name[1]))
	}
}

// nameWithin is a name in the lines in which it finds room, whole before short; empty where it finds none.
func nameWithin(n wording.GroupName, room float32, lines int) [2]string {
	for _, words := range []string{n.Full, n.Short} {
		if smallWidth(words) <= room {
			return [2]string{words}
		}
		upper, lower, _ := strings.Cut(words, " ")
		if lines == 2 && max(smallWidth(upper), smallWidth(lower)) <= room {
			return [2]string{upper, lower}
		}
	}
	return [2]string{}
}

// placeGaps centres the gaps at the borders. Where they would touch, or a name is the short one, they
// lose their unit; then they move apart, and stay within the width.
func (p *groupsPlan) placeGaps(t wording.GroupsText, width float32) {
	place := func(short bool) (fits bool) {
		p.gaps, fits = p.gaps[:0], true
		end := float32(math.Inf(-1))
		for i, tones := range t.Gaps {
			words, unitless := wording.SayGap(tones)
			if short {
				words = unitless
			}
			wide := smallWidth(words)
			x := min(max(p.edges[i+1]-wide/2, 0), width-wide)
			if words != "" {
				fits = fits && x >= end+wordsApart
				end = x + wide
			}
			p.gaps = append(p.gaps, placedWords{words, x})
		}
		return fits
	}
	if !p.shortened(t) && place(false) || place(true) {
		return
	}
	limit := width
	for i := len(p.gaps) - 1; i >= 0; i-- { // from the right, to stay within the width
		if g := &p.gaps[i]; g.words != "" {
			g.x = min(g.x, limit-smallWidth(g.words))
			limit = g.x - wordsApart
		}
	}
	begin := float32(0)
	for i := range p.gaps {
		if g := &p.gaps[i]; g.words != "" {
			g.x = max(g.x, begin)
			begin = g.x + smallWidth(g.words) + wordsApart
		}
	}
}

// shortened reports whether a group has its short name for want of room.
func (p *groupsPlan) shortened(t wording.GroupsText) bool {
	for i, n := range t.Names {
		if p.under[i].words != "" || n.Short != n.Full && p.names[i].words == n.Short {
			return true
		}
	}
	return false
}

// segments are the words of the choice of a number of groups.
func segments(byHand, short bool) []string {
	words := []string{language.Say("Automatic"), "2", "3", "4"}
	if short {
		words[0] = language.Say("Auto")
	}
	if byHand && short {
		return append(words, language.Say("Hand"))
	}
	if byHand {
		return append(words, language.Say("By hand"))
	}
	return words
}

// segmentsWide is how wide such a row is, with so much around each word.
func segmentsWide(words []string, around float32) float32 {
	wide := float32(2 * segmentGap)
	for _, w := range words {
		wide += textWidth(w) + around
	}
	return wide
}

// Room around the word of a segment: as much as looks well, and as little as a pen can do with.
const (
	segmentRoomy = 30
	segmentTight = 26
)

// placeChoice stands segments, button and murk on one row, or on two, from y on, and returns where
// they end.
func (p *groupsPlan) placeChoice(t wording.GroupsText, width, y float32) float32 {
	row, apart := Row(), Step
	murk := textWidth(t.Murk)
	long, tight := segmentsWide(segments(t.ByHand, false), segmentRoomy), segmentsWide(segments(t.ByHand, false), segmentTight)
	short := segmentsWide(segments(t.ByHand, true), segmentTight)
	type form struct {
		wide, needs float32 // of the segments, and beside them
		short       bool
		beside      bool // the button stands there
		murk        bool // the murk does
	}
	tries := []form{
		{long, row + murk + 2*apart, false, true, true}, {tight, row + murk + apart, false, true, true}, {short, row + murk + apart, true, true, true},
		{tight, row + apart/2, false, true, false}, {short, row + apart/2, true, true, false},
		{tight, 0, false, false, true}, {short, 0, true, false, true},
	}
	if t.ByHand { // whole words matter more than the murk's place
		tries[2], tries[3] = tries[3], tries[2]
	}
	for _, try := range tries {
		if try.wide+try.needs <= width {
			return p.placeRows(rect{0, y, try.wide, row}, try.short, try.beside, try.murk, murk, width)
		}
	}
	return p.placeRows(rect{0, y, width, row}, true, false, true, murk, width)
}

// placeRows puts the button beside the segments or below them, and the murk beside the button, or
// into the quiet lines.
func (p *groupsPlan) placeRows(choose rect, short, beside, murkToo bool, murk, width float32) float32 {
	p.choose, p.short = choose, short
	p.ground = rect{choose.w + Step/2, choose.y, Row(), Row()}
	if !beside {
		p.ground = rect{0, choose.y + Row() + Step/2, Row(), Row()}
	}
	if murkToo {
		p.murk = rect{width - murk, p.ground.y, murk, Row()}
	}
	return p.ground.y + Row()
}

// placeQuiet breaks what else there is to say into lines.
func (p *groupsPlan) placeQuiet(t wording.GroupsText, width float32) {
	before := ""
	if p.murk.w == 0 && t.Murk != "" {
		before = wording.Stopped(t.Murk) + " "
	}
	for i, words := range t.Limits {
		if last := i == len(t.Limits)-1; last || smallWidth(before+words) <= width {
			p.quiet = brokenLines(before+words, width, math.MaxInt, smallWidth)
			break
		}
	}
	if t.Small != "" {
		p.quiet = append(p.quiet, brokenLines(t.Small, width, math.MaxInt, smallWidth)...)
	}
}

// shareEdges returns the left edge of every group and the right one of the last, in whole
// units, so that they meet between pixels.
func shareEdges(groups []analysis.Group, width float32) []float32 {
	edges := make([]float32, len(groups)+1)
	sum := 0.0
	for i, g := range groups {
		sum += g.Share
		edges[i+1] = min(max(float32(int(float64(width)*sum+0.5)), edges[i]), width)
	}
	return edges
}

// position and size are where a rect lies.
func (r rect) position() fyne.Position { return fyne.NewPos(r.x, r.y) }
func (r rect) size() fyne.Size         { return fyne.NewSize(max(r.w, 0), max(r.h, 0)) }
