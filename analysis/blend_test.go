package analysis

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// The non-separable blend modes, written out as W3CBLEND has them, on components 0 to 1:
// the long way round to a layer grey.

func blendLum(c [3]float64) float64 { return 0.3*c[0] + 0.59*c[1] + 0.11*c[2] }

func blendSat(c [3]float64) float64 { return slices.Max(c[:]) - slices.Min(c[:]) }

func blendSetSat(c [3]float64, s float64) (out [3]float64) {
	least, spread := slices.Min(c[:]), blendSat(c)
	if spread == 0 {
		return out
	}
	for i := range c {
		out[i] = (c[i] - least) * s / spread
	}
	return out
}

func blendClip(c [3]float64) [3]float64 {
	l, n, x := blendLum(c), slices.Min(c[:]), slices.Max(c[:])
	for i := range c {
		if n < 0 {
			c[i] = l + (c[i]-l)*l/(l-n)
		}
		if x > 1 {
			c[i] = l + (c[i]-l)*(1-l)/(x-l)
		}
	}
	return c
}

func blendSetLum(c [3]float64, l float64) [3]float64 {
	d := l - blendLum(c)
	return blendClip([3]float64{c[0] + d, c[1] + d, c[2] + d})
}

// Source: blend_functions_worked.csv (W3CBLEND). It makes sure of the functions above.
func TestBlendFunctionsByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "blend_functions_worked.csv")
	seen := map[string]bool{}
	for _, row := range tab.Rows {
		in := [3]float64{tab.Number(row, "in_r"), tab.Number(row, "in_g"), tab.Number(row, "in_b")}
		function := tab.Cell(row, "function")
		seen[function] = true
		var out [3]float64
		switch function {
		case "Lum":
			tab.Check(row, "out_1", blendLum(in), 1e-7)
			continue
		case "Sat":
			tab.Check(row, "out_1", blendSat(in), 1e-7)
			continue
		case "SetSat":
			out = blendSetSat(in, tab.Number(row, "in_arg"))
		case "ClipColor":
			out = blendClip(in)
		case "SetLum":
			out = blendSetLum(in, tab.Number(row, "in_arg"))
		default:
			t.Fatalf("function %q", function)
		}
		tab.Check(row, "out_1", out[0], 1e-7)
		tab.Check(row, "out_2", out[1], 1e-7)
		tab.Check(row, "out_3", out[2], 1e-7)
	}
	if len(seen) != 5 {
		t.Errorf("only %v are tested", seen)
	}
}

// A neutral layer in the saturation mode, SetLum(SetSat(backdrop, Sat(layer)),
// Lum(backdrop)), gives the same grey in all channels: the layer grey.
func TestLayerGreyTheLongWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, layer := drawColour(t, "colour"), rapid.Float64Range(0, 1).Draw(t, "layer")
		backdrop := [3]float64{float64(c.R) / 255, float64(c.G) / 255, float64(c.B) / 255}
		shown := blendSetLum(blendSetSat(backdrop, blendSat([3]float64{layer, layer, layer})), blendLum(backdrop))
		for _, got := range shown {
			if want := SpotOf(c).LayerGrey; !(math.Abs(255*got-want) < 1e-9) {
				t.Fatalf("%s shows as %v, want %g", c.Hex(), shown, want)
			}
		}
	})
}

// Every colour of blend_nonseparable.csv beside the grey of its own lightness: equally
// light, and remarked on exactly where the published lightness of its layer grey is more
// than half a tone of the value scale off.
func TestLayerGreyRemarkByThePublishedFormula(t *testing.T) {
	tab := testkit.ReadTable(t, "blend_nonseparable.csv")
	count := map[Remark]int{}
	for _, row := range tab.Rows {
		c := SpotOf(colourOf(t, tab, row))
		g := uint8(tab.Number(row, "equal_L_grey_8bit"))
		if got := colour.GreyOf(c.Lightness); got != g {
			t.Errorf("%s: its grey is %d, want %d", tab.Cell(row, "name"), got, g)
		}
		own, layer := tab.Number(row, "Lstar_colour"), tab.Number(row, "Lstar_blend_grey")
		tab.Check(row, "Lstar_colour", c.Lightness, 1e-4)
		off := math.Abs(colour.Value(layer) - colour.Value(own))
		if math.Abs(off-0.55) < 0.06 {
			continue // too near to call: the grey is rounded to 8 bits
		}
		want := NoRemark
		if off > 0.5 {
			want = ShowsDifference
		}
		count[want]++
		p := Compare(c, SpotOf(colour.RGB{R: g, G: g, B: g}), DefaultTolerance)
		if got := p.LayerGreyRemark(); got != want || p.Verdict != Same {
			t.Errorf("%s beside its grey: remark %v, want %v; verdict %s", tab.Cell(row, "name"), got, want, p.Verdict)
		}
	}
	if count[NoRemark] < 5 || count[ShowsDifference] < 5 {
		t.Errorf("tested %v", count)
	}
}
