package licence

import (
	"strings"
	"testing"
)

func TestWrite(t *testing.T) {
	var b strings.Builder
	if err := Write(&b); err != nil {
		t.Fatal(err)
	}
	// The clauses of a BSD licence and of the Apache licence that ask for the text itself, and the one of the fonts.
	for _, want := range []string{
		"  golang.org/x/text\n", "  The Go standard library and runtime\n",
		"Redistributions in binary form must reproduce the above\ncopyright notice",
		"You must give any other recipients of the Work or", "SIL OPEN FONT LICENSE\n\nVersion 1.1", "Baekmuk Gulim",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing", want)
		}
	}
}

func TestFileOf(t *testing.T) {
	for _, module := range []string{"golang.org/x/text", "codeberg.org/go-pdf/fpdf", "The Go standard library and runtime"} {
		if got := ModuleOf(FileOf(module)); got != module || strings.Contains(FileOf(module), "/") {
			t.Errorf("%q is %q in %q", module, got, FileOf(module))
		}
	}
}
