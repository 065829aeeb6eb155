package swatches

import (
	"fmt"
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/propose"
)

// Swatch is a colour with its name.
type Swatch struct {
	Name string // short, in the painter's words; no two of an export are alike
	Spot analysis.Spot
}

// Row is a row of swatches that belong together.
type Row struct {
	Title    string
	Swatches []Swatch
}

// OfShades returns the colours proposed from one, row by row. Steps without room are left
// out, and so are rows without swatches.
func OfShades(s *propose.Shades) []Row {
	rows := []Row{
		{"Local colour and shadows", append([]Swatch{{"local", s.Base}}, steps("shadow", s.Ramp[:])...)},
		{"Lights", steps("light", s.Lights[:])},
		{"Straight toward black", steps("black", s.BlackRamp[:])},
		{"Lines", named(s.Lines[:], func(_ int, l propose.Line) (string, *analysis.Spot) { return stepName("line", l.Step), l.Spot })},
		{"Suggested accents", named(s.Suggested, func(i int, a propose.Accent) (string, *analysis.Spot) {
			return fmt.Sprintf("suggested %d", i+1), a.Spot
		})},
		{"Accents", accents("accent", s.Accents[:])},
		{"Accents at the gamut's limit", accents("full accent", s.FullAccents[:])},
	}
	return slices.DeleteFunc(rows, func(row Row) bool { return len(row.Swatches) == 0 })
}

// named makes a swatch of each that has a spot.
func named[T any](all []T, of func(i int, v T) (string, *analysis.Spot)) (row []Swatch) {
	for i, v := range all {
		if name, spot := of(i, v); spot != nil {
			row = append(row, Swatch{name, *spot})
		}
	}
	return row
}

func steps(name string, steps []propose.Step) []Swatch {
	return named(steps, func(_ int, s propose.Step) (string, *analysis.Spot) { return stepName(name, s), s.Spot })
}

// stepName names a step by its tones: "shadow 2", or "shadow 2.4" of a picture's own light.
func stepName(name string, s propose.Step) string {
	return fmt.Sprintf("%s %g", name, math.Round(10*math.Abs(s.Tones))/10)
}

// accents names accents by their Oklch hue: "accent 30".
func accents(name string, accents []propose.Accent) []Swatch {
	return named(accents, func(_ int, a propose.Accent) (string, *analysis.Spot) {
		return fmt.Sprintf("%s %.0f", name, a.Hue), a.Spot
	})
}

// OfPalette returns a picture's colours, a row for each family and one for what belongs to
// none, each from dark to light.
func OfPalette(p *palette.Palette) []Row {
	var rows []Row
	for _, group := range p.ByFamily() {
		title, name := "Other colours", "colour"
		if group.Family != nil {
			title = fmt.Sprintf("Local colour %d", *group.Family+1)
			name = fmt.Sprintf("local %d", *group.Family+1)
		}
		row := Row{Title: title}
		counts := map[string]int{}
		for _, i := range group.Colours {
			c := &p.Colours[i]
			part := name
			if c.Side != "" {
				part += " " + string(c.Side)
			}
			counts[part]++
			if n := counts[part]; n > 1 || c.Side == "" {
				part = fmt.Sprintf("%s %d", part, n)
			}
			row.Swatches = append(row.Swatches, Swatch{part, c.Spot})
		}
		rows = append(rows, row)
	}
	return rows
}

// OfRelit returns the local colours of a picture with the shadows that a chosen light would give
// them, a row for each.
func OfRelit(u light.Under) (rows []Row) {
	for i, r := range u.Relit {
		name := fmt.Sprintf("local %d", i+1)
		rows = append(rows, Row{fmt.Sprintf("Local colour %d", i+1), []Swatch{
			{name + " shadow", *r.Shadow.Spot}, {name + " light", r.Light},
		}})
	}
	return rows
}
