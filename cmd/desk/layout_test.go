package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "app.tonedesk"

// root is the module's folder, seen from here.
const root = "../.."

// room is a package of ours.
type room struct {
	path    string // in the module: "gui/live"
	dir     string
	files   []string // without tests
	imports []string // without tests
}

// roomsOn returns our packages as they are on a system.
func roomsOn(t *testing.T, system string) map[string]room {
	t.Helper()
	list := exec.Command("go", "list", "-e", "-f", `{{.ImportPath}};{{.Dir}};{{join .GoFiles " "}} {{join .CgoFiles " "}};{{join .Imports " "}}`, module+"/...")
	list.Env = list.Environ()
	if system != "linux" {
		list.Env = append(list.Env, "GOOS="+system, "CGO_ENABLED=0")
	}
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list on %s: %v", system, err)
	}
	rooms := map[string]room{}
	for line := range strings.Lines(string(out)) {
		part := strings.Split(strings.TrimSpace(line), ";")
		r := room{path: strings.TrimPrefix(part[0], module+"/"), dir: part[1], files: strings.Fields(part[2]), imports: strings.Fields(part[3])}
		rooms[r.path] = r
	}
	return rooms
}

// under reports whether a package lies in a folder of ours.
func under(pkg, folder string) bool {
	pkg = strings.TrimPrefix(pkg, module+"/")
	return pkg == folder || strings.HasPrefix(pkg, folder+"/")
}

// door says what the rooms of a folder never import. A name of ours is a folder with all
// below it.
type door struct {
	from  string
	never []string
	but   []string // exceptions to never
}

const toolkit = "fyne.io"

