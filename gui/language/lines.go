package language

import "strings"

// Eastern reports whether a letter is one of East Asia, whose letters stand in squares without
// spaces between words: Han, kana, bopomofo and Hangul, with their marks and wide forms (Unicode
// 16, blocks).
func Eastern(r rune) bool {
	return r >= 0x2e80 && r <= 0x9fff || r >= 0xac00 && r <= 0xd7a3 || r >= 0xf900 && r <= 0xfaff ||
		r >= 0xfe30 && r <= 0xfe4f || r >= 0xff00 && r <= 0xffef || r >= 0x20000 && r <= 0x3ffff
}

// Letters that no line begins or ends with.
const (
	notFirst = "、。，．，・：；？！」』）］｝〕〉》】〜～ー々ゝゞヽヾっゃゅょゎッャュョヮヵヶぁぃぅぇぉァィゥェォ%°…,.:;)]}?!"
	notLast  = "「『（［｛〔〈《【〜～([{"
)

// MayBreak reports whether a line may end between two letters of which one at least is one of East
// Asia: not before what closes, not after what opens, and not within a word or a figure (Unicode
// Standard Annex 14, classes ID, CJ, NS, CL and OP, as far as our sentences have them).
func MayBreak(before, after rune) bool {
	const glue = '\u00a0'
	if before == ' ' || before == glue || after == glue || !Eastern(before) && !Eastern(after) {
		return false
	}
	return !strings.ContainsRune(notFirst, after) && !strings.ContainsRune(notLast, before)
}
