package widgets

// letterWidths are widths of single letters and of pairs, by the size of the text. They stay the same,
// since typefaces do.
var letterWidths = map[float32]*widths{}

// widths are those of the letters of one size.
type widths struct {
	size   float32
	left   *int          // how many others may still be measured; nil for all
	first  [1024]float32 // of the first letters of Unicode plus one, 0 for not known yet
	others map[rune]letterWidth
	ascii  [128][128]float32 // how much closer pairs of a text in Latin letters are, plus one: 0 for not known yet
	pairs  map[letterPair]float32
}

// mostNew is how many new letters are measured at a time in a text that is measured loosely, a fifth of a
// millisecond each; those left are taken for unmeasured times as wide as their text is high, which few
// letters are, and hardly all of a line. mostJoined is how many letters may join, or begin another
// alphabet, in a text that isn't: each may be in a line of its own, which is measured a few times. Our
// choices.
const (
	mostNew    = 64
	unmeasured = 1.25
	mostJoined = 32
)

// mostWidths is of how many other letters and pairs of a size widths are kept, and mostSizes of how many
// sizes: our choices, 2 MB at most.
const (
	mostWidths = 10_000
	mostSizes  = 4
)

// letterWidth is how wide a letter is. end: the toolkit (2.7.1, shapeCallback) counts so much more
// where the last of some letters stands that no typeface has; 0 for others.
type letterWidth struct{ wide, end float32 }

// letterPair are two letters in a text of an alphabet.
type letterPair struct {
	of   alphabet
	a, b rune
}

func widthsOf(size float32) *widths {
	known := letterWidths[size]
	if known == nil && len(letterWidths) == mostSizes {
		clear(letterWidths)
	}
	if known == nil || len(known.others)+len(known.pairs) > mostWidths {
		known = &widths{size: size, others: map[rune]letterWidth{}, pairs: map[letterPair]float32{}}
		letterWidths[size] = known
	}
	return known
}

// text adds up how wide a text is; measure is asked of letters and pairs not met before. exact: it is
// just so wide. What is wider than most need not be known: the rest is taken to be alike.
func (w *widths) text(text string, most float32, measure func(string) float32) (wide float32, exact bool) {
	of, apart := alphabetOf(text), true
	exact = of != noAlphabet
	var before rune
	var end float32 // of letters that no typeface has the last counts once more
	for i, r := range text {
		if wide > most {
			return wide * float32(len(text)) / float32(i), false
		}
		one := w.letter(r, measure)
		if one.end == 0 {
			wide += end
		}
		apart, end = apart && standsApart(r), one.end
		if exact = exact && of.has(r); exact && i > 0 {
			wide += w.closer(letterPair{of, before, r}, measure)
		}
		wide += one.wide
		before = r
	}
	return wide + end, exact || apart
}

func (w *widths) letter(r rune, measure func(string) float32) letterWidth {
	if int(r) < len(w.first) {
		if w.first[r] == 0 {
			w.first[r] = measure(string(r)) + 1
		}
		return letterWidth{wide: w.first[r] - 1}
	}
	known, ok := w.others[r]
	if !ok && w.left != nil {
		if *w.left == 0 {
			return letterWidth{wide: unmeasured * w.size}
		}
		*w.left--
	}
	if !ok {
		known.wide = measure(string(r))
		if standsApart(r) {
			one := known.wide
			known.wide = measure(string([]rune{r, r})) - one
			known.end = one - known.wide
		}
		w.others[r] = known
	}
	return known
}

// closer is by how much two letters come closer, mostly negative, between letters of their
// alphabet: alone, a comma is of none, and spaced otherwise.
func (w *widths) closer(p letterPair, measure func(string) float32) float32 {
	if p.of == latin && p.a < 128 && p.b < 128 {
		known := &w.ascii[p.a][p.b]
		if *known == 0 {
			*known = p.measured(measure) + 1
		}
		return *known - 1
	}
	known, ok := w.pairs[p]
	if !ok {
		known = p.measured(measure)
		w.pairs[p] = known
	}
	return known
}

func (p letterPair) measured(measure func(string) float32) float32 {
	n := p.of.letter()
	return measure(string([]rune{n, p.a, p.b, n})) - measure(string([]rune{n, p.a})) - measure(string([]rune{p.b, n}))
}

// standsApart reports whether a letter joins none beside it that does so too: one of Unicode's pictures
// but for flags and skin tones (Unicode 15, U+1F000 to U+1FAFF).
func standsApart(r rune) bool {
	joins := '\U0001F1E6' <= r && r <= '\U0001F1FF' || '\U0001F3FB' <= r && r <= '\U0001F3FF'
	return '\U0001F000' <= r && r <= '\U0001FAFF' && !joins
}

// measuredLoosely reports whether texts that are written together have more letters that join, or are new,
// than can be measured as they stand.
func (w *widths) measuredLoosely(texts ...string) bool {
	joined, fresh := 0, 0
	for _, text := range texts {
		before := noAlphabet
		for _, r := range text {
			of := alphabetOfLetter(r)
			switch {
			case of != noAlphabet && of == before, standsApart(r), inAll(r), r == '\n':
			default:
				joined++ // a picture among letters is counted with those after it
			}
			if of != noAlphabet || !inAll(r) {
				before = of
			}
			if _, known := w.others[r]; !known && int(r) >= len(w.first) {
				fresh++
			}
		}
	}
	return joined > mostJoined || fresh > mostNew
}
