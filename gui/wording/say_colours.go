package wording

import "app.tonedesk/gui/language"

// SayBaseFrom says where the colour comes from that others are proposed from: a spot, by its name
// ("spot B"), that it is held, or typed; without a colour, how to get one.
func SayBaseFrom(name string, held, typed bool) string {
	switch {
	case typed:
		return language.Say("typed")
	case held:
		return language.Say("held")
	case name == "":
		return language.Say("click a spot")
	}
	return language.Say("follows %s", name)
}

// SayBrings says what a swatch of a pair is that was brought to the other's lightness.
func SayBrings(name, to string) string { return language.Say("%s brought to %s's lightness", name, to) }

// SeenLightnessIs explains the third way to be equally light.
const SeenLightnessIs language.Words = "Seen lightness counts that a saturated colour looks lighter than its grey."
