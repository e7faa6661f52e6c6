package catalog

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// bestTotal tries every assignment.
func bestTotal(points [][]float64, least float64, used map[int]bool, row int) float64 {
	if row == len(points) {
		return 0
	}
	best := bestTotal(points, least, used, row+1)
	for j, p := range points[row] {
		if used[j] || p < least {
			continue
		}
		used[j] = true
		best = max(best, p+bestTotal(points, least, used, row+1))
		delete(used, j)
	}
	return best
}

func TestAssignIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(0, 5).Draw(t, "rows"), rapid.IntRange(1, 5).Draw(t, "columns")
		var points [][]float64
		for range n {
			points = append(points, rapid.SliceOfN(rapid.Float64Range(-20, 20), m, m).Draw(t, "points"))
		}
		ways := [][]int{assign(points, 2.5)}
		if n > 0 {
			ways = append(ways, turnedAssign(points, 2.5))
		}
		for _, chosen := range ways {
			used := map[int]bool{}
			for i, j := range chosen {
				if j < 0 {
					continue
				}
				if used[j] || points[i][j] < 2.5 {
					t.Fatalf("assignment %v of %v", chosen, points)
				}
				used[j] = true
			}
			if got, want := total(points, chosen), bestTotal(points, 2.5, map[int]bool{}, 0); math.Abs(got-want) > 1e-9 {
				t.Fatalf("total %v, best %v: %v of %v", got, want, chosen, points)
			}
		}
	})
}

func TestCleanText(t *testing.T) {
	for text, want := range map[string]string{
		"plain":                     "plain",
		" two  spaces ":             "two spaces",
		"13.6\u00a0mm":              "13.6 mm",
		"KR\u200b-20\ufeff":         "KR-20",
		"Hosel\r\nOD":               "Hosel OD",
		"\u3000全角\u3000":            "全角",
		"soft\u00adhyphen\u0007":    "softhyphen",
		"\u202bright to left\u202c": "right to left",
	} {
		if got := cleanText(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestNumberText(t *testing.T) {
	for raw, want := range map[string]string{
		"0.33500000000000002": "0.335",
		"13.6":                "13.6",
		"1.2E+05":             "120000",
		"9.3469999999999995":  "9.347",
		"1234567890123":       "1234567890123",
	} {
		if got := numberText(raw); got != want {
			t.Errorf("%s: %s, want %s", raw, got, want)
		}
	}
}

func TestFormatLiterals(t *testing.T) {
	lex := newLexicon()
	for format, want := range map[string]string{
		`0.000"in"`:        "in",
		`0.0" mm"`:         "mm",
		`0.00\ "mm";-0.00`: "mm",
		`#,##0.00`:         "",
		`[Red]0.0`:         "",
		`0.000\"`:          "in",
		"General":          "",
	} {
		if got := lex.formatUnit(format); got != want {
			t.Errorf("%s: %q, want %q", format, got, want)
		}
	}
}

func TestSplitTimes(t *testing.T) {
	for text, want := range map[string][]string{
		"9.35 x 13.7 x 19":  {"9.35", "13.7", "19"},
		"9.35×13.7×19mm":    {"9.35", "13.7", "19mm"},
		`.368"x.540"x3/4"`:  {`.368"`, `.540"`, `3/4"`},
		"9.35*13.7":         {"9.35", "13.7"},
		"hex":               nil,
		"9.35 x":            {"9.35 x"},
		"9.35 x black x 19": nil,
	} {
		if diff := cmp.Diff(want, splitTimes(text, false)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
	}
}

func TestLooks(t *testing.T) {
	for text, want := range map[string][2]bool{ // numeric, code
		"13.6":     {true, true},
		".535\"":   {true, false},
		"Ø13.6":    {true, true},
		"½\"":      {true, false},
		"KR-20":    {false, true},
		"Hosel OD": {false, false},
		"R6.8":     {true, true},
		"1/2 in":   {true, true},
		"":         {false, false},
	} {
		if got := [2]bool{looksNumeric(text), looksLikeCode(text)}; got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
