package swatches

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// WriteCSS writes each colour as two custom properties, its hexadecimal code and the same
// colour as oklch(), named after the swatch: --shadow-1 and --shadow-1-oklch. Sources:
// CSSVARS, CSS4.
func WriteCSS(w io.Writer, rows []Row) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, ":root {")
	for _, row := range rows {
		fmt.Fprintf(out, "  /* %s */\n", strings.ReplaceAll(row.Title, "*/", "* /")) // it must not end the comment
		for _, s := range row.Swatches {
			name := property(s.Name)
			fmt.Fprintf(out, "  %s: %s;\n  %s-oklch: %s;\n", name, s.Spot.Colour.Hex(), name, CSSOklch(s.Spot.Colour))
		}
	}
	fmt.Fprintln(out, "}")
	return out.Flush()
}

// property returns the name of a custom property: small letters, digits and hyphens.
func property(name string) string {
	name = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(name))
	return "--" + name
}

// CSSOklch returns an 8-bit colour as CSS writes it in Oklch, with decimals enough to come
// back as the same colour. The hue of a neutral is none. Source: CSS4.
func CSSOklch(c colour.RGB) string {
	s := analysis.SpotOf(c)
	if c.Neutral() {
		return fmt.Sprintf("oklch(%.3f%% 0 none)", 100*s.Oklab.L)
	}
	ok := s.Oklab.Oklch()
	return fmt.Sprintf("oklch(%.3f%% %.5f %.2f)", 100*ok.L, ok.C, ok.H)
}

// CodesEnding ends the name of a list of codes alone, which is text too.
const CodesEnding = "-codes.txt"

// WriteCodes writes the colours' hexadecimal codes, one a line.
func WriteCodes(w io.Writer, rows []Row) error {
	out := bufio.NewWriter(w)
	for _, row := range rows {
		for _, s := range row.Swatches {
			fmt.Fprintln(out, s.Spot.Colour.Hex())
		}
	}
	return out.Flush()
}

// WriteText writes the colours for reading: row by row, a line each with name, code,
// lightness and value.
func WriteText(w io.Writer, rows []Row) error {
	out := bufio.NewWriter(w)
	widest := 0
	for _, row := range rows {
		for _, s := range row.Swatches {
			widest = max(widest, len(s.Name))
		}
	}
	for i, row := range rows {
		if i > 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprintln(out, row.Title)
		for _, s := range row.Swatches {
			fmt.Fprintf(out, "  %-*s  %s  lightness %5.1f  value %4.1f\n", widest, s.Name,
				s.Spot.Colour.Hex(), analysis.AsPrinted(s.Spot.Lightness), analysis.AsPrinted(s.Spot.Value))
		}
	}
	return out.Flush()
}
