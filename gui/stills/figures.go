package stills

import (
	"math"

	"app.tonedesk/analysis"
)

// Figures are the key figures of a still's reading, as desk read has them. A figure that
// isn't there is nil.
type Figures struct {
	Lightness    Lightness        `json:"lightness"`
	Groups       []analysis.Group `json:"groups"` // dark to light
	Separability *float64         `json:"separability"`
	Gaps         []float64        `json:"gaps"` // tones, dark to light
	Murk         *float64         `json:"murk"` // share, 0 to 1
	Key          *analysis.Key    `json:"key"`
}

// Lightness holds figures in L*.
type Lightness struct {
	Mean *float64 `json:"mean"`
	P1   *float64 `json:"p1"`
	P50  *float64 `json:"p50"`
	P99  *float64 `json:"p99"`
}

// FiguresOf takes the key figures out of a reading. It holds on to none of it.
func FiguresOf(r *analysis.Reading) Figures {
	split := r.Chosen()
	f := Figures{
		Lightness:    Lightness{Known(r.Mean), Known(r.P1), Known(r.P50), Known(r.P99)},
		Groups:       append([]analysis.Group{}, split.Groups()...),
		Separability: Known(split.Separability),
		Gaps:         append([]float64{}, split.Gaps()...),
		Murk:         Known(split.Murk),
	}
	if key := r.Key; key != "" {
		f.Key = &key
	}
	return f
}

// Known returns v, nil if it is not a number.
func Known(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
