package language

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// verb is what package fmt puts an argument in place of, with its place if one is told.
var verb = regexp.MustCompile(`%(\[(\d+)\])?[-+#0]*\d*(\.\d+)?[a-zA-Z]`)

// verbs are a format's: the letter by the argument. Said twice, an argument counts once.
func verbs(format string) map[int]string {
	found, next := map[int]string{}, 1
	for _, m := range verb.FindAllStringSubmatch(strings.ReplaceAll(format, "%%", ""), -1) {
		if m[2] != "" {
			_, _ = fmt.Sscan(m[2], &next)
		}
		found[next] = m[0][len(m[0])-1:]
		next++
	}
	return found
}

// fileOf is what stands in a language's file.
func fileOf(t *testing.T, l Language) map[string]string {
	t.Helper()
	data, err := files.ReadFile("words/" + string(l) + ".json")
	if err != nil {
		t.Fatal(err)
	}
	var said map[string]string
	if err := json.Unmarshal(data, &said); err != nil {
		t.Fatal(l, err)
	}
	return said
}

// Every sentence in the source is said in every language, and nothing else is. What is missing is
// printed as the file has it, to be put there and translated.
func TestNoSentenceIsMissing(t *testing.T) {
	found := keys(t)
	for _, l := range All()[1:] {
		said := fileOf(t, l)
		for _, key := range slices.Sorted(maps.Keys(found)) {
			if said[string(key)] == "" {
				line, _ := json.Marshal(string(key))
				t.Errorf("%s.json misses, for %s:\n\t%s: \"\",", l, found[key], line)
			}
		}
		for key := range said {
			if found[Words(key)] == "" && !ofToolkit[key] {
				t.Errorf("%s.json has a sentence that nobody says: %q", l, key)
			}
		}
	}
}

// ofToolkit are sentences of the toolkit's own that the program may show; it has no Japanese ones
// (fyne.io/fyne/v2 2.7.1, lang/translations).
var ofToolkit = map[string]bool{
	"Advanced": true, "Confirm": true, "Create Folder": true, "Cut": true, "Enter filename": true, "Error": true, "Favourites": true, "File": true, "New Folder": true, "No": true, "OK": true, "Open": true, "Paste": true, "Select all": true, "Show Hidden Files": true, "Yes": true, "file.name": true, "file.parent": true,
}

// A translation takes the arguments that the English sentence has, each in the same way.
func TestVerbsAgree(t *testing.T) {
	for _, l := range All()[1:] {
		for key, text := range fileOf(t, l) {
			plain, _, _ := strings.Cut(key, context)
			if a, b := verbs(plain), verbs(text); !maps.Equal(a, b) {
				t.Errorf("%s: %q takes %v, and %q takes %v", l, key, a, text, b)
			}
		}
	}
}

// Keys hold nothing that the toolkit's format takes for something else.
func TestKeysAreKeys(t *testing.T) {
	for key := range keys(t) {
		switch key {
		case "id", "description", "hash", "leftdelim", "rightdelim", "zero", "one", "two", "few", "many", "other":
			t.Errorf("%q means something in the toolkit's files: add a %s", key, context)
		}
		if strings.Contains(string(key), "{{") {
			t.Errorf("%q is a template", key)
		}
	}
}

// Only constants become Words, but where a phrase is put together from said ones, and none is said
// before the language is known.
func TestOnlyConstantsAreKeys(t *testing.T) {
	for _, s := range inSources(t) {
		if s.path == own {
			continue
		}
		for _, file := range s.files {
			for _, d := range file.Decls {
				in, inFunc := "", false
				if f, ok := d.(*ast.FuncDecl); ok {
					in, inFunc = f.Name.Name, true
				}
				ast.Inspect(d, func(n ast.Node) bool {
					switch n := n.(type) {
					case *ast.FuncLit:
						if !inFunc { // a package's variable that is called later
							return false
						}
					case *ast.CallExpr:
						if s.isWords(n) && s.info.Types[n.Fun].IsType() && s.info.Types[n].Value == nil && in != "Part" {
							t.Errorf("%s, %s: what is no constant becomes a key", s.place(n), in)
						}
						if !inFunc && s.says(n) {
							t.Errorf("%s: said before the language is known: let it be Words", s.place(n))
						}
					case *ast.BinaryExpr:
						if s.isWords(n) && s.info.Types[n].Value == nil {
							t.Errorf("%s, %s: a key is put together", s.place(n), in)
						}
					}
					return true
				})
			}
		}
	}
}

// says reports whether a call says words of ours, whichever way.
func (s source) says(call *ast.CallExpr) bool {
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	f, ok := s.info.Uses[sel.Sel].(*types.Func)
	return ok && f.Pkg() != nil && f.Pkg().Path() == own
}

// bare is what two words of English in a row look like.
var bare = regexp.MustCompile(`[A-Za-z]{2,} [a-z]{2,}`)

// forProgrammers are the calls whose words no painter reads: errors' causes, the log, and searches.
var forProgrammers = regexp.MustCompile(`^(New|Errorf|Error|LogError|Print|Printf|Println|Fprintf|panic|rescue|about|noWindow|Sprintf|MustCompile|button|atom|change|Change|Add|fieldOf|Fatal|Guard)$`)

// named are names of keys and of parts of files, which are said elsewhere.
var named = map[string]bool{`"Page up"`: true, `"Page down"`: true, `"Ctrl+Page up"`: true, `"Ctrl+Page down"`: true,
	`"its code points"`: true, `"its chromaticities"`: true}

// What two words in a row has is said by its language, wherever a painter may read it.
func TestNoSentenceIsBare(t *testing.T) {
	for _, s := range inSources(t) {
		if s.path == own || strings.HasSuffix(s.path, "test") || !strings.Contains(s.path, "/gui") || strings.HasSuffix(s.path, "/native") {
			continue
		}
		for _, file := range s.files {
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.ImportSpec:
					return false
				case *ast.CallExpr:
					return !forProgrammers.MatchString(calledName(n))
				case *ast.GenDecl:
					return n.Tok != token.CONST // parts of Words, or names
				case *ast.BinaryExpr:
					return !s.isWords(n)
				case *ast.BasicLit:
					if named[n.Value] {
						break
					}
					if bare.MatchString(n.Value) && !s.isWords(n) && n.Value[0] != '`' {
						t.Errorf("%s: %s is said in English only", s.place(n), n.Value)
					}
				}
				return true
			})
		}
	}
}

// calledName is the name of what is called.
func calledName(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}
