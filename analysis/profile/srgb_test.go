package profile

import (
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis/colour"
)

// sRGB read from a profile agrees with the built-in way to 0.01 L*, whatever way the profile says
// it: with our own numbers, and with those of the ICC's own sRGB profile, whose primaries are
// adapted to D50 and rounded to 1/65536 (from memory: s15Fixed16 of rXYZ 0.43607 0.22249 0.01392,
// gXYZ 0.38515 0.71687 0.09708, bXYZ 0.14307 0.06061 0.71410), and SRGB's curve as a formula or as
// a table of 1024.
func TestSRGBOfAProfileIsTheBuiltInWay(t *testing.T) {
	own := Write(colour.SRGB)
	primaries := own
	for name, of := range map[string][]float64{"rXYZ": {0.43607, 0.22249, 0.01392}, "gXYZ": {0.38515, 0.71687, 0.09708}, "bXYZ": {0.14307, 0.06061, 0.71410}} {
		primaries = withTag(primaries, name, append([]byte("XYZ \x00\x00\x00\x00"), numbers(of...)...))
	}
	formula, table := primaries, primaries
	points := make([]byte, 12, 12+2*1024)
	copy(points, "curv")
	points[10] = 1024 >> 8
	for i := range 1024 {
		v := uint16(math.Round(65535 * colour.LinearOf(float64(i)/1023)))
		points = append(points, byte(v>>8), byte(v))
	}
	for _, name := range []string{"rTRC", "gTRC", "bTRC"} {
		formula = withTag(formula, name, para(3, 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045))
		table = withTag(table, name, points)
	}
	const most = 0.01 // L*, asked for
	rng := rand.New(rand.NewPCG(1, 2))
	for name, data := range map[string][]byte{"our own": own, "a formula": formula, "a table": table} {
		s, err := Read(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		known, worst := s.Known(), 0.0
		for i := range 10000 {
			c := colour.RGB{R: byte(rng.IntN(256)), G: byte(rng.IntN(256)), B: byte(rng.IntN(256))}
			if i < 256 {
				c = colour.RGB{R: byte(i), G: byte(i), B: byte(i)}
			}
			want := colour.LabOf(colour.Linears[c.R], colour.Linears[c.G], colour.Linears[c.B]).L
			worst = max(worst, math.Abs(s.LabOfCode(c).L-want), math.Abs(known.LabOfCode(c).L-want))
		}
		t.Logf("%s: at most %.4f L* apart", name, worst)
		if worst > most {
			t.Errorf("%s: %.4f L* apart", name, worst)
		}
	}
}
