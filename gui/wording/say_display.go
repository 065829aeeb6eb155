package wording

import (
	"errors"
	"io/fs"

	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture/monitors"
	"app.tonedesk/gui/language"
)

// What the settings say of the display's colours.
const (
	SayDisplayColours language.Words = "The display shows"
	SayOwnProfile     language.Words = "its own profile"
	SayProfileFile    language.Words = "a profile file"
)

// SayShownIn says in which colours the screen is read, and which monitor that is; "" where it isn't
// known. refused is why what is chosen isn't taken; nil where it is.
func SayShownIn(monitor, space string, refused error) string {
	if refused != nil {
		return SayDisplayRefused(refused)
	}
	if monitor == "" {
		return language.Say("Every display is read in %s.", space)
	}
	return language.Say("What lies on %s is read in %s.", monitor, space)
}

// longestSpace is how much of a space's name stands beside how the source does, in letters: what has
// room there (our choice). All of it stands in the explanation.
const longestSpace = 16

// InSpace says how a source does in whose picture there is light of a space: with all there is to say,
// with the space and a word, and the word alone, since the state is told in words at all times.
func InSpace(state [3]string, space string) [3]string {
	return [3]string{state[0] + ", " + space, ShortSpace(space) + ", " + state[2], state[2]}
}

// ShortSpace is a space's name in at most so many letters as have room beside other words.
func ShortSpace(space string) string {
	short := []rune(space)
	if len(short) > longestSpace {
		short = append(short[:longestSpace-1:longestSpace-1], '…')
	}
	return string(short)
}

// displayReasons are why a profile of a display isn't taken.
var displayReasons = []reason{
	{monitors.ErrNone, "the desktop keeps no colour profile for it", "choose a file, or a named space"},
	{profile.ErrTables, "its profile works by lookup tables, which are not read here", "choose one of primaries and curves"},
	{profile.ErrHDR, "its profile is of high dynamic range, which is not read here", "choose another"},
	{profile.ErrOther, "its profile is not one of red, green and blue", "choose another"},
	{profile.ErrLarge, "its profile is larger than 4 megabytes", "choose another"},
	{profile.ErrDamaged, "its profile is damaged", "choose another"},
	{fs.ErrNotExist, "the profile's file isn't there", "choose it again"},
	{fs.ErrPermission, "you are not allowed to open the profile's file", "choose another"},
}

// SayDisplayRefused says why what is chosen of a display isn't taken, and what is in its place.
func SayDisplayRefused(err error) string {
	why, act := Phrase("its profile can't be read"), Phrase("choose another")
	for _, r := range displayReasons {
		if errors.Is(err, r.is) {
			why, act = r.why, r.act
			break
		}
	}
	return language.Say("The display is read in sRGB: %s; %s in the settings.", why.String(), act.String())
}

// What is said of leaving our own window out of pictures of the screen.
const (
	SayLeaveOut     language.Words = "Leave this window out"
	SayLeaveOutNote language.Words = "All pictures and recordings of the screen show what lies beneath it."
	SayNotLeftOut   language.Words = "Can't leave the window out: the system does not do it; move the window aside instead."
)
