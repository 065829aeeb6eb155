package command

import (
	"io"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// fileReport is what desk read says of a picture file; its JSON names and units are the
// command line's contract. A figure that isn't there is null.
type fileReport struct {
	File         string           `json:"file"`
	Width        int              `json:"width"` // pixels
	Height       int              `json:"height"`
	Lightness    lightnessReport  `json:"lightness"`
	Histogram    [256]int         `json:"histogram"` // bin i counts the L* that round to i/2.55
	Groups       []analysis.Group `json:"groups"`    // dark to light
	Separability *float64         `json:"separability"`
	Gaps         []float64        `json:"gaps"` // tones, dark to light
	Murk         *float64         `json:"murk"` // share, 0 to 1
	Key          *analysis.Key    `json:"key"`
	Spots        []analysis.Spot  `json:"spots"`
	Limits       limitsReport     `json:"limits"`
	// Families are the largest first; null where they are left out.
	Families []families.Family `json:"families"`

	*targetReport // nil without a target
}

// limitsReport holds the shares of the counted pixels that are darker and lighter than
// analysis.DefaultLimits.
type limitsReport struct {
	DarkShare  *float64 `json:"dark_share"`
	LightShare *float64 `json:"light_share"`
}

// lightnessReport holds figures in L*.
type lightnessReport struct {
	Mean *float64 `json:"mean"`
	P1   *float64 `json:"p1"`
	P50  *float64 `json:"p50"`
	P99  *float64 `json:"p99"`
}

// reportOf takes out of a reading what is reported. It holds on to none of it.
func reportOf(path string, r *analysis.Reading, spots []analysis.Spot) fileReport {
	split := r.Chosen()
	report := fileReport{
		File: path, Width: r.Width, Height: r.Height,
		Lightness:    lightnessReport{known(r.Mean), known(r.P1), known(r.P50), known(r.P99)},
		Histogram:    r.Histogram,
		Groups:       append([]analysis.Group{}, split.Groups()...),
		Separability: known(split.Separability),
		Gaps:         append([]float64{}, split.Gaps()...),
		Murk:         known(split.Murk),
		Spots:        spots,
	}
	dark, light := r.Limits(analysis.DefaultLimits)
	report.Limits = limitsReport{known(dark), known(light)}
	if key := r.Key; key != "" {
		report.Key = &key
	}
	return report
}

// known returns v, nil if it is not a number.
func known(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// write prints one file's report. Failures to write show when out is flushed.
func (plan readPlan) write(out io.Writer, r fileReport, further bool) {
	if plan.json {
		_ = jsonLine(out, r)
		return
	}
	if further {
		_, _ = io.WriteString(out, "\n")
	}
	writeFile(out, r)
}
