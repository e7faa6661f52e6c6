package runs_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet/internal/runs"
)

// read makes runs of a text in which ^ begins what is raised, _ what is lowered, ~ what is struck out, and | ends each.
func read(text string) (string, string) {
	var t runs.Text
	for text != "" {
		look := runs.Look{}
		switch text[0] {
		case '^':
			look.Raised = true
		case '_':
			look.Lowered = true
		case '~':
			look.Struck = true
		}
		if look != (runs.Look{}) || text[0] == '|' {
			text = text[1:]
		}
		end := strings.IndexAny(text, "^_~|")
		if end < 0 {
			end = len(text)
		}
		t.Add(text[:end], look)
		text = text[end:]
	}
	return t.Result()
}

// What a person means by each, by how such sizes are set in print.
func TestResult(t *testing.T) {
	for written, want := range map[string][2]string{
		"13.9":                 {"13.9", ""},
		"13|.9":                {"13.9", ""},
		"13.9^1":               {"13.9¹", ""},
		"13.9^1)|":             {"13.9¹⁾", ""},
		"13.9^1,2| mm":         {"13.9¹,² mm", ""},
		"13.9^*|":              {"13.9*", ""},
		"25 mm^2|":             {"25 mm²", ""},
		"Ø d_1|":               {"Ø d₁", ""},
		"13.6^+0.05|_-0.1|":    {"13.6 +0.05/-0.1", ""},
		"13.6_-0.1|^0|":        {"13.6 -0.1/0", ""},
		"13.6 ^±0.05|":         {"13.6 ±0.05", ""},
		"3^1|/_2|\"":           {"3 1/2\"", ""},
		"^1|⁄_2|\"":            {"1⁄2\"", ""},
		"1^1/2|\"":             {"1 1/2\"", ""},
		"13.9^mm|":             {"13.9mm", ""},
		"~13.5| 13.9":          {"13.9", "13.5"},
		"13.9 ~13.5|":          {"13.9", "13.5"},
		"~13|~.5|":             {"", "13.5"},
		"1~3|3.9":              {"13.9", "3"},
		"13.9~1|^2|":           {"13.9²", "1"},
		" kept as it stands  ": {" kept as it stands  ", ""},
		"":                     {"", ""},
	} {
		text, struck := read(written)
		if text != want[0] || struck != want[1] {
			t.Errorf("%s: %q and struck out %q, want %q", written, text, struck, want)
		}
	}
}

// TestManyRuns has a million runs, which are to be joined in a time in proportion to them.
func TestManyRuns(t *testing.T) {
	var text runs.Text
	for i := range 1_000_000 {
		text.Add("1", runs.Look{Raised: i%2 == 1})
	}
	got, struck := text.Result()
	if want := strings.Repeat("1¹", 500_000); got != want || struck != "" {
		t.Errorf("%d bytes and %q, want %d bytes", len(got), struck, len(want))
	}
}

// FuzzResult holds that nothing of a text is lost: without blanks, and with small figures made large again, what is kept and what is struck out
// have the characters of the runs, and the strokes that part deviations.
func FuzzResult(f *testing.F) {
	for _, seed := range []string{"13.9^1", "13.6^+0.05|_-0.1|", "3^1|/_2|\"", "~13.5| 13.9", "^~_|", "a^-|_+1|^2)|"} {
		f.Add(seed)
	}
	large := strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁽", "(", "⁾", ")",
		"₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4", "₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9", "/", "")
	sorted := func(text string) string {
		all := []rune(strings.Join(strings.Fields(large.Replace(text)), ""))
		slices.Sort(all)
		return string(all)
	}
	f.Fuzz(func(t *testing.T, written string) {
		if !utf8.ValidString(written) {
			return
		}
		text, struck := read(written)
		plain := strings.NewReplacer("^", "", "_", "", "~", "", "|", "").Replace(written)
		if got, want := sorted(text+struck), sorted(plain); got != want {
			t.Errorf("%q: %q and %q struck out", written, text, struck)
		}
	})
}
