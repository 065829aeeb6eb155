package propose

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/internal/testkit"
)

// The nearest better shadow satisfies the rules; where the chosen one does, or is of another
// material, there is none.
func TestJudgeShadowLaws(t *testing.T) {
	rules := families.DefaultRules()
	rapid.Check(t, func(t *rapid.T) {
		local, shadow := analysis.SpotOf(analysistest.DrawColour(t, "local")), analysis.SpotOf(analysistest.DrawColour(t, "shadow"))
		if shadow.Lightness > local.Lightness {
			local, shadow = shadow, local
		}
		j := JudgeShadow(local, shadow, rules, WarmLightShadow)
		if want := families.Of(local, shadow, rules); len(want.Verdict) != len(j.Family.Verdict) || want.Verdict[0] != j.Family.Verdict[0] {
			t.Fatalf("verdict %v, want %v", j.Family.Verdict, want.Verdict)
		}
		if j.Family.Satisfies() {
			if j.Nearest != nil {
				t.Fatalf("%s reads, but %s is offered", shadow.Colour.Hex(), j.Nearest.Colour.Hex())
			}
			return
		}
		if j.Nearest == nil {
			foreign := slices.Contains(j.Family.Verdict, families.Unlike) && !j.Family.TowardBlack
			if local.Value >= 4 && !foreign { // there is room for a shadow that reads, and has chroma
				t.Fatalf("no better shadow for %s than %s", local.Colour.Hex(), shadow.Colour.Hex())
			}
			return
		}
		f := families.Of(local, *j.Nearest, rules)
		if len(f.Verdict) != 1 || f.Verdict[0] != families.Reads {
			t.Fatalf("%s for %s: %v", j.Nearest.Colour.Hex(), local.Colour.Hex(), f.Verdict)
		}
		if d := colour.CIEDE2000(shadow.Lab, j.Nearest.Lab); math.Abs(d-*j.Distance) > 1e-9 {
			t.Fatalf("distance %g, want %g", *j.Distance, d)
		}
	})
}

// Beside every eighth code of the display, none that satisfies the rules is nearer than what
// the search found by more than half a CIEDE2000.
func TestJudgeShadowFindsTheNearest(t *testing.T) {
	rules := families.DefaultRules()
	for _, pair := range [][2]string{
		{"#e2ab85", "#d48885"}, {"#808080", "#606060"}, {"#e2ab85", "#553040"}, {"#a0c8f0", "#90b0e8"},
	} {
		local, shadow := colourSpot(t, pair[0]), colourSpot(t, pair[1])
		j := JudgeShadow(local, shadow, rules, WarmLightShadow)
		if j.Nearest == nil {
			t.Fatalf("%v: none found", pair)
		}
		gain := 0.0 // the chosen shadows here lose none
		least := math.Inf(1)
		for n := range 1 << 15 {
			c := analysis.SpotOfCode(colour.RGB{R: uint8(n >> 10 << 3), G: uint8(n >> 5 & 31 << 3), B: uint8(n & 31 << 3)})
			if d := colour.CIEDE2000(shadow.Lab, c.Lab); d < least {
				f := families.Of(local, c, rules)
				if f.Satisfies() && (f.SaturationGain == nil || *f.SaturationGain >= gain) {
					least = d
				}
			}
		}
		if *j.Distance > least+0.5 {
			t.Errorf("%v: %s is %.2f away, another only %.2f", pair, j.Nearest.Colour.Hex(), *j.Distance, least)
		}
	}
}

// better reports whether c is a better shadow than the chosen one, as JudgeShadow's comment and
// the ramp's have it (common practice, no source), figure by figure.
func better(local, chosen analysis.Spot, c colour.RGB) bool {
	rules := families.DefaultRules()
	was, f := families.Of(local, chosen, rules), families.Of(local, analysis.SpotOf(c), rules)
	if len(f.Verdict) != 1 || f.Verdict[0] != families.Reads {
		return false
	}
	if local.Chroma < 7.95 { // printed as under 8
		return true
	}
	if f.HueTurn == nil { // what is offered has a hue
		return false
	}
	if edge := min(c.R, c.G, c.B) == 0 || max(c.R, c.G, c.B) == 255; !edge {
		least := 0.0
		switch {
		case was.TowardBlack && was.HueTurn == nil:
			least = min(math.Pow(1.1, f.Tones), 1.15*local.Oklab.L/f.Shadow.Oklab.L) - 1
		case was.SaturationGain != nil:
			least = min(0, *was.SaturationGain)
		}
		if math.Round(100**f.SaturationGain) < math.Round(100*least) {
			return false
		}
	}
	if !was.TowardBlack {
		return true
	}
	way := wayToShadow(local.Oklab.Hue(), WarmLightShadow)
	shift := func(tones float64) float64 {
		return math.Abs(shadowShift(local.Oklab.Hue(), WarmLightShadow, DefaultTurn, tones))
	}
	turn := *f.HueTurn
	if shift(3) < 8 {
		return was.HueTurn != nil || math.Abs(turn) <= 16
	}
	if way < 0 {
		turn = -turn
	}
	if was.HueTurn != nil {
		return turn >= 7.95
	}
	turn = analysis.AsPrinted(math.Mod(turn+360, 360))
	return turn >= max(8, shift(1)) && turn <= shift(f.Tones)+8
}

