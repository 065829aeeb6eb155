package command

import (
	"fmt"
	"io"

	"app.tonedesk/analysis"
)

// writeLimits prints how much of a picture is too dark and too light.
func writeLimits(w io.Writer, l limitsReport) {
	limits := analysis.DefaultLimits
	fmt.Fprintf(w, "  limits     %.1f %% darker than %.0f, %.1f %% lighter than %.0f\n",
		100**l.DarkShare, limits.Dark, 100**l.LightShare, limits.Light)
}
