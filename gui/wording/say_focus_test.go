package wording

import (
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/focus"
)

// dots are discs of greys on a grey ground, each x, y, radius, code.
func dots(ground byte, list ...[4]int) analysis.Pixels {
	const w, h = 256, 192
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := range w * h {
		c := ground
		for _, d := range list {
			if x, y := i%w-d[0], i/w-d[1]; x*x+y*y < d[2]*d[2] {
				c = byte(d[3])
			}
		}
		copy(p.Pix[4*i:], []byte{c, c, c, 255})
	}
	return p
}

func TestSayFocus(t *testing.T) {
	p := dots(119, [4]int{220, 40, 7, 240}, [4]int{40, 150, 7, 20}, [4]int{128, 96, 7, 150})
	f := focus.Find(p, nil, focus.DefaultOptions())
	in := NamesIn{Groups: analysis.Read(p, analysis.Options{Groups: 3}).Chosen().Groups()}
	light, dark, empty := focus.Mark{X: 220.5 / 256, Y: 40.5 / 192}, focus.Mark{X: 40.5 / 256, Y: 150.5 / 192}, focus.Mark{X: 0.5, Y: 0.1}
	strongest, other, where, there := light, dark, "at the upper right", "light against middle"
	if f.Places[0].X < 0.5 {
		strongest, other, where, there = dark, light, "at the lower left", "middle against dark"
	}
	for _, tt := range []struct {
		marks []focus.Mark
		title string
		line  string
		card  string
	}{
		{nil, "the strongest contrast lies " + where + ": " + there, "", ""},
		{[]focus.Mark{strongest}, "the strongest contrast lies where you want it, " + where + ": " + there, "", "The strongest contrast lies there."},
		{[]focus.Mark{empty}, "the strongest contrast lies elsewhere, " + where + ": " + there, "the marked place has 0" + Nbsp + "% of it", "The strongest contrast lies elsewhere, " + where + "."},
		{[]focus.Mark{empty, strongest}, "the strongest contrast lies at one of the places you want, the second one, " + where + ": " + there, "the marked place at the top has 0" + Nbsp + "% of it", "The strongest contrast lies there, " + where + "."},
	} {
		a := f.Of(tt.marks)
		got := SayFocus(f, a, in)
		if got.Title != tt.title || tt.line != "" && got.Lines[0] != tt.line {
			t.Errorf("%q\n%q", got.Title, got.Lines)
		}
		if tt.card == "" {
			continue
		}
		if card := SayFocusCard(f, a, in, false); card.Lines[0] != tt.card || card.Quiet[0] != Capitalised(there)+"." {
			t.Errorf("%+v", card)
		}
	}
	all := strings.Join(SayFocus(f, f.Of(nil), in).Lines, "; ")
	for _, want := range []string{"the edges at the strongest are sharp", "the lightest light stands alone at the upper right, ", "tones above what is around it", "the darkest dark stands alone at the lower left, "} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %s", want, all)
		}
	}
	in.Flipped = true
	if card := SayFocusCard(f, f.Of([]focus.Mark{other, empty}), in, false); len(card.Quiet) == 0 || strings.Contains(card.Lines[0], where) {
		t.Errorf("flipped: %+v", card)
	}
	if c := SayFocusCard(f, f.Of([]focus.Mark{other}), in, true); c.Lines[0] != FocusMoved.String() {
		t.Errorf("%+v", c)
	}
	if c := SayFocusCard(nil, focus.Answer{}, in, false); c.Lines[0] != FocusWaits.String()+"." {
		t.Errorf("%+v", c)
	}
	flat := focus.Find(dots(119), nil, focus.DefaultOptions())
	if got := SayFocus(flat, flat.Of([]focus.Mark{light}), in); got.Title != "no place stands out by its contrast" || len(got.Lines) != 0 {
		t.Errorf("%+v", got)
	}
}

// Where two local colours meet they are named by their hues, and with their codes too where both have
// one name.
func TestSayFocusTellsLocalColoursApart(t *testing.T) {
	family := func(r, g, b uint8) families.Family {
		return families.Family{Light: analysis.SpotOf(colour.RGB{R: r, G: g, B: b})}
	}
	orange, paler, blue := family(230, 140, 40), family(240, 190, 149), family(60, 90, 200)
	for _, tt := range []struct {
		list []families.Family
		want string
	}{
		{[]families.Family{orange, blue}, "the orange against the blue"},
		{[]families.Family{orange, paler}, "the orange #e68c28 against the orange #f0be95"},
	} {
		in := NamesIn{Found: &families.Found{Width: 1, Height: 2, Map: []uint8{1, 5}, List: tt.list}, Counts: func(int) bool { return true }}
		if got := strings.ReplaceAll(in.between(&focus.Place{X: 0.5, Y: 0.5}, 1), Nbsp, " "); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
