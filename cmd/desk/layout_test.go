package main

import (
	"os/exec"
	"path"
	"strings"
	"testing"
)

const module = "app.tonedesk"

// importsOn returns what every package of the module imports, tests not counted, with the
// files for a system.
func importsOn(t *testing.T, system string) map[string][]string {
	t.Helper()
	list := exec.Command("go", "list", "-e", "-f", `{{.ImportPath}} {{join .Imports " "}}`, module+"/...")
	list.Env = append(list.Environ(), "GOOS="+system, "CGO_ENABLED=0")
	if system == "linux" {
		list.Env = list.Environ()
	}
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list on %s: %v", system, err)
	}
	imports := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		fields := strings.Fields(line)
		imports[fields[0]] = fields[1:]
	}
	return imports
}

func under(pkg, folder string) bool {
	return pkg == module+"/"+folder || strings.HasPrefix(pkg, module+"/"+folder+"/")
}

// allowed says whether a package of ours may import another package.
func allowed(pkg, imported string) bool {
	fyne := strings.HasPrefix(imported, "fyne.io/")
	switch {
	case imported == module+"/cmd/desk":
		return false
	case imported == "fyne.io/fyne/v2/app":
		return pkg == module+"/cmd/desk"
	case imported == "github.com/kbinani/screenshot":
		return pkg == module+"/capture"
	case under(pkg, "analysis"):
		return !fyne && !under(imported, "capture") && !under(imported, "gui")
	case under(pkg, "capture"):
		return !fyne && !under(imported, "analysis") && !under(imported, "gui")
	case under(pkg, "gui/stills"):
		return !fyne && !under(imported, "capture") && (!under(imported, "gui") || under(imported, "gui/stills") || imported == module+"/gui/files")
	case under(pkg, "gui/overlay"):
		return !fyne && !under(imported, "capture") && (!under(imported, "gui") || under(imported, "gui/stills/ink"))
	case under(pkg, "gui/native"), under(pkg, "gui/files"):
		return !fyne && !under(imported, "analysis") && (!under(imported, "gui") || imported == pkg)
	}
	return true
}

// The import rule of DEVELOPERS.md, on every system that the program is for.
func TestImports(t *testing.T) {
	for _, system := range []string{"linux", "windows", "darwin"} {
		imports := importsOn(t, system)
		for _, pkg := range []string{"analysis", "capture", "gui", "gui/native", "gui/overlay", "cmd/desk"} {
			if len(imports[path.Join(module, pkg)]) == 0 {
				t.Errorf("%s: %s imports nothing: the list is wrong", system, pkg)
			}
		}
		for pkg, list := range imports {
			for _, imported := range list {
				if !allowed(pkg, imported) {
					t.Errorf("%s: %s must not import %s", system, pkg, imported)
				}
			}
		}
	}
}

// The rule itself refuses what it is for.
func TestAllowed(t *testing.T) {
	for _, refused := range [][2]string{
		{"analysis", "fyne.io/fyne/v2"}, {"analysis", module + "/capture"}, {"capture/xconn", module + "/analysis"},
		{"capture", module + "/gui"}, {"gui", "fyne.io/fyne/v2/app"}, {"gui/native", "fyne.io/fyne/v2/driver"},
		{"gui/stills/notes", "fyne.io/fyne/v2"}, {"gui/stills", module + "/gui"},
		{"gui/overlay", module + "/gui/widgets"}, {"gui/overlay", "fyne.io/fyne/v2"},
		{"gui/files", module + "/gui/stills"}, {"gui/files", "fyne.io/fyne/v2"},
		{"gui", module + "/cmd/desk"}, {"gui", "github.com/kbinani/screenshot"},
	} {
		if allowed(module+"/"+refused[0], refused[1]) {
			t.Errorf("%s may import %s", refused[0], refused[1])
		}
	}
}
