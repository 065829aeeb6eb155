package scenetest

import (
	"bytes"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
)

// all calls do with every named scene and every seventh open seed's.
func all(t *testing.T, do func(t *testing.T, s *Scene)) {
	t.Helper()
	for _, name := range Names() {
		t.Run(name, func(t *testing.T) { do(t, Named(name)) })
	}
	for seed := FirstOpen; seed <= LastOpen; seed += 7 {
		s := Random(seed)
		t.Run(s.Name, func(t *testing.T) { do(t, s) })
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
func TestTowardBlack(t *testing.T) {
	all(t, func(t *testing.T, s *Scene) {
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
	})
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
func TestMasks(t *testing.T) {
	all(t, func(t *testing.T, s *Scene) {
		if s.Empty != (len(s.Families) == 0) {
			t.Fatalf("empty is %v with %d families", s.Empty, len(s.Families))
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
	})
}

// meanOf averages the finished picture over a mask.
func (s *Scene) meanOf(family int, side Side) Colour {
	var m mean3
	for i, in := range s.Mask(family, side).Pix {
		if in != 0 {
			p := s.Image.Pix[4*i:]
			m.add(paint{float32(p[0]) / 255, float32(p[1]) / 255, float32(p[2]) / 255})
		}
	}
	return m.colour()
}

// A scene is the same every time.
func TestDeterminism(t *testing.T) {
	all(t, func(t *testing.T, s *Scene) {
		again := Named(s.Name)
		if again == nil {
			t.Skip("see TestRandomIsDeterministic")
		}
		if !bytes.Equal(s.Image.Pix, again.Image.Pix) || !bytes.Equal(s.labels, again.labels) {
			t.Error("painted twice, it differs")
		}
	})
}
