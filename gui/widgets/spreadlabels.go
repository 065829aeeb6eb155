package widgets

import (
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// groupLabel is what stands over a group: its share, and its name in the same line or below it.
type groupLabel struct {
	share, name string
	middle      float32
}

// How far a group's share and its name in a line of its own stay from the borders: beside the
// former are the grips.
const (
	shareGap = Step * 3 / 4
	nameGap  = Step / 2
)

// groupLabels says the groups' shares over them, in a spread of this width and with so many
// lines. A label never leaves its group: where the name has no room it is shortened, then left
// out, and so is a share in a group that is narrower than it.
func groupLabels(groups []analysis.Group, width float32, lines int, measure func(string) float32) []groupLabel {
	labels, shares := make([]groupLabel, len(groups)), wording.GroupShares(groups)
	for i, g := range groups {
		left, right := max(spreadX(g.From, width), Step/2), min(spreadX(g.To, width), width-Step/2)
		middle := (left + right) / 2
		within := func(gap float32) float32 {
			if len(groups) == 1 {
				return right - left
			}
			return right - left - 2*gap
		}
		l := groupLabel{share: shares[i], middle: middle}
		if measure(l.share) > within(shareGap) {
			l.share = ""
		}
		if lines == 1 {
			l.name = wholeName(g.Name, l.share, within(shareGap), measure)
		} else {
			l.name = fittingName(g.Name, within(nameGap), measure)
		}
		labels[i] = l
	}
	return labels
}

// wholeName is a group's name where it has room before its share, else nothing.
func wholeName(name, share string, room float32, measure func(string) float32) string {
	name = language.Name(name)
	if share == "" || measure(name+" "+share) > room {
		return ""
	}
	return name
}

// fittingName is a group's name, shortened or left out where there is no room.
func fittingName(name string, room float32, measure func(string) float32) string {
	for _, n := range []string{language.Name(name), language.Name(strings.Replace(name, "middle", "mid", 1))} {
		if measure(n) <= room {
			return n
		}
	}
	return ""
}

// upper returns the words of the first line.
func (l groupLabel) upper(lines int) string {
	if lines == 1 && l.name != "" {
		return l.name + " " + l.share
	}
	return l.share
}

// lower returns the words of the second line.
func (l groupLabel) lower(lines int) string {
	if lines == 1 {
		return ""
	}
	return l.name
}
