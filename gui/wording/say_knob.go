package wording

import (
	"fmt"
	"math"
	"strconv"

	"app.tonedesk/analysis/views"
)

// SayKnob says where a knob stands: "Strength 2 % of the longer side".
func SayKnob(k views.Knob, at float64) string {
	number := strconv.FormatFloat(math.Round(at*100)/100, 'f', -1, 64)
	if k.Unit == "" {
		return fmt.Sprintf("%s%s%s", k.Name, Nbsp, number)
	}
	return fmt.Sprintf("%s%s%s%s%s", k.Name, Nbsp, number, Nbsp, k.Unit)
}
