package profile

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/analysis/colour"
)

// A second opinion on every space, and on profiles that others made: Little CMS over a grid of
// 10,648 colours, to 0.02 L* and as much in a* and b*. It tells L*a*b* relative to D50, to which
// ours is taken here (BRADFORD). Its light is counted in 16 bits, and the curves near black are
// steep, which is what the tolerance is for.
func TestSpacesByLittleCMS(t *testing.T) {
	if _, err := exec.LookPath("transicc"); err != nil {
		t.Skip("Little CMS is not installed (Debian: liblcms2-utils)")
	}
	for _, s := range colour.Spaces() {
		t.Run(s.Name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "space.icc")
			if err := os.WriteFile(path, Write(s), 0o600); err != nil {
				t.Fatal(err)
			}
			compareByLittleCMS(t, path, s, 0.02)
		})
	}
	t.Run("its own sRGB", func(t *testing.T) { compareByLittleCMS(t, "*sRGB", colour.SRGB, 0.02) })
	for _, path := range othersProfiles(t) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Skip(err)
			}
			s, err := Read(data)
			if err != nil {
				t.Fatal(err)
			}
			compareByLittleCMS(t, path, s, 0.02)
		})
	}
}

// othersProfiles are profiles of primaries that others made: those of Debian's libgs-common, and
// of the module that writes our PDF.
func othersProfiles(t *testing.T) []string {
	module, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "codeberg.org/go-pdf/fpdf").Output()
	if err != nil {
		t.Log(err)
	}
	const debian = "/usr/share/color/icc/ghostscript/"
	return []string{filepath.Join(strings.TrimSpace(string(module)), "icc/sRGB2014.icc"), debian + "a98.icc", debian + "rommrgb.icc"}
}

func compareByLittleCMS(t *testing.T, from string, s *colour.Space, within float64) {
	const side = 22
	var asked bytes.Buffer
	var codes []colour.RGB
	level := func(i int) uint8 { return uint8(math.Round(255 * float64(i) / (side - 1))) }
	for i := range side * side * side {
		c := colour.RGB{R: level(i / side / side), G: level(i / side % side), B: level(i % side)}
		codes = append(codes, c)
		fmt.Fprintln(&asked, c.R, c.G, c.B)
	}
	cmd := exec.Command("transicc", "-n", "-c0", "-t1", "-i", from, "-o", "*Lab")
	cmd.Stdin = &asked
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	toD50 := bradford([3]float64{colour.WhiteX, 1, colour.WhiteZ}, [3]float64{0.9642, 1, 0.8249})
	worst, told, answers := 0.0, 0, bufio.NewScanner(bytes.NewReader(out))
	for answers.Scan() && told < len(codes) {
		var want colour.Lab
		if n, _ := fmt.Sscan(answers.Text(), &want.L, &want.A, &want.B); n != 3 {
			continue
		}
		x, y, z := colour.XYZOf(s.LightOfCode(codes[told]))
		xyz := times(toD50, [3]float64{x, y, z})
		fx, fy, fz := colour.LabF(xyz[0]/0.9642), colour.LabF(xyz[1]), colour.LabF(xyz[2]/0.8249)
		got := colour.Lab{L: 116*fy - 16, A: 500 * (fx - fy), B: 200 * (fy - fz)}
		off := max(math.Abs(got.L-want.L), math.Abs(got.A-want.A), math.Abs(got.B-want.B))
		if off > within {
			t.Fatalf("%v is %v, by Little CMS %v", codes[told], got, want)
		}
		worst, told = max(worst, off), told+1
	}
	if told != len(codes) {
		t.Fatalf("%d of %d colours told", told, len(codes))
	}
	t.Logf("%d colours, at most %.4f apart", told, worst)
}
