package reconcile_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// The words of languages are data: a file in catalog/words/data is all that there is to add for another one. TestNoWordsInCode finds letters
// beyond ASCII, and in regular expressions words of any letters, in the code that reads sheets.

// notWords are letters that are signs of sizes, or the form of a letter itself, in no language more than in others.
var notWords = map[rune]string{
	'Ø': "a diameter", 'ø': "a diameter", 'φ': "a diameter", 'Φ': "a diameter", 'ϕ': "a diameter", 'Ф': "a diameter, typed", 'ф': "a diameter, typed",
	'µ': "a millionth", 'μ': "a millionth", 'º': "a degree, typed", 'ª': "raised",
	'ß': "two letters", 'æ': "two letters", 'œ': "two letters", 'ı': "an i", 'ł': "an l", 'đ': "a d",
	'ー': "makes the kana before it long", '々': "repeats the character before it", '土': "a ± from a scan",
}

// notWordsIn are files whose letters are those of a format and of writing.
var notWordsIn = map[string]string{
	"sheet/numfmt/builtin.go": "number formats of the standard, ECMA-376-1, 18.8.30",
	"sheet/numfmt/parse.go":   "codes within them",
	"sheet/text/plausible.go": "which letters tell encodings apart",
}

// inExpressions are runs of letters in regular expressions that are symbols of units and standards, and what markup is written in.
var inExpressions = []string{"mm", "cm", "in", "ISO", "DIN", "EN", "HKL", "fmcv", "meta", "charset"}

func TestNoWordsInCode(t *testing.T) {
	for _, folder := range []string{"catalog", "sheet"} {
		err := filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(node ast.Node) bool {
				switch node := node.(type) {
				case *ast.BasicLit:
					if word := lettersIn(node); word != "" && notWordsIn[filepath.ToSlash(path)] == "" {
						t.Errorf("%s has %q: words belong into the language files", set.Position(node.Pos()), word)
					}
				case *ast.CallExpr:
					if isExpression(node) {
						for _, word := range wordsIn(node) {
							t.Errorf("%s has the word %q in an expression: words belong into the language files", set.Position(node.Pos()), word)
						}
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// lettersIn returns the letters of a literal that are beyond ASCII and no signs.
func lettersIn(literal *ast.BasicLit) string {
	if literal.Kind != token.STRING && literal.Kind != token.CHAR {
		return ""
	}
	return strings.Map(func(r rune) rune {
		if r <= unicode.MaxASCII || !unicode.IsLetter(r) || notWords[r] != "" {
			return -1
		}
		return r
	}, literal.Value)
}

// isExpression reports whether a call makes a regular expression.
func isExpression(call *ast.CallExpr) bool {
	selector, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	from, ok := selector.X.(*ast.Ident)
	return ok && (from.Name == "pattern" && selector.Sel.Name == "Lazy" || from.Name == "regexp" && strings.HasPrefix(selector.Sel.Name, "MustCompile"))
}

var (
	// escaped is what letters in an expression are that stand for others: classes, properties, flags, ranges.
	escaped = regexp.MustCompile(`\\[pP]\{[^}]*\}|\\x\{[^}]*\}|\\[pP]?[A-Za-z]|\(\?[a-z]+[):]|[A-Za-z]-[A-Za-z]`)
	letters = regexp.MustCompile(`[A-Za-z]{2,}`)
)

// wordsIn returns the words in the expression of a call; what a function returns is not looked at.
func wordsIn(call *ast.CallExpr) []string {
	var words []string
	for _, arg := range call.Args {
		ast.Inspect(arg, func(node ast.Node) bool {
			if _, inner := node.(*ast.CallExpr); inner {
				return false
			}
			if literal, ok := node.(*ast.BasicLit); ok && literal.Kind == token.STRING {
				text, err := strconv.Unquote(literal.Value)
				if err != nil {
					return true
				}
				for _, word := range letters.FindAllString(escaped.ReplaceAllString(text, " "), -1) {
					if !slices.Contains(inExpressions, word) && strings.Trim(strings.ToLower(word), strings.ToLower(word[:1])) != "" { // xX is a sign
						words = append(words, word)
					}
				}
			}
			return true
		})
	}
	return words
}
