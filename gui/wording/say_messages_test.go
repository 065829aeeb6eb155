package wording

import "testing"

func TestSayForgotten(t *testing.T) {
	for _, tt := range []struct {
		was  Lying
		want string
	}{
		{Lying{Spots: 1}, "1 spot forgotten"},
		{Lying{Spots: 5, Out: true, Colours: true, Borders: true, ToTarget: true}, "5 spots, left-out parts, local colours, borders, target forgotten"},
		{Lying{Out: true}, "Left-out parts forgotten"},
		{Lying{ToTarget: true}, "Target forgotten"},
	} {
		if got := SayForgotten(tt.was); got != tt.want {
			t.Errorf("%+v: %q, want %q", tt.was, got, tt.want)
		}
	}
}
