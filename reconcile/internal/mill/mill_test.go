package mill_test

import (
	"bufio"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/mill"
	"example.com/seatline/reconcile/sheet"
)

const knownFaults = "../../../testdata/mill/known-faults/sheets"

// known are the sheets that are read wrong without a word, by seed, each with the fixture that shows why.
func known(t *testing.T) map[uint64]string {
	t.Helper()
	file, err := os.Open(knownFaults)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	seeds := map[uint64]string{}
	for lines := bufio.NewScanner(file); lines.Scan(); {
		number, fixture, _ := strings.Cut(lines.Text(), " ")
		seed, err := strconv.ParseUint(number, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		seeds[seed] = fixture
	}
	return seeds
}

// TestLaws holds that no size is read wrong without a word, no row is lost and nothing panics, on the first 300 sheets.
func TestLaws(t *testing.T) {
	faults := known(t)
	var score mill.Score
	for seed := uint64(1); seed <= 300; seed++ {
		report := mill.Read(mill.Make(seed))
		score.Add(report)
		silent := false
		for _, j := range report.Judged {
			if j.Outcome != mill.Silent && j.Outcome != mill.Missed {
				continue
			}
			silent = true
			if faults[seed] == "" {
				t.Errorf("seed %d: %s %s is %s, read as %s, and nothing is said", seed, j.Part, j.Role, j.Want, j.Got)
			}
		}
		if faults[seed] != "" && !silent {
			t.Errorf("seed %d is read right now: take it off the known faults (%s)", seed, faults[seed])
		}
		for _, law := range report.Broken {
			t.Errorf("seed %d: %s", seed, law)
		}
	}
	if right := score.Count(mill.Right); right < 6000 {
		t.Errorf("%d sizes are read right, want 6000 at least: the sheets or the judge are not what they were", right)
	}
}

// TestConfidence holds that of the values read with a confidence over .99 at least 999 in 1,000 are those that were meant, on sheets of
// which nothing was ever looked at, and that most values have such a confidence: one that is never sure would tell nothing.
func TestConfidence(t *testing.T) {
	var score mill.Score
	for seed := uint64(700_001); seed <= 700_400; seed++ {
		score.Add(mill.Read(mill.Make(seed)))
	}
	_, values := score.Over(len(mill.Sure) - 1)
	for i, least := range mill.Sure {
		right, all := score.Over(i)
		if least == .99 && (all*2 < values || right*1000 < all*999) {
			t.Errorf("%d of %d values were read with a confidence over .99, and %d of them are right", all, values, right)
		}
		if float64(right) < least*float64(all) {
			t.Errorf("%d of %d values with a confidence over %g are right", right, all, least)
		}
	}
}

// TestSeedsGiveTheSameSheets holds that a seed can be looked at again, and that sheets differ.
func TestSeedsGiveTheSameSheets(t *testing.T) {
	texts := map[string]bool{}
	for seed := uint64(1); seed <= 200; seed++ {
		a, b := mill.Make(seed), mill.Make(seed)
		if diff := cmp.Diff(a.Text, b.Text); diff != "" {
			t.Errorf("seed %d: %s", seed, diff)
		}
		if diff := cmp.Diff(a.Habits, b.Habits); diff != "" {
			t.Errorf("seed %d: %s", seed, diff)
		}
		texts[a.Text] = true
	}
	if len(texts) != 200 {
		t.Errorf("%d different sheets of 200", len(texts))
	}
}

// TestTruthStandsInTheSheet holds the truth to the text: without a fault each size can be found in its cell.
func TestTruthStandsInTheSheet(t *testing.T) {
	seen := 0
	for seed := uint64(1); seed <= 300; seed++ {
		s := mill.Make(seed)
		if s.Habits["file"] != "csv" || s.Habits["number"] != "plain" || s.Habits["fault"] != "none" || s.Habits["layout"] == "ditto" {
			continue
		}
		for _, p := range s.Parts {
			if !strings.Contains(s.Text, p.Number) {
				t.Errorf("seed %d: part %s is not in the text", seed, p.Number)
			}
			for role, size := range p.Sizes {
				millimetres, exact := size.Length.FormatMillimetres(3)
				inches, _ := size.Length.FormatInches(4)
				seen++
				if !strings.Contains(s.Text, short(inches)) && !(exact && strings.Contains(s.Text, short(millimetres))) {
					t.Errorf("seed %d: %s of %s, %s or %s, is not in the text", seed, role, p.Number, inches, millimetres)
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("only %d sizes looked at", seen)
	}
}

func short(digits string) string { return strings.TrimRight(strings.TrimRight(digits, "0"), ".") }

// TestJudge spoils readings on purpose: the judge has to see each, or its scores would mean nothing.
func TestJudge(t *testing.T) {
	s := plainSheet(t)
	at := s.Parts[0]
	read := func(od measure.Dim, part string, ledger catalog.Ledger) *mill.Report {
		cat := &catalog.Catalogue{Tables: []catalog.Table{{Kind: catalog.Heads, Ledger: ledger}}}
		h := catalog.Head{Item: catalog.Item{Part: part, Source: catalog.Source{Row: at.Row}}}
		*h.Size(catalog.HoselOD) = od
		cat.Heads = append(cat.Heads, h)
		r := &mill.Report{Sheet: s}
		mill.Judge(r, cat)
		return r
	}
	own := measure.Nominal(at.Sizes[catalog.HoselOD].Length)
	other := measure.Nominal(own.Nominal().Add(measure.Thou(1)))
	for _, c := range []struct {
		name string
		got  *mill.Report
		want mill.Outcome
		law  bool
	}{
		{"as it was meant", read(own, at.Number, catalog.Ledger{}), mill.Right, false},
		{"a thousandth off", read(other, at.Number, catalog.Ledger{}), mill.Silent, false},
		{"not read", read(measure.Dim{}, at.Number, catalog.Ledger{}), mill.Unsaid, false},
		{"another part", read(own, "total", catalog.Ledger{}), mill.Unsaid, false},
		{"a row in no column of the ledger", read(own, at.Number, catalog.Ledger{Rows: 1}), mill.Right, true},
	} {
		for _, j := range c.got.Judged {
			if j.Part == at.Number && j.Role == catalog.HoselOD && j.Outcome != c.want {
				t.Errorf("%s: %v, want %v", c.name, j.Outcome, c.want)
			}
		}
		balanced := !strings.Contains(strings.Join(c.got.Broken, "\n"), "are not")
		if balanced == c.law {
			t.Errorf("%s: laws broken: %q", c.name, c.got.Broken)
		}
	}
	phantom := read(own, "total", catalog.Ledger{})
	if last := phantom.Judged[len(phantom.Judged)-1]; last.Part != "total" || last.Outcome != mill.Silent {
		t.Errorf("a part made of what is none is judged %v", last)
	}
}

// TestJudgeOfFaults plants a fault in a size that is read as it stands: it is caught where something makes a person look at that value, and
// by nothing else.
func TestJudgeOfFaults(t *testing.T) {
	s := *plainSheet(t)
	s.Parts = slices.Clone(s.Parts[:1])
	p := &s.Parts[0]
	meant := p.Sizes[catalog.HoselOD]
	meant.Fault = true
	p.Sizes = map[catalog.Role]mill.Size{catalog.HoselOD: meant}
	cell, heading := meant.Cells[0], meant.Cells[1]
	beside := sheet.Ref{Row: cell.Row, Col: cell.Col + 1}
	at := func(severity finding.Severity, code string, ref sheet.Ref) finding.List {
		return finding.List{{Severity: severity, Code: code, Place: finding.Place{Row: ref.Row, Cell: ref.String()}}}
	}
	slip := measure.Nominal(meant.Length.MulInt(10))
	for _, c := range []struct {
		name     string
		fault    string
		got      measure.Dim
		findings finding.List
		assumed  []string
		want     mill.Outcome
	}{
		{"nothing said", "decimal slipped", slip, nil, nil, mill.Missed},
		{"a note upon the cell", "decimal slipped", slip, at(finding.Note, "data.leniency", cell), nil, mill.Missed},
		{"a warning upon the cell", "decimal slipped", slip, at(finding.Warning, "data.implausible", cell), nil, mill.Caught},
		{"a warning upon another cell", "decimal slipped", slip, at(finding.Warning, "data.implausible", beside), nil, mill.Missed},
		{"a warning upon the heading", "two headings exchanged", slip, at(finding.Error, "layout.exchanged", heading), nil, mill.Caught},
		{"the unit of the column", "two headings exchanged", slip, at(finding.Warning, "data.unit", heading), []string{"the unit is assumed"}, mill.Missed},
		{"the unit of the cell", "decimal slipped", slip, at(finding.Warning, "data.unit", cell), nil, mill.Caught},
		{"an assumption of the unit", "other unit in a cell", slip, nil, []string{"the unit is assumed"}, mill.Caught},
		{"left open", "decimal slipped", measure.Dim{}, at(finding.Error, "data.implausible", cell), nil, mill.Caught},
		{"read as it was meant", "letter for a digit", measure.Nominal(meant.Length), nil, nil, mill.Caught},
	} {
		t.Run(c.name, func(t *testing.T) {
			s.Habits = map[string]string{"fault": c.fault}
			h := catalog.Head{Item: catalog.Item{Part: p.Number, Source: catalog.Source{Row: p.Row}}}
			h.Fields = h.Fields.With(catalog.HoselOD, catalog.Field{Cell: cell.String(), Dim: c.got, Assumptions: c.assumed})
			*h.Size(catalog.HoselOD) = c.got
			r := &mill.Report{Sheet: &s}
			mill.Judge(r, &catalog.Catalogue{Heads: []catalog.Head{h}, Findings: c.findings})
			for _, j := range r.Judged {
				if j.Role == catalog.HoselOD && j.Outcome != c.want {
					t.Errorf("%v, want %v", j.Outcome, c.want)
				}
			}
		})
	}
}

// plainSheet is the first plain list of heads without a fault.
func plainSheet(t *testing.T) *mill.Sheet {
	t.Helper()
	for seed := uint64(1); seed < 10_000; seed++ {
		s := mill.Make(seed)
		if s.Kind == catalog.Heads && s.Habits["layout"] == "plain" && s.Habits["fault"] == "none" && s.Habits["number"] == "plain" && s.Habits["unit"] == "heading" {
			return s
		}
	}
	t.Fatal("no plain list")
	return nil
}
