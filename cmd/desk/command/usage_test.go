package command

import (
	"io"
	"strings"
	"testing"
)

// The usage of one command names it and every option that it takes, and no other command's.
func TestUsageOfOneCommand(t *testing.T) {
	for _, c := range []struct {
		name    string
		options []option
	}{
		{"read", readOptions}, {"shade", shadeOptions}, {"palette", paletteOptions}, {"relight", relightOptions},
		{"stills", stillsOptions}, {"sheet", sheetOptions}, {"compare", []option{{name: "json"}, {"tolerance", "T"}}},
	} {
		said := usageOf(c.name)
		if !strings.HasPrefix(said, "  desk "+c.name+" ") && !strings.HasPrefix(said, "  desk "+c.name+"\n") {
			t.Errorf("%s begins %q", c.name, said)
		}
		for _, o := range c.options {
			dashes := " --" + o.name
			if o.name[0] == '-' { // -o
				dashes = " " + o.name
			}
			if !strings.Contains(said, dashes) {
				t.Errorf("the usage of %s lacks%s", c.name, dashes)
			}
		}
		for other := range All {
			if other != c.name && strings.Contains(said, "  desk "+other+" ") {
				t.Errorf("the usage of %s has %s", c.name, other)
			}
		}
	}
	for _, name := range []string{"", "change", "--json"} {
		if said := usageOf(name); said != "" {
			t.Errorf("%q is a command: %s", name, said)
		}
	}
}

// desk help NAME and desk NAME --help say the same; for what is no command the whole page is printed.
func TestHelpOfOneCommand(t *testing.T) {
	said := func(name string, args ...string) string {
		var b strings.Builder
		if code := All[name](args, Streams{In: strings.NewReader(""), Out: &b, Err: io.Discard}); code != ExitDone {
			t.Errorf("%s %v ends with %d", name, args, code)
		}
		return b.String()
	}
	if got, want := said("help", "shade"), said("shade", "--help"); got != want || got == usage() || got == "" {
		t.Errorf("desk help shade:\n%s\ndesk shade --help:\n%s", got, want)
	}
	if got := said("help", "change"); got != usage() {
		t.Errorf("desk help change:\n%s", got)
	}
}
