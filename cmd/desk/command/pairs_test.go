package command

import (
	"strings"
	"testing"
)

func TestSplitPair(t *testing.T) {
	tests := []struct {
		line, a, b string
		ok         bool
	}{
		{"#fff #000", "#fff", "#000", true},
		{"#fff,#000", "#fff", "#000", true},
		{" #fff \t;  #000 ", "#fff", "#000", true},
		{"rgb(1 2 3) rgb(4, 5, 6)", "rgb(1 2 3)", "rgb(4, 5, 6)", true},
		{"rgb(1,2,3);#000", "rgb(1,2,3)", "#000", true},
		{"#fff", "", "", false},
		{"#fff #000 #123", "", "", false},
		{"rgb(1 2 3 #000", "", "", false},
		{") #000", "", "", false},
		{"", "", "", false},
	}
	for _, tt := range tests {
		if a, b, ok := splitPair(tt.line); a != tt.a || b != tt.b || ok != tt.ok {
			t.Errorf("splitPair(%q) = %q, %q, %v", tt.line, a, b, ok)
		}
	}
}

// Two colours put together with any separator come apart again.
func FuzzSplitPair(f *testing.F) {
	f.Add("#fff", "rgb(1, 2, 3)", " ")
	f.Add("rgb(1 2 3)", "#000", ";")
	f.Fuzz(func(t *testing.T, a, b, between string) {
		first, second, ok := splitPair(a + between + b)
		if !ok && (first != "" || second != "") {
			t.Errorf("refused, but gives %q and %q", first, second)
		}
		if ok && !strings.Contains(a+between+b, first) || ok && !strings.Contains(a+between+b, second) {
			t.Errorf("%q comes apart into %q and %q", a+between+b, first, second)
		}
	})
}
