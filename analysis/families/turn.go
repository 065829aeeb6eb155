package families

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// TurnsToward returns the name of the hue toward which the shadow turned: the one it reached,
// or the next in that direction if it stayed in the light's; "" if no turn is known, or none
// as printed.
func (f Family) TurnsToward() string {
	if f.HueTurn == nil || analysis.AsPrinted(*f.HueTurn) == 0 {
		return ""
	}
	return colour.HueToward(f.Light.Oklab.Hue(), f.Shadow.Oklab.Hue(), *f.HueTurn > 0)
}
