package drawingtest

import (
	"fmt"

	"app.tonedesk/analysis/families"
)

// Tally adds up what a finder says about drawings.
type Tally struct {
	Drawings                                    int
	True, Arguable                              int // sure reports that are true; of them, those a painter could argue
	Duplicates, Invented, Steps                 int
	Truths, Found                               int // sure families, and those that a sure report is
	Largest, LargestWrong                       int // drawings with a sure report, and those whose largest is invented
	Accents                                     int // accents of invented reports
	Clean, Blank                                int // drawings without shading: those where nothing is invented, all
	UnsureTrue, UnsureDuplicate, UnsureInvented int
	Faults                                      []string
}

// Add judges what is said about a drawing, the largest first.
func (t *Tally) Add(d *Drawing, list []families.Family) {
	t.Drawings++
	judged := d.Judge(list)
	found := make([]bool, len(d.Families))
	invented, first := 0, true
	for i, j := range judged {
		if !list[i].Sure() {
			*[3]*int{&t.UnsureInvented, &t.UnsureDuplicate, &t.UnsureTrue}[j.Verdict]++
			continue
		}
		if first {
			t.Largest++
			if j.Verdict == Invented {
				t.LargestWrong++
			}
			first = false
		}
		switch j.Verdict {
		case True:
			t.True++
			if found[j.Family] = true; !d.Families[j.Family].Sure {
				t.Arguable++
			}
		case Duplicate:
			t.Duplicates++
		default:
			invented++
			if j.Step {
				t.Steps++
			}
			if list[i].Accent != nil {
				t.Accents++
			}
			t.fault(d, "invented %s %s", list[i].Light.Colour.Hex(), list[i].Shadow.Colour.Hex())
		}
	}
	t.Invented += invented
	for k, f := range d.Families {
		if f.Sure {
			t.Truths++
			if found[k] {
				t.Found++
			} else {
				t.fault(d, "missed %s", f.Name)
			}
		}
	}
	if len(d.Families) == 0 {
		t.Blank++
		if invented == 0 {
			t.Clean++
		}
	}
}

func (t *Tally) fault(d *Drawing, format string, args ...any) {
	t.Faults = append(t.Faults, d.Name+": "+fmt.Sprintf(format, args...))
}

// String says it in a few lines.
func (t *Tally) String() string {
	return fmt.Sprintf(`%d drawings: of %d reported as sure %d true (%.1f %% of true and invented; %d arguable), %d a second time, %d invented (%d two steps of one side)
%d of %d sure families found (%.1f %%); the largest is wrong in %d of %d; %d accents on invented ones; %d of %d without shading are clean
unsure: %d true, %d a second time, %d invented`,
		t.Drawings, t.True+t.Duplicates+t.Invented, t.True, percent(t.True, t.True+t.Invented), t.Arguable, t.Duplicates, t.Invented, t.Steps,
		t.Found, t.Truths, percent(t.Found, t.Truths), t.LargestWrong, t.Largest, t.Accents, t.Clean, t.Blank,
		t.UnsureTrue, t.UnsureDuplicate, t.UnsureInvented)
}

func percent(part, of int) float64 { return 100 * float64(part) / float64(max(of, 1)) }
