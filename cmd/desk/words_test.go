package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// verbs are those that stand behind "Can't", and so begin every deed.
var verbs = strings.Fields(`bring compare copy delete empty export find finish hand judge keep list make mark match open put read
	remove rename restore save say shade show take undo use watch write`)

// deeds are the calls and types whose first part is a deed.
var deeds = []string{"Explain", "ExplainWriting", "Cannot", "Try", "usageError", "AskPictureFile"}

// Every sentence on what can't be done goes on with a verb, and names get into it by
// wording.On alone, which quotes them.
func TestSentencesBeginWithVerbs(t *testing.T) {
	seen := 0
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			name, first := firstPart(n)
			switch {
			case name == "Phrase" && file.Name.Name != "wording" && firstWord(first) == "":
				t.Errorf("%s: a name may get into a sentence unquoted: say wording.On", path)
			case slices.Contains(deeds, name):
				word := firstWord(first)
				if word != "" {
					seen++
				}
				if word != "" && !slices.Contains(verbs, word) {
					t.Errorf("%s: Can't %s …: no verb that is known", path, word)
				}
			}
			return true
		})
		return nil
	})
	if err != nil || seen < 60 { // there are some eighty
		t.Errorf("%d sentences looked at, %v", seen, err)
	}
}

// firstPart returns what a call or a literal of a struct is of, and its first part.
func firstPart(n ast.Node) (name string, first ast.Expr) {
	var of ast.Expr
	var parts []ast.Expr
	switch n := n.(type) {
	case *ast.CallExpr:
		of, parts = n.Fun, n.Args
	case *ast.CompositeLit:
		of, parts = n.Type, n.Elts
	}
	if s, ok := of.(*ast.SelectorExpr); ok {
		of = s.Sel
	}
	id, ok := of.(*ast.Ident)
	if !ok || len(parts) == 0 {
		return "", nil
	}
	return id.Name, parts[0]
}

// firstWord returns the word that an expression begins with; "" where it is not written
// there: the sentences that are said are tested too.
func firstWord(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, _ := strconv.Unquote(e.Value)
		word, _, _ := strings.Cut(text, " ")
		return word
	case *ast.BinaryExpr:
		return firstWord(e.X)
	case *ast.CallExpr:
		if name, first := firstPart(e); name == "On" || name == "Part" {
			return firstWord(first)
		}
	case *ast.Ident:
		if e.Obj != nil { // what := wording.On("write %s", path)
			if set, ok := e.Obj.Decl.(*ast.AssignStmt); ok && len(set.Rhs) == 1 {
				return firstWord(set.Rhs[0])
			}
		}
	}
	return ""
}
