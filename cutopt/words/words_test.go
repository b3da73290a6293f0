package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plank.example/cutopt/words"
)

var placeIn = regexp.MustCompile(`\{[a-z]+\}`)

// A language is complete when it has every key of English, and each of its words the same places and the same number of
// lines: what is filled in or listed by number is then never lost.
func TestLanguagesAreComplete(t *testing.T) {
	english := words.Vocabulary("en")
	for _, language := range words.Languages() {
		vocabulary := words.Vocabulary(language)
		for key, text := range english {
			other, ok := vocabulary[key]
			if !ok {
				t.Errorf("%s lacks %q", language, key)
				continue
			}
			if other == "" {
				t.Errorf("%s says nothing for %q", language, key)
			}
			if a, b := places(text), places(other); !slices.Equal(a, b) {
				t.Errorf("%s %q has the places %v, English %v", language, key, b, a)
			}
			if a, b := strings.Count(text, "\n"), strings.Count(other, "\n"); a != b {
				t.Errorf("%s %q has %d line breaks, English %d", language, key, b, a)
			}
		}
		for key := range vocabulary {
			if _, ok := english[key]; !ok {
				t.Errorf("%s has %q, which English has not", language, key)
			}
		}
	}
	if words.Vocabulary("xx") != nil {
		t.Error("an unknown language has words")
	}
}

func places(text string) []string {
	found := placeIn.FindAllString(text, -1)
	slices.Sort(found)
	return slices.Compact(found)
}

// Every key that the code asks for exists, and every word is asked for somewhere. Keys are the string literals of calls
// to Say, List and Count; one that is continued by a variable stands for all keys that begin with it.
func TestKeysAreUsed(t *testing.T) {
	english := words.Vocabulary("en")
	asked, begun := askedKeys(t)
	for key := range asked {
		if _, ok := english[key]; !ok {
			t.Errorf("the code asks for %q, which is no word", key)
		}
	}
	for key := range english {
		if asked[key] || slices.ContainsFunc(begun, func(b string) bool { return strings.HasPrefix(key, b) }) {
			continue
		}
		t.Errorf("nothing asks for %q", key)
	}
}

func askedKeys(t *testing.T) (asked map[string]bool, begun []string) {
	t.Helper()
	asked = make(map[string]bool)
	inspect(t, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			name := ""
			if sel, ok := n.Fun.(*ast.SelectorExpr); ok {
				name = sel.Sel.Name
			}
			if len(n.Args) == 0 || !slices.Contains([]string{"Say", "List", "Count", "constant"}, name) {
				return true
			}
			if key, whole := literal(n.Args[0]); key != "" && whole && name != "Count" {
				asked[key] = true
			} else if key != "" {
				begun = append(begun, key)
			}
		case *ast.AssignStmt: // key := "step.whole" or "fact." + kind
			if id, ok := n.Lhs[0].(*ast.Ident); ok && id.Name == "key" {
				if key, _ := literal(n.Rhs[0]); key != "" {
					begun = append(begun, key)
				}
			}
		}
		return true
	}, "*.go", "../sheet/*.go", "../sheet/*/*.go", "../../cmd/cutopt/*.go")
	begun = append(begun, "cuts.") // the headings of the list of cuts are asked for in a loop
	template, err := os.ReadFile("../sheet/sheet.html.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`\.Say "([^"]+)"`).FindAllStringSubmatch(string(template), -1) {
		asked[m[1]] = true
	}
	return asked, begun
}

// inspect visits the code of all files that match the patterns, but for tests.
func inspect(t *testing.T, visit func(ast.Node) bool, patterns ...string) {
	t.Helper()
	files, err := sources(patterns...)
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, visit)
	}
}

// sources lists the files that match the patterns.
func sources(patterns ...string) ([]string, error) {
	var files []string
	for _, p := range patterns {
		more, err := filepath.Glob(p)
		if err != nil {
			return nil, err
		}
		files = append(files, more...)
	}
	return files, nil
}

// literal returns a string literal, or the one that a sum begins with.
func literal(e ast.Expr) (text string, whole bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, _ = strconv.Unquote(e.Value)
		return text, true
	case *ast.BinaryExpr:
		text, _ = literal(e.X)
		return text, false
	}
	return "", false
}
