package swatches

import (
	"fmt"

	"app.tonedesk/analysis"
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
		{"Lines", lines(s.Lines[:])},
		{"Suggested accents", suggested(s.Suggested)},
		{"Accents", accents("accent", s.Accents[:])},
		{"Accents at the gamut's edge", accents("full accent", s.EdgeAccents[:])},
	}
	kept := rows[:0]
	for _, row := range rows {
		if len(row.Swatches) > 0 {
			kept = append(kept, row)
		}
	}
	return kept
}

// steps names steps by their tones: "shadow 2".
func steps(name string, steps []propose.Step) []Swatch {
	var row []Swatch
	for _, step := range steps {
		if step.Spot != nil {
			tones := max(step.Tones, -step.Tones)
			row = append(row, Swatch{fmt.Sprintf("%s %.0f", name, tones), *step.Spot})
		}
	}
	return row
}

func lines(lines []propose.Line) []Swatch {
	plain := make([]propose.Step, len(lines))
	for i := range lines {
		plain[i] = lines[i].Step
	}
	return steps("line", plain)
}

// suggested numbers suggested accents.
func suggested(accents []propose.Accent) []Swatch {
	var row []Swatch
	for i, a := range accents {
		if a.Spot != nil {
			row = append(row, Swatch{fmt.Sprintf("suggested %d", i+1), *a.Spot})
		}
	}
	return row
}

// accents names accents by their Oklch hue: "accent 30".
func accents(name string, accents []propose.Accent) []Swatch {
	var row []Swatch
	for _, a := range accents {
		if a.Spot != nil {
			row = append(row, Swatch{fmt.Sprintf("%s %.0f", name, a.Hue), *a.Spot})
		}
	}
	return row
}

// OfPalette returns a picture's colours, a row for each family and one for what belongs to
// none, each from dark to light.
func OfPalette(p *palette.Palette) []Row {
	var rows []Row
	for _, group := range p.ByFamily() {
		title, name := "Other colours", "colour"
		if group.Family != nil {
			title = fmt.Sprintf("Family %d", *group.Family+1)
			name = fmt.Sprintf("family %d", *group.Family+1)
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
