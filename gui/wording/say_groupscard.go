package wording

import (
	"math"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
)

// GroupsText is what the card of groups shows, ready to be drawn.
type GroupsText struct {
	Groups []analysis.Group // from dark to light
	Shares []string         // "21 %", one a group
	Names  []GroupName      // one a group
	Gaps   []float64        // tones between neighbours, NaN beside an empty group
	Murk   string           // "Murk 14 %"; "" where there is no border
	Limits []string         // a quiet line, from the longest form to the shortest
	Small  string           // what becomes of the gaps in a smaller picture; "" where none is shown
	ByHand bool             // the borders are set by hand
	Asked  int              // for so many groups, 0 for as many as the picture needs
	Ground bool             // the groups are to be without the ground
}

// GroupName is the name of a group, in full and where there is little room.
type GroupName struct{ Full, Short string }

// SayGroupsCard is the card of a picture's groups; hatched says that what is beyond the limits is
// hatched in the picture.
func SayGroupsCard(r *analysis.Reading, limits analysis.Limits, hatched bool) GroupsText {
	split := r.Chosen()
	t := GroupsText{
		Groups: slices.Clone(split.Groups()), Shares: GroupShares(split.Groups()), Gaps: slices.Clone(split.Gaps()),
		Murk: sayMurk(split),
	}
	for _, g := range t.Groups {
		t.Names = append(t.Names, GroupName{language.Name(g.Name), language.Name(strings.Replace(g.Name, "middle", "mid", 1))})
	}
	dark, light := r.Limits(limits)
	t.Limits = sayLimits(dark, light, sayGroundShort(r.Ground, r.GroundShare()), hatched)
	return t
}

// sayMurk says how much of a picture lies near the borders of its groups.
func sayMurk(s *analysis.Split) string {
	if len(s.Groups()) < 2 {
		return ""
	}
	return language.Say("Murk\u00a0%s", Percent(s.Murk))
}

// MurkTip explains the murk.
const MurkTip language.Words = "Murk: so much lies within a quarter of a tone of a border, and belongs to no group clearly"

// sayLimits says how much of a picture lies beyond the limits of lightness, and what its groups are
// of where that is not all of it.
func sayLimits(dark, light float64, ground string, hatched bool) (words []string) {
	plain := language.Say("Too dark %s, too light %s", percentTenth(dark), percentTenth(light))
	switch {
	case ground != "":
		return []string{Stopped(ground) + " " + plain}
	case hatched:
		words = append(words, language.Say("%s, hatched in the picture", plain))
	}
	return append(words, plain)
}

// percentTenth is a share, 0 to 1, in percent with one decimal.
func percentTenth(share float64) string { return Tenth(100*share) + Nbsp + "%" }

// sayGroundShort says what groups are of, where that is to be other than the whole picture.
func sayGroundShort(g analysis.Ground, share float64) string {
	switch g {
	case analysis.GroundLeftOut:
		return language.Say("Without the ground, %s", Percent(share))
	case analysis.NoGround:
		return language.Say("No ground found")
	case analysis.OnlyGround:
		return language.Say("Hardly more than ground")
	}
	return ""
}

// SayGap is how many tones two groups are apart, with the unit and without; "" where that is
// unknown.
func SayGap(tones float64) (full, short string) {
	if math.IsNaN(tones) {
		return "", ""
	}
	return SayTones(tones), Tenth(tones)
}

// SayLeaderOf is the sentence on the groups of a picture. Where they are without the ground it says
// so in place of the key.
func SayLeaderOf(r *analysis.Reading) Sentence {
	groups := r.Chosen().Groups()
	if r.Ground == analysis.GroundLeftOut {
		return sayLeader(groups, language.Say("without the ground"), func(share string) string { return language.Say("%s without the ground", share) })
	}
	return SayLeader(groups, r.Key)
}
