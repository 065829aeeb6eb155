package language

import (
	"encoding/json"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"unicode"
)

const (
	root = "../.."
	own  = "app.tonedesk/gui/language"
)

// source is a package of ours with the types of its expressions.
type source struct {
	path  string
	files []*ast.File
	fset  *token.FileSet
	info  *types.Info
}

// place names where a node stands.
func (s source) place(n ast.Node) string {
	at := s.fset.Position(n.Pos())
	return filepath.Base(filepath.Dir(at.Filename)) + "/" + filepath.Base(at.Filename)
}

// isWords reports whether an expression is of the type of keys.
func (s source) isWords(e ast.Expr) bool {
	t := s.info.Types[e].Type
	n, ok := types.Unalias(orNil(t)).(*types.Named)
	return ok && n.Obj().Name() == "Words" && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == own
}

func orNil(t types.Type) types.Type {
	if t == nil {
		return types.Typ[types.Invalid]
	}
	return t
}

// inSources are the packages that may say something. What they say is the same on every system: it is
// read where there is a go command, which Wine has not.
func inSources(t *testing.T) []source {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the source is read on other systems")
	}
	all, err := sources()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// sources reads the packages that may say something, once for all tests. What is for Windows alone
// lies in wording.
var sources = sync.OnceValues(func() (all []source, err error) {
	for _, on := range []struct {
		system  string
		folders []string
	}{{"", []string{"./gui/...", "./cmd/desk/..."}}, {"windows", []string{"./gui/wording"}}} {
		more, err := read(on.system, on.folders)
		if err != nil {
			return nil, err
		}
		all = append(all, more...)
	}
	return all, nil
})

// read lists packages with what the compiler exports of them and of all they import, and reads
// their files against that.
func read(system string, folders []string) (all []source, err error) {
	list := exec.Command("go", append([]string{"list", "-export", "-deps", "-json=ImportPath,Dir,GoFiles,CgoFiles,Export"}, folders...)...)
	list.Dir = root
	if system != "" {
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
	}
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return nil, err
	}
	type listed struct {
		ImportPath, Dir, Export string
		GoFiles, CgoFiles       []string
	}
	exports, ours := map[string]string{}, []listed{}
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			return nil, err
		}
		exports[p.ImportPath] = p.Export
		if strings.HasPrefix(p.ImportPath, "app.tonedesk/gui") || strings.HasPrefix(p.ImportPath, "app.tonedesk/cmd/desk") {
			ours = append(ours, p)
		}
	}
	for _, p := range ours {
		s := source{path: p.ImportPath, fset: token.NewFileSet(), info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}}
		for _, name := range append(p.GoFiles, p.CgoFiles...) {
			file, err := parser.ParseFile(s.fset, filepath.Join(p.Dir, name), nil, 0)
			if err != nil {
				return nil, err
			}
			s.files = append(s.files, file)
		}
		open := func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }
		conf := types.Config{Importer: importer.ForCompiler(s.fset, "gc", open), FakeImportC: true}
		if _, err := conf.Check(p.ImportPath, s.fset, s.files, s.info); err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	return all, nil
}

// keys returns every constant that is Words in what may be shown, with a place where it stands.
func keys(t *testing.T) map[Words]string {
	t.Helper()
	all := inSources(t)
	found := map[Words]string{}
	for _, s := range all {
		for _, file := range s.files {
			ast.Inspect(file, func(n ast.Node) bool {
				e, ok := n.(ast.Expr)
				if !ok || !s.isWords(e) {
					return true
				}
				v := s.info.Types[e].Value
				if v == nil {
					return true
				}
				if key := constant.StringVal(v); spokenText(key) {
					found[Words(key)] = s.place(e)
				}
				return false // a part of a constant is none
			})
		}
	}
	if len(found) < 500 {
		t.Fatalf("only %d sentences found", len(found))
	}
	return found
}

// spokenText reports whether there is something in a text to be said: a letter that is no verb's.
func spokenText(text string) bool {
	return strings.ContainsFunc(verb.ReplaceAllString(text, ""), unicode.IsLetter)
}
