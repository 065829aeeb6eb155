package command

import (
	"fmt"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/wording"
)

// nameWidth is the first column of the reports on proposed colours.
const nameWidth = 18

// writeShades prints the proposals for a colour.
func writeShades(w io.Writer, s shadeSaid) {
	o := s.Options
	writeSpotHead(w, fmt.Sprintf("%*s", nameWidth, ""))
	writeSpot(w, fmt.Sprintf("%-*s", nameWidth, "local colour"), s.Base)
	fmt.Fprintf(w, "\nShadows, hue toward %.0f by %.2f of the way and saturation %s %% per tone\n",
		o.ShadowHue, o.Turn, signed(100*o.Gain, 0))
	writeSteps(w, s.Base, s.Ramp[:])
	fmt.Fprintln(w, "\nLights")
	writeSteps(w, s.Base, s.Lights[:])
	fmt.Fprintln(w, "\nStraight toward black, for comparison")
	writeSteps(w, s.Base, s.BlackRamp[:])
	fmt.Fprintln(w, "\nLines")
	for _, line := range s.Lines {
		writeProposed(w, wording.SayTones(line.Tones), line.Spot, wording.SayLine(s.Base, line))
	}
	writeAccents(w, s)
	if s.Judged != nil {
		fmt.Fprintln(w, "\nThe chosen shadow")
		writeProposed(w, "", &s.Judged.Family.Shadow, "")
		for _, sentence := range wording.SayJudgement(*s.Judged) {
			fmt.Fprintf(w, "  %s\n", plain(sentence))
		}
	}
}

func writeSteps(w io.Writer, base analysis.Spot, steps []propose.Step) {
	for _, step := range steps {
		writeProposed(w, wording.SayTones(step.Tones), step.Spot, wording.SayStep(base, step))
	}
}

// writeProposed prints a proposed colour, or the word that there is none.
func writeProposed(w io.Writer, name string, s *analysis.Spot, said string) {
	name = fmt.Sprintf("  %-*s", nameWidth-2, plain(name))
	if s == nil {
		fmt.Fprintf(w, "%s%s\n", name, plain(said))
		return
	}
	writeSpotSaid(w, name, *s, plain(said))
}

// writeAccents prints both rows of accents side by side, and the suggested ones.
func writeAccents(w io.Writer, s shadeSaid) {
	by := wording.SayEqualBy(s.Options.EqualBy)
	fmt.Fprintf(w, "\nSuggested accents, %s\n", by)
	for _, a := range s.Suggested {
		writeProposed(w, fmt.Sprintf("hue %.0f", turned(a.Hue)), a.Spot, wording.SayAccent(a))
	}
	fmt.Fprintf(w, "\nAccents, %s: at chroma %.2f (* less: the display has no more), and at the gamut's edge\n", by, s.Options.AccentChroma)
	for i, a := range s.Accents {
		fmt.Fprintf(w, "  %-*s%s   %s\n", nameWidth-2, fmt.Sprintf("hue %.0f", a.Hue), accentFigures(a), accentFigures(s.EdgeAccents[i]))
	}
}

// accentFigures returns a colour with its chroma; an accent that doesn't reach the chroma
// asked for has an asterisk.
func accentFigures(a propose.Accent) string {
	if a.Spot == nil {
		return fmt.Sprintf("%-16s", wording.SayAccent(a))
	}
	mark := " "
	if !a.InGamut {
		mark = "*"
	}
	return fmt.Sprintf("%s  %.3f %s", a.Spot.Colour.Hex(), a.Spot.Oklab.Chroma(), mark)
}
