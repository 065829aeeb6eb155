package wording

import (
	"reflect"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
)

// Sentence is what stands in large type below the picture: the answer to the question that a
// page asks. Functions say_sentence_*.go make them; a widget only shows them.
type Sentence struct {
	Title      string // the sentence; it never wraps
	Short      string // the same where Title finds no room
	Below      string // quieter, on a line below, where the page has one; "" for none
	BelowShort string // the same where Below finds no room
	Right      string // quieter, at the right, where room stays free; "" for none
	Bars       []Bar  // two lightnesses side by side, or one; none where there is an icon
	Icon       string // name of the icon in place of the bars, "" for none
	Dim        bool   // nothing holds at present: shown quieter
	Space      string // name of the space that the picture is read in, "" for sRGB
}

// Named appends the space to what stands quieter beside the sentence, or below it.
func (s Sentence) Named(words string) string {
	if s.Space == "" || words == "" {
		return words + s.Space
	}
	return words + ", " + s.Space
}

// Equal reports whether either says the same.
func (s Sentence) Equal(o Sentence) bool { return reflect.DeepEqual(s, o) }

// Bar is a lightness as a bar.
type Bar struct {
	Name      string  // a spot's letter, "" for none
	Lightness float64 // L*, 0 to 100: the height
	Grey      uint8   // 8-bit code: the fill
}

// Names of the icons that stand beside a sentence.
const (
	IconSpot   = "spot"
	IconRegion = "region"
	IconWindow = "window"
	IconFile   = "file"
	IconStill  = "still"
)

func barOf(name string, lightness float64) Bar {
	return Bar{Name: name, Lightness: lightness, Grey: colour.GreyOf(lightness)}
}

func spotBar(name string, s analysis.Spot) Bar { return barOf(name, s.Lightness) }

// placed returns a sentence without a picture's figures: what to do, and why.
func placed(icon, title, short, below, belowShort string) Sentence {
	return Sentence{Title: title, Short: short, Below: below, BelowShort: belowShort, Icon: icon}
}

// SayNoSpot asks for the first spot.
func SayNoSpot() Sentence {
	return placed(IconSpot, language.Say("Click a spot"), language.Say("Click a spot"), language.Say("A second click compares it with the first"), language.Say("A second click compares"))
}

// SayChooseSource asks what to watch, before anything was chosen.
func SayChooseSource() Sentence {
	return placed(IconRegion, language.Say("Choose what to watch"), language.Say("Choose a picture"), language.Say("It reads the screen and changes nothing there"), language.Say("It only reads the screen"))
}

// SayPlaceAgain says that the spots no longer lie where they were placed.
func SayPlaceAgain() Sentence {
	s := placed(IconSpot, language.Say("Place the spots again"), language.Say("Place spots again"), language.Say("The picture moved and they could not follow"), language.Say("The picture moved"))
	s.Dim = true
	return s
}

// SayNothingToWatch says that the source is gone; icon is the source's, ago the time since
// its last picture, as Age words it, "" if unknown.
func SayNothingToWatch(icon, ago string) Sentence {
	below, short := language.Say("Choose again in the bar"), language.Say("Choose again")
	if ago != "" {
		below = language.Say("Last seen %s ago. %s", ago, below)
	}
	s := placed(icon, language.Say("Nothing to watch"), language.Say("Nothing to watch"), below, short)
	s.Dim = true
	return s
}
