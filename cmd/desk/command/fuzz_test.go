package command

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// tame reports whether a text is of printable letters and line ends alone.
func tame(text string) bool {
	return utf8.ValidString(text) && !strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) })
}

// Whatever the arguments and the list on standard input: a command ends with one of its codes,
// says why it failed in sentences if it did and only then, and nothing that steers a terminal.
func FuzzCommands(f *testing.F) {
	for _, seed := range [][2]string{
		{"spot - --json", "#fff\n\x1b[2Jrgb(1 2 3)\n"}, {"compare #fff #000 --tolerance 3", ""}, {"match -", "#fff #000\nrgb(1,2,3); #abc"},
		{"shade #c08060 --judge #402010 --shadow cool --hue-shift 0.5", ""}, {"read a.png --spots 1,2;3,4 --groups 3", ""}, {"palette a --png b --css b --force", ""},
		{"sheet a.png --page 16:9 -o b.pdf", ""}, {"change a b", ""}, {"stills --json", ""}, {"help", ""}, {"window --trace a b", ""}, {"shade --gain NaN --chroma 1e999 #fff", ""},
	} {
		f.Add(seed[0], seed[1])
	}
	f.Fuzz(func(t *testing.T, text, list string) {
		args := strings.Split(text, " ")
		if strings.ContainsAny(text, `/\:`) {
			return // what is asked for is to stay in the test's folder
		}
		home := t.TempDir()
		for _, name := range []string{"HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "LocalAppData"} {
			t.Setenv(name, home)
		}
		t.Chdir(home)
		var out, fault strings.Builder
		s := Streams{strings.NewReader(list), &out, &fault}
		code := 0
		switch do := All[args[0]]; {
		case do != nil:
			code = do(args[1:], s)
		default:
			if _, err := WindowArguments(args); err != nil {
				code = s.WrongUse(err)
			}
		}
		if !slices.Contains([]int{ExitDone, ExitUnread, exitWrongUse}, code) || (code != 0) != (fault.Len() > 0) {
			t.Errorf("%q ends with %d and says %q", text, code, fault.String())
		}
		for line := range strings.Lines(fault.String()) {
			if !strings.HasPrefix(line, "Can't ") || !strings.HasSuffix(line, ".\n") {
				t.Errorf("%q says %q", text, line)
			}
		}
		if !tame(out.String()) || !tame(fault.String()) {
			t.Errorf("%q says %q and %q", text, out.String(), fault.String())
		}
	})
}

// Any text stays what it is in a line of JSON, and steers no terminal there; what is no UTF-8
// can't be told in JSON.
func FuzzWriteTame(f *testing.F) {
	f.Add("pose.png")
	f.Add("\x1b]0;a\a\u009b\u202e\U000e0001\u2028\"\\<&>\x7f\xff")
	f.Fuzz(func(t *testing.T, text string) {
		var line strings.Builder
		said := map[string]string{"file": text, text: "name"}
		writeTame(&line, encoded(said))
		if !tame(line.String()) || strings.Count(line.String(), "\n") != 1 {
			t.Errorf("%q is written %q", text, line.String())
		}
		var got map[string]string
		if err := json.Unmarshal([]byte(line.String()), &got); err != nil || utf8.ValidString(text) && !reflect.DeepEqual(got, said) {
			t.Errorf("%q reads back as %q, %v", text, got, err)
		}
	})
}