// checkNearest fails if a better shadow near the one offered is nearer to the chosen one.
func checkNearest(t testkit.Fataler, local, chosen analysis.Spot, j Judged) {
	t.Helper()
	at := j.Nearest.Colour
	if !better(local, chosen, at) {
		t.Fatalf("%s for %s: %s does not do what is demanded", chosen.Colour.Hex(), local.Colour.Hex(), at.Hex())
	}
	const reach = 6
	for r := max(0, int(at.R)-reach); r <= min(255, int(at.R)+reach); r++ {
		for g := max(0, int(at.G)-reach); g <= min(255, int(at.G)+reach); g++ {
			for b := max(0, int(at.B)-reach); b <= min(255, int(at.B)+reach); b++ {
				c := colour.RGB{R: uint8(r), G: uint8(g), B: uint8(b)}
				lab := colour.LabOf(colour.Linears[c.R], colour.Linears[c.G], colour.Linears[c.B])
				if d := colour.CIEDE2000(chosen.Lab, lab); d < *j.Distance-1e-9 && better(local, chosen, c) {
					t.Fatalf("%s for %s: %s is %.3f away, %s only %.3f",
						chosen.Colour.Hex(), local.Colour.Hex(), at.Hex(), *j.Distance, c.Hex(), d)
				}
			}
		}
	}
}

// No code near the colour offered is nearer to the chosen one and as good.
func TestJudgeShadowLeavesNoNearerCode(t *testing.T) {
	rules := families.DefaultRules()
	check := func(t testkit.Fataler, local, shadow colour.RGB) {
		a, b := analysis.SpotOf(local), analysis.SpotOf(shadow)
		if a.Lightness < b.Lightness {
			a, b = b, a
		}
		if j := JudgeShadow(a, b, rules, WarmLightShadow); j.Nearest != nil {
			checkNearest(t, a, b, j)
		}
	}
	for _, pair := range [][2]string{ // invented colours and their straight shadows
		{"#8fc7a0", "#4f7058"}, {"#e2ab85", "#d09a75"}, {"#3b6fd4", "#1f3f7d"}, {"#1a8c82", "#0e4d47"},
		{"#e2ab85", "#a27a5e"}, {"#ffff00", "#000001"}, {"#e2ab85", "#000000"}, {"#8fc7a0", "#707070"},
	} {
		check(t, colourSpot(t, pair[0]).Colour, colourSpot(t, pair[1]).Colour)
	}
	rapid.Check(t, func(t *rapid.T) {
		local := analysistest.DrawColour(t, "local")
		part := rapid.Float64Range(0, 1).Draw(t, "part") // beside any two colours, straight shadows and black
		straight := colour.RGB{R: uint8(part * float64(local.R)), G: uint8(part * float64(local.G)), B: uint8(part * float64(local.B))}
		check(t, local, rapid.OneOf(rapid.Just(straight), rapid.Just(colour.RGB{}), rapid.Custom(func(t *rapid.T) colour.RGB { return analysistest.DrawColour(t, "shadow") })).Draw(t, "chosen"))
	})
}

// For black and grey, the trade's way is offered (common practice, no source): no cyan for
// yellow, no mud for skin, but a hue of the way into the shadow, as saturated as there.
func TestJudgeShadowOffersTheTradesWay(t *testing.T) {
	for _, tt := range []struct {
		name, local string
		zones       []zone
	}{
		{"common practice: yellow", "#ffff00", []zone{orange, redBrown}},
		{"common practice: ochre", "#d9a82c", []zone{orange, redBrown}},
		{"common practice: skin", "#e2ab85", []zone{redBrown, mauve}},
		{"common practice: brown skin", "#b5794f", []zone{redBrown, mauve}},
	} {
		for _, chosen := range []string{"#000000", "#000001", "#101010", "#606060"} {
			local, shadow := colourSpot(t, tt.local), colourSpot(t, chosen)
			j := JudgeShadow(local, shadow, families.DefaultRules(), WarmLightShadow)
			if !j.Family.TowardBlack || j.Nearest == nil {
				t.Fatalf("%s, %s: %v, offers %v", tt.name, chosen, j.Family.Verdict, j.Nearest)
			}
			hue, inside := j.Nearest.Oklab.Hue(), false
			for _, z := range tt.zones {
				inside = inside || z.holds(hue)
			}
			gained := colour.Saturation(j.Nearest.Oklab) / colour.Saturation(local.Oklab)
			if !inside || gained < 1.19 && !j.Nearest.Colour.OnEdge() {
				t.Errorf("%s, %s: %s of hue %.0f, %.2f times as saturated", tt.name, chosen, j.Nearest.Colour.Hex(), hue, gained)
			}
		}
	}
}

// Of a base that is light enough to have a shadow, a better one than black is found, and one
// than a dark grey.
func TestJudgeShadowFindsOneForNeutrals(t *testing.T) {
	eachBase(func(base analysis.Spot) {
		c := base.Colour
		if base.Value < 4 || (int(c.R)+3*int(c.G)+5*int(c.B))/17%7 != 0 { // every seventh
			return
		}
		for _, grey := range []colour.RGB{{}, {R: 60, G: 60, B: 60}} {
			j := JudgeShadow(base, analysis.SpotOf(grey), families.DefaultRules(), WarmLightShadow)
			if j.Nearest == nil && !j.Family.Satisfies() {
				t.Fatalf("none for %s instead of %s", c.Hex(), grey.Hex())
			}
		}
	})
}

func BenchmarkJudgeShadow(b *testing.B) { // budget: 5 ms, the time of all proposals of a spot
	local := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})
	for _, tt := range []struct {
		name   string
		shadow colour.RGB
	}{{"straight", colour.RGB{R: 0xa2, G: 0x7a, B: 0x5e}}, {"black", colour.RGB{}}} {
		b.Run(tt.name, func(b *testing.B) {
			for b.Loop() {
				JudgeShadow(local, analysis.SpotOf(tt.shadow), families.DefaultRules(), WarmLightShadow)
			}
		})
	}
}
