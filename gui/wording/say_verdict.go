package wording

import "slices"

// VerdictText is what is said of two spots.
type VerdictText struct {
	Title  string // the sentence
	Short  string // the same for a narrow window
	Sub    string // quieter, below
	Remark string // on how a grey layer would mislead; "" for none
	Bars   []Bar  // the spots' lightness, side by side
}

func (t VerdictText) Equal(o VerdictText) bool {
	return t.Title == o.Title && t.Short == o.Short && t.Sub == o.Sub && t.Remark == o.Remark && slices.Equal(t.Bars, o.Bars)
}

// Bar is a spot's lightness as a bar.
type Bar struct {
	Name      string
	Lightness float64 // L*, 0 to 100: the height
	Grey      uint8   // 8-bit code: the fill
}
