package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/capture/picturefile"
	"app.tonedesk/cmd/desk/desktest"
)

func TestSheetOfPictureAndStill(t *testing.T) {
	env, ids := keepStills(t, 120)
	path := picture(t, "study.png", 12, 5, threeBars(120))
	dir := t.TempDir()
	for _, from := range []string{path, ids[0]} {
		for name, begins := range map[string]string{"a.png": "\x89PNG", "a.pdf": "%PDF-", "a.ora": "PK\x03\x04", "a.json": "{"} {
			file := filepath.Join(dir, name)
			e := desktest.RunWith(t, env, "", "sheet", "-o", file, "--page", "16:9", "--force", from)
			if e.PlainErrors(t, 0); e.Code != 0 || e.Out != "" {
				t.Fatalf("code %d, %s", e.Code, e.Out)
			}
			data, err := os.ReadFile(file)
			if err != nil || !bytes.HasPrefix(data, []byte(begins)) {
				t.Fatalf("%s: %v, % x", name, err, data[:min(8, len(data))])
			}
			if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 && !desktest.Foreign() {
				t.Errorf("%s: %v, %v", name, info.Mode(), err)
			}
		}
		// 13 1/3 by 7.5 inches at 8 pixels a millimetre; the layers are as large as the picture.
		for name, want := range map[string]image.Point{"a.png": {2709, 1524}, "a.ora": {12, 5}} {
			if p, err := picturefile.Open(filepath.Join(dir, name)); err != nil || p.Size != want {
				t.Errorf("%s of %s: %v", name, from, err)
			}
		}
	}
	var still struct {
		Name  string
		Notes []struct{ Kind, Text string }
	}
	text, err := os.ReadFile(filepath.Join(dir, "a.json"))
	if err == nil {
		err = json.Unmarshal(text, &still)
	}
	if err != nil || still.Name != "study" || len(still.Notes) != 1 || still.Notes[0].Text != "soft edge" {
		t.Errorf("%s, %v", text, err)
	}
}

func TestSheetIsUsedWrongly(t *testing.T) {
	path := picture(t, "study.png", 12, 5, threeBars(120))
	for _, tt := range []struct {
		args []string
		code int
	}{
		{[]string{"sheet"}, 2},
		{[]string{"sheet", path, path}, 2},
		{[]string{"sheet", "--page", "letter", path}, 2},
		{[]string{"sheet", "-o", "x.gif", path}, 2},
		{[]string{"sheet", "--picture", "-o", "x.pdf", path}, 2},
		{[]string{"sheet", "-o", filepath.Join(t.TempDir(), "no", "x.pdf"), path}, 1},
		{[]string{"sheet", "no-such-still"}, 1},
	} {
		e := desktest.Run(t, "", tt.args...)
		if e.PlainErrors(t, 1); e.Code != tt.code {
			t.Errorf("%v: code %d, %s", tt.args, e.Code, e.Err)
		}
	}
}

// A folder that isn't there is called that.
func TestSheetIntoNoFolder(t *testing.T) {
	path := picture(t, "study.png", 12, 5, threeBars(120))
	for _, force := range [][]string{nil, {"--force"}} {
		e := desktest.Run(t, "", append(append([]string{"sheet"}, force...), "-o", filepath.Join(t.TempDir(), "no", "x.pdf"), path)...)
		if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, "no such folder") {
			t.Errorf("code %d, %s", e.Code, e.Err)
		}
	}
}

// Without -o the file goes to where the command runs; over another only with --force.
func TestSheetDoesNotOverwrite(t *testing.T) {
	path := picture(t, "study.png", 12, 5, threeBars(120))
	dir := t.TempDir()
	t.Chdir(dir)
	where := filepath.Join(dir, "study-sheet.pdf")
	if desktest.Foreign() {
		where = "Z:" + strings.ReplaceAll(where, "/", `\`) // Wine's drive for all that this system has
	}
	if e := desktest.Run(t, "", "sheet", path); e.Code != 0 || e.Out != "Wrote the sheet as \""+where+"\".\n" {
		t.Fatal(e.Out, e.Err)
	}
	before, err := os.ReadFile("study-sheet.pdf")
	if err != nil {
		t.Fatal(err)
	}
	e := desktest.Run(t, "", "sheet", path)
	if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, "already") || !strings.Contains(e.Err, "--force") {
		t.Errorf("code %d, %s", e.Code, e.Err)
	}
	if after, err := os.ReadFile("study-sheet.pdf"); err != nil || !bytes.Equal(before, after) {
		t.Error("the file was changed")
	}
	if e := desktest.Run(t, "", "sheet", "--force", path); e.Code != 0 {
		t.Error(e.Err)
	}
}

// A picture without anything on it is refused; one that is half transparent stays so in its
// layers.
func TestSheetOfTransparent(t *testing.T) {
	even := func(alpha uint8) func(x, y int) color.NRGBA {
		return func(int, int) color.NRGBA { return color.NRGBA{200, 100, 50, alpha} }
	}
	out := filepath.Join(t.TempDir(), "x.ora")
	e := desktest.Run(t, "", "sheet", "-o", out, picture(t, "clear.png", 12, 5, even(0)))
	if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, "all of it is transparent") {
		t.Errorf("code %d, %s", e.Code, e.Err)
	}
	e = desktest.Run(t, "", "sheet", "-o", out, picture(t, "half.png", 12, 5, even(100)))
	if e.PlainErrors(t, 0); e.Code != 0 {
		t.Fatalf("code %d", e.Code)
	}
	if p, err := picturefile.Open(out); err != nil || p.Pix[3] != 100 {
		t.Errorf("the merged picture has alpha %v, want 100 (%v)", p.Pix[3], err)
	}
}

// A still is meant by its folder, as desk stills prints it, and by its name while no other
// has it.
func TestStillByFolderAndName(t *testing.T) {
	env, ids := keepStills(t, 120)
	folder := filepath.Join(strings.TrimPrefix(env[0], "XDG_DATA_HOME="), "tonedesk", "stills", ids[0])
	out := filepath.Join(t.TempDir(), "x.json")
	for _, name := range []string{folder, folder + "/", "study"} {
		e := desktest.RunWith(t, env, "", "sheet", "--force", "-o", out, name)
		if e.PlainErrors(t, 0); e.Code != 0 {
			t.Errorf("%s: code %d", name, e.Code)
		}
	}
	env, _ = keepStills(t, 120, 30)
	e := desktest.RunWith(t, env, "", "sheet", "--force", "-o", out, "study")
	if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, "more than one") {
		t.Errorf("two of one name: code %d, %s", e.Code, e.Err)
	}
	e = desktest.RunWith(t, env, "", "sheet", "--force", "-o", out, filepath.Dir(folder))
	if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, "it is a folder") {
		t.Errorf("another folder: code %d, %s", e.Code, e.Err)
	}
}