// The doors of the house. Who wants to open one has to say why in DEVELOPERS.md.
var doors = []door{
	{"analysis", []string{toolkit, "capture", "gui", "cmd"}, nil},
	{"capture", []string{toolkit, "analysis", "gui", "cmd"}, nil},
	{"capture/memory", []string{toolkit, "analysis", "capture", "gui", "cmd", "assets"}, nil},
	{"capture/pipewire", []string{toolkit, "analysis", "capture", "gui", "cmd", "assets"}, []string{"capture/pipewire"}},
	{"capture/portal", []string{toolkit, "analysis", "gui", "cmd", "assets"}, nil},
	{"capture/wayland", []string{toolkit, "analysis", "gui", "cmd", "assets"}, nil},
	{"capture/wayland/wire", []string{toolkit, "analysis", "capture", "gui", "cmd", "assets"}, nil},
	{"capture/picturefile", []string{toolkit, "analysis", "gui", "cmd", "assets"}, nil},
	{"capture/monitors", []string{toolkit, "analysis", "gui", "cmd", "assets"}, nil},
	{"capture/plainfile", []string{toolkit, "analysis", "capture", "gui", "cmd", "assets"}, nil},
	{"assets", []string{toolkit, "analysis", "capture", "gui", "cmd"}, nil},
	{"cmd/desk/command", []string{toolkit, "gui"}, []string{"gui/wording", "gui/stills", "gui/pictures", "gui/files", "gui/mistake", "gui/settings"}},
	{"cmd/desk/console", []string{toolkit, "analysis", "capture", "gui", "cmd", "assets"}, nil},
	{"cmd/desk/quiet", []string{toolkit, "analysis", "capture", "gui", "assets"}, []string{"capture/plainfile"}},
	{"gui", []string{"cmd"}, nil},
	{"gui/files", []string{toolkit, "analysis", "capture", "gui"}, []string{"capture/plainfile"}},
	{"gui/mistake", []string{toolkit, "analysis", "capture", "gui"}, nil},
	{"gui/native", []string{toolkit, "analysis", "gui"}, nil},
	{"gui/pictures", []string{toolkit, "gui"}, nil},
	{"gui/setup", []string{toolkit, "capture", "gui"}, nil},
	{"gui/settings", []string{toolkit, "capture", "gui"}, []string{"capture/plainfile", "gui/files", "gui/setup"}},
	{"gui/stills", []string{toolkit, "capture", "gui"}, []string{"capture/memory", "capture/plainfile", "gui/stills", "gui/files", "gui/mistake", "gui/setup", "gui/wording"}},
	{"gui/wording", []string{toolkit, "gui"}, []string{"gui/files", "gui/stills", "gui/mistake", "gui/pictures", "gui/native"}},
	{"gui/language", []string{"analysis", "capture", "gui", "cmd", "assets"}, nil},
	{"gui/live", []string{toolkit, "gui"}, []string{"gui/pictures", "gui/settings", "gui/setup"}},
	{"gui/overlay", []string{toolkit, "capture", "gui"}, []string{"gui/stills", "gui/wording"}},
	{"gui/icons", []string{"analysis", "capture", "gui"}, nil},
	{"gui/typeface", []string{toolkit, "analysis", "capture", "gui"}, nil},
	{"gui/widgets", []string{"capture", "gui"}, []string{"gui/icons", "gui/wording", "gui/settings", "gui/setup", "gui/typeface"}},
	{"gui/host", []string{"capture", "gui"}, []string{"gui/icons", "gui/mistake", "gui/native", "gui/overlay", "gui/setup", "gui/stills", "gui/widgets", "gui/wording"}},
	{"gui/everywhere", []string{"gui"}, []string{"gui/host", "gui/native", "gui/pictures", "gui/settings", "gui/setup", "gui/widgets", "gui/wording"}},
	{"gui/menus", []string{"capture", "gui"}, []string{"gui/icons", "gui/host", "gui/settings", "gui/setup", "gui/widgets", "gui/wording"}},
	{"gui/displays", []string{toolkit, "gui"}, []string{"gui/settings"}},
	{"gui/flashlimit", []string{toolkit, "gui"}, nil},
	{"gui/watching", []string{"gui"}, []string{"gui/displays", "gui/host", "gui/menus", "gui/native", "gui/pictures", "gui/setup", "gui/watching", "gui/widgets", "gui/wording"}},
	{"gui/pointer", []string{"gui"}, []string{"gui/host", "gui/native", "gui/pictures", "gui/settings", "gui/stills/ink", "gui/widgets", "gui/wording"}},
	{"gui/preferences", []string{"capture", "gui"}, []string{"gui/icons", "gui/host", "gui/settings", "gui/widgets", "gui/wording"}},
	{"gui/proposals", []string{"capture", "gui"}, []string{"gui/icons", "gui/host", "gui/live", "gui/setup", "gui/widgets", "gui/wording"}},
	{"gui/growing", []string{"capture", "gui"}, []string{"gui/icons", "gui/host", "gui/stills", "gui/widgets", "gui/wording"}},
	{"gui/autokeep", []string{"capture", "gui"}, []string{"gui/host", "gui/live", "gui/settings", "gui/setup", "gui/stills", "gui/wording"}},
	{"gui/keeping", []string{"capture", "gui"}, []string{"gui/growing", "gui/icons", "gui/host", "gui/stills", "gui/widgets", "gui/wording"}},
	{"gui/comparing", []string{"capture", "gui"}, []string{"gui/icons", "gui/host", "gui/live", "gui/overlay", "gui/setup", "gui/stills", "gui/widgets", "gui/wording"}},
	{"gui/remember", []string{"analysis", "capture", "gui"}, []string{"analysis/movement", "gui/host", "gui/settings", "gui/setup", "gui/structure", "gui/wording"}},
	{"gui/tray", []string{"analysis", "capture", "gui"}, []string{"gui/host", "gui/wording"}},
	{"gui/structure", []string{"capture", "gui"}, []string{"gui/icons", "gui/host", "gui/live", "gui/overlay", "gui/pictures", "gui/setup", "gui/stills", "gui/widgets", "gui/wording"}},
}

