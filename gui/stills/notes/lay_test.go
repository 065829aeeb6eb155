package notes

import (
	"image"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/gui/stills/ink"
)

// someStill draws how a still of any shape lies in what is drawn on, all of it in sight.
func someStill(t *rapid.T) View {
	v := View{
		Scale: rapid.Float64Range(0.1, 8).Draw(t, "scale"), Pixel: rapid.Float64Range(0.9, 3).Draw(t, "pixel"),
		Origin: ink.Pt(rapid.Float64Range(-90, 90).Draw(t, "left"), rapid.Float64Range(-90, 90).Draw(t, "top")),
	}
	side := func(name string) int { // at least as wide as a number and a few letters
		return int(rapid.Float64Range(90, 900).Draw(t, name)*v.Pixel/v.Scale) + 1
	}
	v.Still = image.Pt(side("wide"), side("high"))
	in, _ := v.room()
	v.Inside = image.Rect(int(in.left), int(in.top), int(in.right), int(in.bottom))
	return v
}

// withoutSpaces is what is left of words when their lines break elsewhere.
func withoutSpaces(words string) string { return strings.Join(strings.Fields(words), "") }

// Whatever a label says, of letters of any size, and wherever it was put, it lies on the still
// with its rim, beside its number; it says all of its words or ends in an ellipsis, and then it
// takes most of the height.
func TestLabelsLieOnTheStill(t *testing.T) {
	words := rapid.OneOf(rapid.StringMatching(`([a-zÅgj]{1,9} ){0,12}[a-z]{1,40}`), rapid.StringMatching(`[gj Ä\n]{1,300}x`))
	rapid.Check(t, func(t *rapid.T) {
		v := someStill(t)
		place := func(name string, most int) float64 {
			return rapid.Float64Range(-0.1, 1.1).Draw(t, name) * float64(most)
		}
		label := Label{ink.Pt(place("x", v.Still.X), place("y", v.Still.Y)), rapid.Float64Range(leastWidth, 2000).Draw(t, "size")}
		text := words.Draw(t, "text")
		marks := v.Marks([]Note{New(label, text)})
		in, _ := v.room()
		for i := range marks {
			b := marks[i].Bounds()
			if got := boxRoom(b); got.left < in.left-2 || got.top < in.top-2 || got.right > in.right+2 || got.bottom > in.bottom+2 { // both are rounded
				t.Fatalf("of %q %v lies outside %v", text, b, in)
			}
		}
		drawn, disc := marks[0], marks[1].Bounds()
		if b := drawn.Bounds(); b.Inset(1).Overlaps(disc.Inset(1)) {
			t.Fatalf("the number in %v lies over the words in %v", disc, b)
		}
		whole, cut := strings.CutSuffix(drawn.Text.Words, "…")
		if !cut && withoutSpaces(whole) != withoutSpaces(text) {
			t.Fatalf("%q says %q", text, whole)
		}
		lines := float64(1 + strings.Count(whole, "\n"))
		if most := in.bottom - in.top - (2+1.0/9)*drawn.Text.Size - 2*drawn.Rim - 4; cut && lines*ink.LineHeight*drawn.Text.Size < most {
			t.Fatalf("%q is cut after %g lines of %g, with room for %g", text, lines, drawn.Text.Size, most)
		}
	})
}

func boxRoom(r image.Rectangle) room {
	return room{float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)}
}

// A label that fits where it was put stays there, to the last bit.
func TestLabelStaysWhereItFits(t *testing.T) {
	at := ink.Pt(70, 50)
	for _, text := range []string{"softer", "softer edge,\nlost line"} {
		marks := View{Scale: 2, Pixel: 1, Still: image.Pt(400, 300)}.Marks([]Note{New(Label{at, 10}, text)})
		if got := marks[0].Text; got.At != at.Times(2) || got.Words != text || got.Size != 20 {
			t.Errorf("%q is drawn as %+v", text, got)
		}
	}
}

// wordsDrawn counts the words and the numbers that are drawn of labels.
func wordsDrawn(marks []ink.Mark) (words, numbers int) {
	for i := range marks {
		switch m := &marks[i]; {
		case m.Text.Words == "":
		case m.Grey == ink.LightGrey:
			words++
		default:
			numbers++
		}
	}
	return words, numbers
}

// Labels that cover the still more than twice over leave those below them their numbers only, and
// are none of them taken hold of by words that are not drawn. As many short ones keep their words.
func TestCoveredLabels(t *testing.T) {
	v := View{Scale: 1, Pixel: 1, Still: image.Pt(600, 400)}
	var full, short []Note
	for range 50 {
		full = append(full, New(Label{ink.Pt(300, 200), 20}, strings.Repeat("softer edge ", 300)))
		short = append(short, New(Label{ink.Pt(300, 200), 20}, "softer edge"))
	}
	if words, numbers := wordsDrawn(v.Marks(full)); words != mostBehind || numbers != len(full) {
		t.Errorf("of %d labels that each cover the still %d have words, %d a number", len(full), words, numbers)
	}
	if words, numbers := wordsDrawn(v.Marks(short)); words != len(short) || numbers != len(short) {
		t.Errorf("of %d short labels %d have words, %d a number", len(short), words, numbers)
	}
	low := append([]Note{New(Label{ink.Pt(2, 390), 20}, "here")}, full...)
	if got := v.Top(low[:1], ink.Pt(60, 384), 3); got != 0 {
		t.Errorf("at a label lies %d", got)
	}
	for _, m := range v.Marks(low) {
		if m.Text.Words == "here" {
			t.Error("words that can't be read are drawn")
		}
	}
}
