package cmd

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// What DEVELOPERS.md names is there: files, tests, and whatever a package calls so.
func TestWhatDEVELOPERSNamesIsThere(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	var files []string
	names := map[string]bool{}
	set := token.NewFileSet()
	err = filepath.WalkDir("..", func(path string, e fs.DirEntry, err error) error {
		if err != nil || strings.Contains(path, "/.git/") {
			return err
		}
		files = append(files, "/"+filepath.ToSlash(strings.TrimPrefix(path, "../")))
		if !strings.HasSuffix(path, ".go") {
			return nil
		}
		f, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				names[id.Name] = true
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	isThere := func(name string) bool {
		for _, f := range files {
			if strings.HasSuffix(f, "/"+name) {
				return true
			}
		}
		return false
	}
	prose := regexp.MustCompile(`(?m)^    .*$`).ReplaceAllString(string(text), "")
	seen := 0
	for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(prose, -1) {
		word := m[1]
		switch {
		case strings.ContainsAny(word, " *()") || strings.Contains(word, "NAME") || strings.HasPrefix(word, "-"):
			continue // a command, a type, a pattern
		case strings.Contains(word, "/") || regexp.MustCompile(`\.(go|sh|py)$`).MatchString(word):
			if !isThere(word) {
				t.Errorf("there is no %s", word)
			}
		case isThere(word):
		default:
			for _, name := range strings.Split(word, ".") {
				if !names[name] {
					t.Errorf("nothing is called %s, of %s", name, word)
				}
			}
		}
		seen++
	}
	if seen < 80 {
		t.Errorf("only %d names found", seen)
	}
}