// allowed reports whether a package of ours may import another.
func allowed(pkg, imported string) bool {
	pkg = strings.TrimPrefix(pkg, module+"/")
	switch imported {
	case "github.com/kbinani/screenshot":
		return pkg == "capture"
	case "fyne.io/fyne/v2/app", module + "/gui":
		return pkg == "cmd/desk"
	case module + "/cmd/desk":
		return false
	case module + "/gui/language": // what says a sentence says it in the reader's language; measuring says none
		return under(pkg, "gui") || under(pkg, "cmd")
	case toolkit + "/fyne/v2/lang":
		return under(pkg, "gui/language")
	}
	if equipment(imported) {
		return equipment(pkg) || weighs(pkg)
	}
	names := func(name string) bool {
		return under(imported, name) || name == toolkit && strings.HasPrefix(imported, toolkit)
	}
	return !slices.ContainsFunc(doors, func(d door) bool {
		return under(pkg, d.from) && slices.ContainsFunc(d.never, names) && !slices.ContainsFunc(d.but, names)
	})
}

// weighs reports whether a package fits or judges the finder, on what tests use: no part of the
// program.
func weighs(pkg string) bool {
	pkg = strings.TrimPrefix(pkg, module+"/")
	return pkg == "scripts/fit" || pkg == "scripts/judge"
}

// equipment reports whether a package of ours is there for tests only.
func equipment(pkg string) bool {
	pkg, ours := strings.CutPrefix(pkg, module+"/")
	return (ours || !strings.Contains(pkg, ".")) && (strings.HasSuffix(pkg, "test") || strings.HasSuffix(pkg, "/testkit"))
}

// Every room keeps its doors, on every system that the program is for.
func TestDoors(t *testing.T) {
	for _, system := range []string{"linux", "windows", "darwin"} {
		rooms := roomsOn(t, system)
		for _, d := range doors {
			if _, ok := rooms[d.from]; !ok {
				t.Errorf("%s: there is no room %s: the list is wrong", system, d.from)
			}
		}
		for _, r := range rooms {
			for _, imported := range r.imports {
				if !allowed(r.path, imported) {
					t.Errorf("%s: %s must not import %s", system, r.path, imported)
				}
			}
		}
	}
}

// The rule itself refuses what it is for, and nothing else.
func TestAllowed(t *testing.T) {
	for _, refused := range [][2]string{
		{"analysis", "fyne.io/fyne/v2"}, {"analysis/colour", module + "/capture"}, {"capture/xconn", module + "/analysis"},
		{"capture", module + "/gui/settings"}, {"gui", "fyne.io/fyne/v2/app"}, {"gui/native", "fyne.io/fyne/v2/driver"},
		{"gui/stills/notes", "fyne.io/fyne/v2"}, {"gui/stills", module + "/gui"}, {"gui/stills/ink", module + "/gui/widgets"},
		{"gui", module + "/cmd/desk"}, {"gui", "github.com/kbinani/screenshot"}, {"gui/live", "fyne.io/fyne/v2"},
		{"gui/live", module + "/gui/widgets"}, {"gui/widgets", module + "/gui/live"}, {"gui/widgets", module + "/gui"},
		{"gui/widgets", module + "/capture"}, {"gui/wording", module + "/gui/widgets"}, {"gui/settings", module + "/gui/widgets"},
		{"cmd/desk/command", module + "/gui/widgets"}, {"gui/stills", module + "/analysis/scenetest"},
	} {
		if allowed(refused[0], refused[1]) {
			t.Errorf("%s may import %s", refused[0], refused[1])
		}
	}
	for _, open := range [][2]string{
		{"gui", "fyne.io/fyne/v2"}, {"gui/widgets", "fyne.io/fyne/v2"}, {"gui/stills", module + "/gui/stills/ink"},
		{"gui/stills/export", module + "/gui/wording"}, {"cmd/desk", module + "/gui"}, {"analysis/views", module + "/analysis/internal/pool"},
	} {
		if !allowed(open[0], open[1]) {
			t.Errorf("%s may not import %s", open[0], open[1])
		}
	}
}

