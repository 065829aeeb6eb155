package main

import (
	"fmt"
	"math"
	"os"
	"strings"
	"time"

	"app.tonedesk/analysis/families"
)

// report says how held-out models do: on drawings and on scenes what is true of what is sure,
// what is found, and whether confidence is what it says.
func report(all []*picture, model func(*picture) *families.Model) string {
	var b strings.Builder
	for _, what := range []struct {
		name string
		has  func(*picture) bool
	}{
		{"drawings", func(p *picture) bool { return p.drawing != nil }},
		{"painted scenes", func(p *picture) bool { return p.scene != nil }},
	} {
		var held tally
		for _, p := range all {
			if what.has(p) {
				held.add(p, model(p))
			}
		}
		fmt.Fprintf(&b, "held out, %s: of %d sure %d are true (%.1f %%), %d a second time; found %d of %d (%.1f %%)\n",
			what.name, held.said, held.right, percent(held.right, held.said-held.twice), held.twice, held.found, held.truths, percent(held.found, held.truths))
		b.WriteString(held.calibration())
	}
	return b.String()
}

const bins = 10

type tally struct {
	said, right, twice, found, truths int
	sum, hit, count                   [bins]float64 // by confidence
}

func (t *tally) add(p *picture, m *families.Model) {
	t.truths += p.truths()
	got := map[int]bool{}
	confidence, chosen := p.chosen(m)
	for _, i := range chosen {
		c, e := confidence[i], p.locals[i]
		if c < families.LeastSure {
			continue
		}
		bin := min(int(c*bins), bins-1)
		t.sum[bin] += c
		t.count[bin]++
		if e.true {
			t.hit[bin]++
		}
		if c < families.SureFrom {
			continue
		}
		t.said++
		switch k := p.family[i]; {
		case !e.true:
		case got[k]:
			t.twice++
		default:
			got[k] = true
			t.right++
			if p.sure[i] {
				t.found++
			}
		}
	}
}

// calibration says bin by bin how many of those with a confidence are true, and how far that
// is off, all in all.
func (t *tally) calibration() string {
	var b strings.Builder
	off, all := 0.0, 0.0
	for k, n := range t.count {
		if n == 0 {
			continue
		}
		fmt.Fprintf(&b, "  confidence %.2f: %.0f, of which %.2f true\n", t.sum[k]/n, n, t.hit[k]/n)
		off += math.Abs(t.sum[k] - t.hit[k])
		all += n
	}
	fmt.Fprintf(&b, "  off by %.3f in the mean\n", off/max(all, 1))
	return b.String()
}

func percent(part, of int) float64 { return 100 * float64(part) / float64(max(of, 1)) }

// head is what the table of weights begins with: when it was fitted, and on how many pictures.
const head = `package families

// fitted are the weights that Find uses. Written by make fit on %s, fitted on %d pictures:
// the drawings of testdata/drawings in three sizes, and the painted scenes of analysis/scenetest.
`

// write writes the weights as a table of Go.
func write(path string, m *families.Model, pictures int) error {
	text := fmt.Sprintf(head, time.Now().Format(time.DateOnly), pictures) + table(m)
	return os.WriteFile(path, []byte(text), 0o644)
}

// differs says whether the weights in a file aren't those of a model.
func differs(path string, m *families.Model) error {
	text, err := os.ReadFile(path)
	if err == nil && !strings.HasSuffix(string(text), table(m)) {
		err = fmt.Errorf("the weights in %s are not what make fit writes: run it", path)
	}
	return err
}

// table returns the weights as Go.
func table(m *families.Model) string {
	var b strings.Builder
	b.WriteString("var fitted = Model{\n")
	for _, w := range []struct {
		name, count string
		weights     []float64
	}{{"Link", "linkFigures", m.Link[:]}, {"Sure", "sureFigures", m.Sure[:]}} {
		fmt.Fprintf(&b, "\t%s: [%s]float64{\n", w.name, w.count)
		for _, v := range w.weights {
			fmt.Fprintf(&b, "\t\t%.4f,\n", v)
		}
		b.WriteString("\t},\n")
	}
	b.WriteString("}\n")
	return b.String()
}
