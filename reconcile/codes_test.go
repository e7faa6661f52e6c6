package reconcile_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/reconcile/finding"
)

// findingCode is how the codes of findings are written. A reason of the engine that says that data is missing has no such prefix of its own.
var findingCode = regexp.MustCompile(`^(file|layout|data|map)\.[a-z0-9]+(-[a-z0-9]+)*$`)

// TestFindingCodes holds the list of codes to the code: every one that is written is described, and every one described is written.
func TestFindingCodes(t *testing.T) {
	written := map[string]string{}
	err := filepath.WalkDir(".", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || path == filepath.Join("finding", "codes.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, err := strconv.Unquote(lit.Value); err == nil && findingCode.MatchString(text) {
					written[text] = path
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for code, path := range written {
		if finding.Meaning(code) == "" {
			t.Errorf("%s, in %s, is in no list: describe it in finding/codes.go", code, path)
		}
	}
	for _, one := range finding.Codes() {
		if written[one.Code] == "" {
			t.Errorf("%s is described and never written", one.Code)
		}
	}
}
