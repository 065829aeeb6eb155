package analysis

// TurnsToward returns the name of the hue toward which the shadow turned: the one it reached,
// or the next in that direction if it stayed in the light's; "" if no turn is known, or none
// as printed.
func (f Family) TurnsToward() string {
	if f.HueTurn == nil || AsPrinted(*f.HueTurn) == 0 {
		return ""
	}
	return HueToward(f.Light.Oklab.Hue(), f.Shadow.Oklab.Hue(), *f.HueTurn > 0)
}
