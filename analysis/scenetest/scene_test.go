package scenetest

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"app.tonedesk/analysis/lawtest"
)

// Every named scene and every seventh open seed's is what it says; every fourth scene where
// few are wanted.
func TestScenes(t *testing.T) {
	if testing.Short() {
		t.Skip("paints many scenes")
	}
	every := func(name string, paint func() *Scene) {
		t.Run(name, func(t *testing.T) {
			s := paint()
			checkTowardBlack(t, s)
			checkMasks(t, s)
			checkAccents(t, s)
			checkScore(t, s)
		})
	}
	for _, name := range lawtest.Some(Names(), 4) {
		every(name, func() *Scene { return Named(name) })
	}
	for seed := FirstOpen; seed <= LastOpen; seed += 7 {
		every(fmt.Sprint("seed ", seed), func() *Scene { return Random(seed) })
	}
	for _, name := range Kinds() {
		for _, seed := range []int{FirstOpen, FirstOpen + 8} {
			every(fmt.Sprint(name, " ", seed), func() *Scene { return Kind(name, seed) })
		}
	}
}

// second is a colour read by go-colorful: a second opinion on the formulas.
type second struct{ chroma, hue, saturation float64 }

func secondOf(c Colour) second {
	k := colorful.LinearRgb(c.Red, c.Green, c.Blue)
	l, chroma, hue := k.OkLch()
	_, a, b := k.LabWhiteRef(colorful.D65)
	return second{100 * math.Hypot(a, b), hue, chroma / l}
}

// What a truth says of toward black follows from its colours by the rule (common practice,
// no source: C*ab of the light 8 or more, saturation gain at most 0.05, and the hue turned
// by less than 8 degrees or C*ab of the shadow under 8), worked out a second time, and not
// by a hair.
func checkTowardBlack(t *testing.T, s *Scene) {
	t.Helper()
	for _, f := range s.Families {
		light, shadow := secondOf(f.Light), secondOf(f.Shadow)
		gain := shadow.saturation/light.saturation - 1
		turned := math.Abs(turn(light.hue, shadow.hue))
		is := light.chroma >= 8 && gain <= 0.05 && (turned < 8 || shadow.chroma < 8)
		if f.Scored && f.Clear() && is != f.TowardBlack {
			t.Errorf("%s: toward black is %v by the rule, %v by the truth", f.Name, is, f.TowardBlack)
		}
		t.Logf("%-16s L* %5.1f %5.1f  tones %4.2f  C* %4.1f %4.1f  turn %6.1f  gain %5.2f  share %.3f %.3f  toward black %v, clear %v, scored %v %s",
			f.Name, f.Light.Lab().L, f.Shadow.Lab().L, f.Tones(), light.chroma, shadow.chroma,
			f.turn(), gain, f.LightShare, f.ShadowShare, f.TowardBlack, f.Clear(), f.Scored, f.Why)
		if f.Scored && !f.Clear() && s.named() {
			t.Errorf("%s: not clearly toward black or not: gain %.2f, turn %.1f", f.Name, gain, turned)
		}
	}
}

// named reports whether it is a named scene, all of whose families are beyond doubt.
func (s *Scene) named() bool {
	for _, name := range Names() {
		if name == s.Name {
			return true
		}
	}
	return false
}

// The masks show the truth's colours in the picture before grain and JPEG, are large
// enough where scored, and the light is the lighter.
func checkMasks(t *testing.T, s *Scene) {
	t.Helper()
	empty := func(word string) bool { return strings.Contains(s.Name, word) }
	if slices.ContainsFunc([]string{"empty", "nothing", "clouds", "layers"}, empty) != (len(s.Families) == 0) {
		t.Fatalf("%d families", len(s.Families))
	}
	for i, f := range s.Families {
		if !f.Scored {
			if f.Why == "" {
				t.Errorf("%s isn't scored for no reason", f.Name)
			}
			continue
		}
		if min(f.LightShare, f.ShadowShare) < leastShare {
			t.Errorf("%s: shares %.3f and %.3f", f.Name, f.LightShare, f.ShadowShare)
		}
		if f.Tones() < 0.6 || f.Light.Lab().L-f.Shadow.Lab().L < 5 {
			t.Errorf("%s: %.2f tones apart", f.Name, f.Tones())
		}
		for side, want := range map[Side]Colour{Light: f.Light, Shadow: f.Shadow} {
			if got := s.meanOf(i, side); math.Abs(got.Lab().L-want.Lab().L) > 1 {
				t.Errorf("%s: side %d has L* %.1f in the finished picture, %.1f in truth", f.Name, side, got.Lab().L, want.Lab().L)
			}
		}
	}
}

// An accent is one by the trade's word, and keeps clear of the limits of that.
func checkAccents(t *testing.T, s *Scene) {
	t.Helper()
	for _, f := range s.Families {
		if f.Accent != nil && !(local{light: f.Light, shadow: f.Shadow}).standsOut(*f.Accent, 1) {
			t.Errorf("%s: the accent doesn't stand out: C* %.1f beside %.1f and %.1f, hue %.0f beside %.0f and %.0f", f.Name,
				f.Accent.Lab().Chroma(), f.Light.Lab().Chroma(), f.Shadow.Lab().Chroma(),
				f.Accent.Oklab().Hue(), f.Light.Oklab().Hue(), f.Shadow.Oklab().Hue())
		}
	}
}

// meanOf averages the finished picture over a mask.
func (s *Scene) meanOf(family int, side Side) Colour {
	var m mean3
	for i, l := range s.labels {
		if f, is, ok := s.owner(l); ok && f == family && is == side {
			p := s.Image.Pix[4*i:]
			m.add(paint{float32(p[0]) / 255, float32(p[1]) / 255, float32(p[2]) / 255})
		}
	}
	return m.colour()
}

// A scene is the same every time.
func TestDeterminism(t *testing.T) {
	for name, paint := range map[string]func() *Scene{
		"named":  func() *Scene { return Named("still life, reflected light on canvas") },
		"noise":  func() *Scene { return Named("empty: coarse noise") },
		"seed 3": func() *Scene { return Random(3) },
		"seed 9": func() *Scene { return Random(9) },
		"frame":  func() *Scene { return Kind("workspace", 3) },
	} {
		s, again := paint(), paint()
		if !bytes.Equal(s.Image.Pix, again.Image.Pix) || !bytes.Equal(s.labels, again.labels) {
			t.Errorf("%s: painted twice, it differs", name)
		}
	}
	if bytes.Equal(Random(1).labels, Random(2).labels) {
		t.Error("two seeds give one scene")
	}
	if bytes.Equal(Kind("steps", 1).Image.Pix, Kind("steps", 2).Image.Pix) || Kind("none of these", 1) != nil {
		t.Error("two seeds of a kind give one scene, or a kind that isn't there gives one")
	}
}
