package wording

import (
	"errors"
	"strings"

	"app.tonedesk/gui/stills"
)

// SayProblem says what is wrong with a still, and where it was put.
func SayProblem(p stills.Problem) string {
	what := "open the still " + Quote(p.ID)
	if p.Aside != "" {
		return Sentence(what, "it is damaged", "it was set aside as it is, in "+Quote(p.Aside))
	}
	if errors.Is(p, stills.ErrDamaged) {
		return Sentence(what, "it is damaged", "it could not be set aside and lies where it was")
	}
	return Explain(what, p.Err)
}

// SayKeyFigures says a still's key figures in short: the gaps between its groups in tones,
// dark to light, and its murk; "" if it has none.
func SayKeyFigures(f stills.Figures) string {
	if len(f.Gaps) == 0 {
		return ""
	}
	gaps := make([]string, len(f.Gaps))
	for i, gap := range f.Gaps {
		gaps[i] = Tenth(gap)
	}
	said := strings.Join(gaps, " and ") + Nbsp + "tones apart"
	if f.Murk != nil {
		said += ", murk " + Percent(*f.Murk)
	}
	return said
}