// Only the file that opens the window imports it.
func TestOnlyTheWindowsFileImportsTheWindow(t *testing.T) {
	for name, file := range parsed(t, ".") {
		for _, i := range file.Imports {
			if path := strings.Trim(i.Path.Value, `"`); path == module+"/gui" && name != "window.go" {
				t.Errorf("%s imports the window", name)
			}
		}
	}
}

// The commands link no toolkit: they start at once, also where no window can be opened. Of its words,
// in gui/language, come its package of languages and the core's types, which draw nothing.
func TestCommandsLinkNoToolkit(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", module+"/cmd/desk/command").Output()
	if err != nil {
		t.Fatal(err)
	}
	for name := range strings.Lines(string(out)) {
		words := strings.TrimSpace(name) == toolkit+"/fyne/v2" || strings.TrimSpace(name) == toolkit+"/fyne/v2/lang"
		if strings.HasPrefix(name, toolkit) && !words || strings.Contains(name, "go-gl") {
			t.Errorf("a command links %s", strings.TrimSpace(name))
		}
	}
}

// What asks for a wall; our choice.
const (
	mostFiles = 40
	mostLines = 4500
)

// No room is too large to be read, but for the search for local colours and the widgets,
// where each is a file or a few of its own. Every room says in doc.go what it is for.
func TestRoomsAreSmall(t *testing.T) {
	for _, r := range roomsOn(t, "linux") {
		lines := 0
		for _, name := range r.files {
			text, err := os.ReadFile(filepath.Join(r.dir, name))
			if err != nil {
				t.Fatal(err)
			}
			lines += bytes.Count(text, []byte("\n"))
		}
		large := r.path == "analysis/families" || r.path == "gui/widgets"
		if !large && (len(r.files) > mostFiles || lines > mostLines) {
			t.Errorf("%s has %d files and %d lines: it asks for a wall", r.path, len(r.files), lines)
		}
		if !slices.Contains(r.files, "doc.go") && !under(r.path, "cmd/desk/testdata") {
			t.Errorf("%s has no doc.go", r.path)
		}
	}
}

// What the controller may have: it joins, and owners have the rest. Our choice.
const (
	mostMethods     = 110
	mostFields      = 35
	mostMethodFiles = 20
)

// The controller stays small, and only the pages know it.
func TestTheControllerIsSmall(t *testing.T) {
	methods, fields, in := 0, 0, map[string]bool{}
	for name, file := range parsed(t, filepath.Join(root, "gui")) {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if n.Recv != nil && isDesk(n.Recv.List[0].Type) {
					methods++
					in[name] = true
				}
			case *ast.TypeSpec:
				s, ok := n.Type.(*ast.StructType)
				if !ok {
					break
				}
				for _, f := range s.Fields.List {
					if n.Name.Name == "Desk" {
						fields += max(len(f.Names), 1)
					}
					if isDesk(f.Type) && !strings.HasSuffix(n.Name.Name, "Page") {
						t.Errorf("%s: %s holds the controller", name, n.Name.Name)
					}
				}
			}
			return true
		})
	}
	if methods == 0 || methods > mostMethods || fields == 0 || fields > mostFields || len(in) > mostMethodFiles {
		t.Errorf("the controller has %d methods in %d files and %d fields; at most %d, %d and %d", methods, len(in), fields, mostMethods, mostMethodFiles, mostFields)
	}
}

// isDesk reports whether a type is the controller or a pointer to it.
func isDesk(t ast.Expr) bool {
	if p, ok := t.(*ast.StarExpr); ok {
		t = p.X
	}
	name, ok := t.(*ast.Ident)
	return ok && name.Name == "Desk"
}

// parsed returns a folder's files, without tests.
func parsed(t *testing.T, dir string) map[string]*ast.File {
	t.Helper()
	files := map[string]*ast.File{}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(names) == 0 {
		t.Fatalf("%s: %v, %d files", dir, err, len(names))
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(name)] = file
	}
	return files
}
