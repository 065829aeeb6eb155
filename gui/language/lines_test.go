package language

import "testing"

// UAX 14, pair rules LB13 (not before what closes), LB14 (not after what opens), LB21a and CJ as NS
// (strict style: not before small kana), LB12 (glue), LB28 (no break between letters of words).
func TestMayBreak(t *testing.T) {
	for _, tt := range []struct {
		before, after rune
		want          bool
	}{
		{'影', '光', true}, {'影', 'の', true}, {'a', '影', true}, {'影', 'a', true}, {'5', '段', true}, {'。', '影', true}, {'」', '影', true},
		{'影', '、', false}, {'影', '。', false}, {'影', '」', false}, {'影', '；', false}, {'影', '：', false}, {'「', '影', false}, {'シ', 'ャ', false}, {'カ', 'ー', false},
		{'影', '\u00a0', false}, {'\u00a0', '影', false}, {'a', 'b', false}, {'a', ' ', false}, {' ', '影', false}, {'1', '2', false}, {'影', '.', false}, {'影', '%', false},
	} {
		if got := MayBreak(tt.before, tt.after); got != tt.want {
			t.Errorf("between %c and %c: %v", tt.before, tt.after, got)
		}
	}
}
