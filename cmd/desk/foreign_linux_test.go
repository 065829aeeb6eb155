package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// foreign skips a test where the program is not tested for another system (make test-windows).
func foreign(t *testing.T) {
	t.Helper()
	if !desktest.Foreign() {
		t.Skip("the program is tested for this system")
	}
}

// painting copies a picture of ours to where a painter may have it.
func painting(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(root, "assets", "demo.png"))
	must(t, err, os.MkdirAll(filepath.Dir(path), 0o700), os.WriteFile(path, data, 0o600))
	return path
}

// both runs a command on this system and on the other, and fails unless both say the same to the
// byte. It returns that.
func both(t *testing.T, input string, args ...string) desktest.Ended {
	t.Helper()
	here := desktest.RunProgram(t, desktest.Built(t), nil, input, args...)
	there := desktest.Run(t, input, args...)
	if here != there {
		t.Errorf("%v:\nhere  %+v\nthere %+v", args, here, there)
	}
	return here
}

// What a command says is the same to the byte on both systems: figures, words and JSON, for files in
// folders with blanks and umlauts and with paths longer than Windows once had (260, MAX_PATH), by /
// and by \, and for lists that end their lines as Windows does.
func TestForeignSaysTheSame(t *testing.T) {
	foreign(t)
	dir := t.TempDir()
	demo := painting(t, filepath.Join(dir, "Ölbilder für März", "stille Tage ü.png"))
	second := picture(t, "study.png", 12, 5, threeBars(120))
	long := painting(t, filepath.Join(dir, strings.Repeat("ein langer Ordner/", 16), "bild.png"))
	if len(long) < 300 {
		t.Fatal("the long path is short")
	}
	lines := "\ufeff#e2ab85\r\n\r\n rgb(1 2 3) \r\nnonsense\r\n#000"
	for _, tt := range []struct {
		input string
		args  []string
	}{
		{"", []string{"help"}},
		{"", []string{"read", demo}}, {"", []string{"read", "--json", "--spots", "20,20;300,200", demo, second}}, {"", []string{"read", "--json", long}},
		{"", []string{"read", "--json", "--groups", "3", "--target", second, demo}}, {"", []string{"read", "--without-ground", demo}},
		{"", []string{"spot", "--json", "#e2ab85", "#b26a5c"}}, {"", []string{"spot", "#e2ab85"}},
		{lines, []string{"spot", "--json", "-"}}, {lines, []string{"shade", "--json", "-"}}, {"#fff #000\r\n#e2ab85 #b26a5c\r\n", []string{"compare", "-"}}, {"#fff #000\r\n", []string{"match", "--json", "-"}},
		{"", []string{"compare", "--json", "#e2ab85", "#b26a5c"}}, {"", []string{"compare", "--json", demo, second}}, {"", []string{"compare", demo, demo}},
		{"", []string{"shade", "--json", "#e2ab85"}}, {"", []string{"shade", "#e2ab85"}}, {"", []string{"match", "#e2ab85", "#b26a5c"}},
		{"", []string{"palette", "--json", demo}}, {"", []string{"palette", demo, second}}, {"", []string{"relight", "--json", demo}},
		{"", []string{"read", filepath.Join(dir, "keine.png")}}, {"", []string{"read", dir}}, {"", []string{"spot", "nonsense"}}, {"", []string{"sheet"}},
	} {
		both(t, tt.input, tt.args...)
	}
	here := desktest.RunProgram(t, desktest.Built(t), nil, "", "read", "--json", demo)
	drive := `Z:` + strings.ReplaceAll(demo, "/", `\`) // Wine's drive for all that this system has
	there := desktest.Run(t, "", "read", "--json", drive)
	file := regexp.MustCompile(`"file":"[^"]*"`)
	if there.Code != 0 || file.ReplaceAllString(there.Out, "") != file.ReplaceAllString(here.Out, "") || !strings.Contains(there.Out, `Z:\\tmp\\`) {
		t.Errorf("by its drive:\n%+v\nhere %+v", there, here)
	}
}

// detached has the program started as Windows starts one with a window: with neither a terminal nor
// streams (scripts/windows/launch.c).
const detached = "TEST_DETACHED=1"

