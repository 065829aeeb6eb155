package main

import (
	"encoding/json"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"app.tonedesk/cmd/desk/desktest"
)

const schemaPath = root + "/testdata/schema/reports.schema.json"

// reportSchemas compiles the schema of each report, by its name in the file's $defs. Formats
// are held to as well.
func reportSchemas(t *testing.T, names ...string) map[string]*jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	compiled := map[string]*jsonschema.Schema{}
	for _, name := range names {
		schema, err := c.Compile(schemaPath + "#/$defs/" + name)
		if err != nil {
			t.Fatal(err)
		}
		compiled[name] = schema
	}
	return compiled
}

// check holds every line of JSON against a schema.
func check(t *testing.T, schema *jsonschema.Schema, out string) {
	t.Helper()
	dec := json.NewDecoder(strings.NewReader(out))
	n := 0
	for dec.More() {
		var report any
		if err := dec.Decode(&report); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		if err := schema.Validate(report); err != nil {
			t.Errorf("%#v\n%.400s", err, out)
		}
		n++
	}
	if n == 0 {
		t.Error("nothing is reported")
	}
}

// Every command's report holds to the schema, of usual pictures and colours and of odd ones.
func TestReportsHoldToTheSchema(t *testing.T) {
	schemas := reportSchemas(t, "read", "spot", "compare", "compare_pictures", "shade", "match", "palette", "relight", "stills", "series", "sheet")
	env, ids := keepStills(t, 120, 30)
	demo, bars := root+"/assets/demo.png", picture(t, "bars.png", 12, 5, threeBars(30))
	clear := picture(t, "clear.png", 4, 4, func(int, int) color.NRGBA { return color.NRGBA{} })
	const list = "#fff\n#000\n#808080\nrgb(226 171 133)\n#00f\n#ff0\n"
	const pairs = "#fff #000\n#808080 #00f\n#ff0 #ff0\n"
	for _, tt := range []struct {
		report, in string
		args       []string
	}{
		{"read", "", []string{"read", "--spots", "590,270;0,0", "--target", bars, demo}},
		{"read", "", []string{"read", "--no-families", "--focus", "1,1", "--focus", "3,2", demo, bars, clear}},
		{"read", "", []string{"read", "--no-families", "--without-ground", "--target", clear, demo, bars, clear}},
		{"spot", list, []string{"spot", "-"}},
		{"compare", pairs, []string{"compare", "-"}},
		{"match", pairs, []string{"match", "-"}},
		{"shade", list, []string{"shade", "-"}},
		{"shade", "", []string{"shade", "--equal", "seen-lightness", "--judge", "#333", "#e2ab85", "#808080"}},
		{"compare_pictures", "", []string{"compare", bars, demo}},
		{"compare_pictures", "", []string{"compare", clear, bars}},
		{"compare_pictures", "", []string{"compare", ids[0], ids[1]}},
		{"palette", "", []string{"palette", demo, bars, clear}},
		{"relight", "", []string{"relight", demo}},
		{"relight", "", []string{"relight", "--warmer=-80", "--deeper", "3", demo}},
		{"shade", list, []string{"shade", "--as", demo, "-"}},
		{"stills", "", []string{"stills"}},
		{"series", "", []string{"stills", "--series"}},
		{"series", "", []string{"stills", "--series", "--groups", "4", "--target", bars, "--turn", "1", ids[0], demo, clear, demo}},
	} {
		t.Run(strings.Join(tt.args[:min(2, len(tt.args))], " "), func(t *testing.T) {
			e := desktest.RunWith(t, env, tt.in, slices.Insert(tt.args, 1, "--json")...)
			if e.Code != 0 {
				t.Fatalf("code %d: %s", e.Code, e.Err)
			}
			check(t, schemas[tt.report], e.Out)
		})
	}
	path := filepath.Join(t.TempDir(), "still.json")
	if e := desktest.RunWith(t, env, "", "sheet", "-o", path, ids[0]); e.Code != 0 {
		t.Fatalf("code %d: %s", e.Code, e.Err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	check(t, schemas["sheet"], string(text))
}

// The schema is no open door: a report with a name more, a name less or a word that is none
// doesn't hold to it.
func TestSchemaRefuses(t *testing.T) {
	schema := reportSchemas(t, "compare")["compare"]
	good := desktest.Run(t, "", "compare", "--json", "#fff", "#000").Out
	check(t, schema, good)
	for was, is := range map[string]string{
		`"tones":`: `"tone":`, `"verdict":"apart"`: `"verdict":"far"`, `"version":1`: `"version":2`, `{"version":1,`: `{"more":1,"version":1,`, `"hue":null`: `"hue":360`,
	} {
		var report any
		if err := json.Unmarshal([]byte(strings.Replace(good, was, is, 1)), &report); err != nil {
			t.Fatal(err)
		}
		if schema.Validate(report) == nil {
			t.Errorf("%s instead of %s holds to the schema", is, was)
		}
	}
}
