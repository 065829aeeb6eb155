package command

import (
	"errors"
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"
)

var testOptions = []option{{name: "json"}, {"size", "1|3"}}

func TestParseArguments(t *testing.T) {
	tests := []struct {
		name     string
		args     []string
		operands []string
		values   map[string]string
	}{
		{"operands and options mixed", []string{"a", "--size", "3", "b", "--json"}, []string{"a", "b"}, map[string]string{"size": "3", "json": ""}},
		{"value behind an equals sign", []string{"--size=3"}, nil, map[string]string{"size": "3"}},
		{"empty value", []string{"--size="}, nil, map[string]string{"size": ""}},
		{"value that looks like an option", []string{"--size", "--json"}, nil, map[string]string{"size": "--json"}},
		{"the last one counts", []string{"--size", "1", "--size", "3"}, nil, map[string]string{"size": "3"}},
		{"end of options", []string{"--", "--json", "-x", "--"}, []string{"--json", "-x", "--"}, nil},
		{"a single dash is an operand", []string{"-"}, []string{"-"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a, err := parseArguments(tt.args, testOptions)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(a.operands, tt.operands) || fmt.Sprint(a.values) != fmt.Sprint(tt.values) && len(a.values)+len(tt.values) > 0 {
				t.Errorf("got %v and %v", a.operands, a.values)
			}
		})
	}
	for _, args := range [][]string{{"-x"}, {"--x"}, {"-json"}, {"--size"}, {"--json=1"}, {"---"}, {"--=3"}} {
		if _, err := parseArguments(args, testOptions); !errors.As(err, new(usageError)) {
			t.Errorf("%v: error %v, want a usageError", args, err)
		}
	}
}

// Whatever is given, nothing gets lost on the way: it is an operand, an option, a value,
// or the reason for a usageError.
func FuzzParseArguments(f *testing.F) {
	f.Add("a --size 3 -- b")
	f.Add("--json=1")
	f.Add("- --size")
	f.Fuzz(func(t *testing.T, text string) {
		args := strings.Split(text, " ")
		a, err := parseArguments(args, testOptions)
		if err != nil {
			if !errors.As(err, new(usageError)) {
				t.Fatalf("%q: %T", text, err)
			}
			return
		}
		if len(a.operands) > len(args) {
			t.Errorf("%q has %d operands", text, len(a.operands))
		}
		for name := range a.values {
			if !slices.ContainsFunc(testOptions, func(o option) bool { return o.name == name }) {
				t.Errorf("%q gives the unknown option %q", text, name)
			}
		}
		for _, o := range a.operands {
			if !slices.Contains(args, o) {
				t.Errorf("%q gives the operand %q", text, o)
			}
		}
	})
}

func TestParseSpots(t *testing.T) {
	good := map[string][]image.Point{
		"1,2":           {{X: 1, Y: 2}},
		"1,2;30,40":     {{X: 1, Y: 2}, {X: 30, Y: 40}},
		" 1 , 2 ; 3,4;": {{X: 1, Y: 2}, {X: 3, Y: 4}},
		"0,2147483647":  {{X: 0, Y: 2147483647}},
	}
	for text, want := range good {
		if got, ok := parseSpots(text); !ok || !slices.Equal(got, want) {
			t.Errorf("parseSpots(%q) = %v, %v", text, got, ok)
		}
	}
	for _, text := range []string{"", ";", "1", "1,", ",2", "1,2,3", "-1,2", "1.5,2", "1,2;;3,4", "a,b", "1,2147483648", "1 2", "+1,2", "0x1,2"} {
		if got, ok := parseSpots(text); ok {
			t.Errorf("parseSpots(%q) = %v", text, got)
		}
	}
}

// What is read as places reads the same when it is written plainly.
func FuzzParseSpots(f *testing.F) {
	f.Add("1,2;3,4")
	f.Add(" 7 , 8 ;")
	f.Add("1,2147483647")
	f.Fuzz(func(t *testing.T, text string) {
		places, ok := parseSpots(text)
		if !ok {
			return
		}
		words := make([]string, len(places))
		for i, p := range places {
			if p.X < 0 || p.Y < 0 {
				t.Fatalf("%q gives %v", text, p)
			}
			words[i] = fmt.Sprintf("%d,%d", p.X, p.Y)
		}
		if again, ok := parseSpots(strings.Join(words, ";")); !ok || !slices.Equal(again, places) {
			t.Errorf("%q gives %v, and that %v", text, places, again)
		}
	})
}

func TestSigned(t *testing.T) {
	tests := []struct {
		v        float64
		decimals int
		want     string
	}{
		{1.25, 1, "+1.2"}, {-1.26, 1, "-1.3"}, {0, 1, "0.0"}, {-0.04, 1, "0.0"}, {0.04, 1, "0.0"}, {-0.4, 0, "0"}, {57, 0, "+57"},
	}
	for _, tt := range tests {
		if got := signed(tt.v, tt.decimals); got != tt.want {
			t.Errorf("signed(%g, %d) = %s, want %s", tt.v, tt.decimals, got, tt.want)
		}
	}
}
