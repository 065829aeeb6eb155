package wording

// SayBaseFrom says where the colour comes from that others are proposed from: a spot, by its name
// ("spot B"), that it is held, or typed; without a colour, how to get one.
func SayBaseFrom(name string, held, typed bool) string {
	switch {
	case typed:
		return "typed"
	case held:
		return "held"
	case name == "":
		return "click a spot"
	}
	return "follows " + name
}

// SayBrings says what a swatch of a pair is that was brought to the other's lightness.
func SayBrings(name, to string) string { return name + " brought to " + to + "'s lightness" }

// SeenLightnessIs explains the third way to be equally light.
const SeenLightnessIs = "Seen lightness counts that a saturated colour looks lighter than its grey."
