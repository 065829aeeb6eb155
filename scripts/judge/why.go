package main

import (
	"fmt"

	"app.tonedesk/analysis/drawingtest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/scenetest"
)

// none is the colour of a place that has none.
const none = -1

// whyDrawing says at which step each sure family of a drawing is lost.
func whyDrawing(f *families.Finder, d *drawingtest.Drawing) (lines []string) {
	f.Take(d.Pixels, nil)
	w := f.Weigh(families.DefaultRules())
	colourAt := func(s drawingtest.Side) int32 {
		return w.Map[s.At.Y*w.Height/d.Pixels.Height*w.Width+s.At.X*w.Width/d.Pixels.Width]
	}
	for k, t := range d.Families {
		is := func(found *families.Found) bool {
			family, ok := d.Fits(&found.List[0])
			return ok && family == k
		}
		if t.Sure {
			lines = append(lines, fmt.Sprintf("%s: %s: %s", d.Name, t.Name, stage(w, colourAt(t.Light), colourAt(t.Shadow), is)))
		}
	}
	return lines
}

// whyScene says it of each family of a scene.
func whyScene(f *families.Finder, s *scenetest.Scene) (lines []string) {
	f.Take(s.Pixels(), nil)
	w := f.Weigh(families.DefaultRules())
	for k, t := range s.Families {
		is := func(found *families.Found) bool {
			answers, family := s.Answers(found)
			return answers[0] == scenetest.Right && family[0] == k
		}
		if t.Scored {
			lines = append(lines, fmt.Sprintf("%s: %s: %s", s.Name, t.Name, stage(w, mostOn(s, w, k, scenetest.Light), mostOn(s, w, k, scenetest.Shadow), is)))
		}
	}
	return lines
}

// mostOn returns the colour that most of a side has.
func mostOn(s *scenetest.Scene, w *families.Weighed, family int, side scenetest.Side) int32 {
	counts, size := map[int32]int{}, s.Image.Rect
	for i, colour := range w.Map {
		x, y := i%w.Width, i/w.Width
		if of, is, ok := s.At((2*x+1)*size.Dx()/(2*w.Width), (2*y+1)*size.Dy()/(2*w.Height)); ok && of == family && is == side {
			counts[colour]++
		}
	}
	most := int32(none)
	for colour, n := range counts {
		if m := counts[most]; n > m || n == m && colour < most {
			most = colour
		}
	}
	return most
}

// stage says how far a family came whose sides have these colours.
func stage(w *families.Weighed, light, shadow int32, is func(*families.Found) bool) string {
	best, at := 0.0, none
	for i, l := range w.Locals {
		if len(l.Found.List) > 0 && is(l.Found) && (at < 0 || l.Logit > best) {
			best, at = l.Logit, i
		}
	}
	switch {
	case at >= 0 && best >= 0:
		return fmt.Sprintf("weighed, with a logit of %.1f", best)
	case at >= 0:
		return fmt.Sprintf("weighed as unsure, with a logit of %.1f", best)
	case light == none || shadow == none:
		return "a side is too small or too thin for an area"
	case light == shadow:
		return "both sides are one area"
	}
	for _, l := range w.Links {
		if l.Light == int(light) && l.Shadow == int(shadow) {
			return fmt.Sprintf("not told as it is; what joins its sides has a logit of %.1f", l.Logit)
		}
	}
	return "its sides don't touch, or one is the ground"
}