// Started from a terminal, a command says there what it has to say, as if it had been given its streams;
// started from nowhere, it shows a box, and ends with its code when that was read.
func TestForeignTerminal(t *testing.T) {
	foreign(t)
	for colour, want := range map[string]string{"#fff": "#ffffff       100.0", "nonsense": `Can't read "nonsense": it is not a colour`} {
		e := desktest.RunProgram(t, "script", []string{detached}, "", "-qec", desktest.Program(t)+" spot '"+colour+"'", "/dev/null")
		if !strings.Contains(e.Out, want) {
			t.Errorf("%s: %+v", colour, e)
		}
	}
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	ended := make(chan desktest.Ended, 1)
	go func() {
		ended <- desktest.RunWith(t, []string{detached, "DISPLAY=" + server.Display}, "", "spot", "nonsense")
	}()
	xdotool := func(args ...string) string {
		cmd := exec.Command("xdotool", args...)
		cmd.Env = server.Env()
		out, _ := cmd.Output() // none is an answer too
		return strings.TrimSpace(string(out))
	}
	var id string
	server.WaitFor("the box", func() bool {
		id = xdotool("search", "--onlyvisible", "--name", "^Tonedesk$")
		return id != ""
	})
	server.WaitFor("its end", func() bool {
		xdotool("windowactivate", "--sync", id, "key", "Return")
		select {
		case e := <-ended:
			if e.Code != 2 || e.Out != "" || e.Err != "" {
				t.Errorf("%+v", e)
			}
			return true
		default:
			return false
		}
	})
}

// Without a display the window says in one sentence that there is none.
func TestForeignWithoutDisplay(t *testing.T) {
	foreign(t)
	e := desktest.RunWith(t, []string{"DISPLAY="}, "")
	if e.PlainErrors(t, 1); e.Code != 1 || e.Out != "" || !strings.Contains(e.Err, "there is no display to open it on") {
		t.Errorf("%+v", e)
	}
}

// stamps are the times in a PDF, and the name that is made of them.
var stamps = regexp.MustCompile(`/(CreationDate|ModDate) ?\([^)]*\)|/ID ?\[[^\]]*\]`)

// What a command writes is the same to the byte too, but for the time that stands in it.
func TestForeignWritesTheSame(t *testing.T) {
	foreign(t)
	path := picture(t, "study ü.png", 12, 5, threeBars(120))
	for _, tt := range []struct {
		name string
		args []string
	}{
		{"a.png", []string{"sheet", "-o"}}, {"ä b.pdf", []string{"sheet", "-o"}}, {"a.ora", []string{"sheet", "-o"}}, {"p.png", []string{"sheet", "--picture", "-o"}},
		{"s.png", []string{"palette", "--png"}}, {"s.css", []string{"palette", "--css"}},
	} {
		var wrote [2][]byte
		for i, program := range []string{desktest.Built(t), desktest.Program(t)} {
			out := filepath.Join(t.TempDir(), tt.name)
			e := desktest.RunProgram(t, program, nil, "", append(append([]string{}, tt.args...), out, path)...)
			if e.PlainErrors(t, 0); e.Code != 0 {
				t.Fatalf("%v: code %d", tt.args, e.Code)
			}
			data, err := os.ReadFile(out)
			must(t, err)
			wrote[i] = stamps.ReplaceAll(data, nil)
		}
		if len(wrote[0]) == 0 || !bytes.Equal(wrote[0], wrote[1]) {
			t.Errorf("%v %s: %d bytes here, others there, %d", tt.args, tt.name, len(wrote[0]), len(wrote[1]))
		}
	}
}

// Names of devices are refused in a sentence, in every folder and however they end, to be read and to
// be written, and so are names that no file can have. Source: Microsoft, "Naming Files, Paths, and
// Namespaces".
func TestForeignNames(t *testing.T) {
	foreign(t)
	dir := t.TempDir()
	good := picture(t, "good.png", 12, 5, threeBars(120))
	for _, name := range []string{"CON", "NUL", "nul.png", "COM1.png", "LPT1", "CONIN$", "AUX.pdf", `a|b.png`, `a<b>.png`, `a"b.png`, `what?.png`, `a*.png`} {
		for _, path := range []string{name, dir + "/" + name} {
			for _, args := range [][]string{
				{"read", path}, {"palette", path}, {path}, {"palette", "--png", path, "--force", good}, {"palette", "--css", path, good}, {"--trace", path, good},
			} {
				e := desktest.Run(t, "", args...)
				if e.PlainErrors(t, 1); e.Code != 1 || e.Out != "" && len(args) < 3 || strings.Contains(e.Err, "the reason given is") {
					t.Errorf("%v: %+v", args, e)
				}
			}
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}
