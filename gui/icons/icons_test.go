package icons

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"testing"
)

// Every name in the list stands for a drawing, and every drawing has a name there.
func TestEveryNameHasItsDrawing(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "icons.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	named := map[Name]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		if v, ok := n.(*ast.ValueSpec); ok && len(v.Values) == 1 {
			if value, ok := v.Values[0].(*ast.BasicLit); ok && value.Kind == token.STRING {
				name, _ := strconv.Unquote(value.Value)
				named[Name(name)] = true
			}
		}
		return true
	})
	for name := range named {
		if Resource(name) == nil {
			t.Errorf("%s stands for no drawing", name)
		}
	}
	for _, name := range Names() {
		if !named[name] {
			t.Errorf("%s has no name in the list", name)
		}
	}
	if len(named) == 0 || Resource("") != nil || Resource("none of ours") != nil {
		t.Error("a name that stands for nothing has a drawing, or there are none")
	}
}

// Each is a single filled path, so that the toolkit can give it any grey.
func TestEachIsOnePath(t *testing.T) {
	for _, name := range Names() {
		svg := Resource(name).Content()
		if bytes.Count(svg, []byte("<path")) != 1 || bytes.Contains(svg, []byte("stroke")) {
			t.Errorf("%s is more than one filled path", name)
		}
	}
}
