package fitcalc

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

// Every number of a code has a name and a meaning of its own, and names are written as keys are.
func TestNumbersAreNamed(t *testing.T) {
	key := regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`)
	for code := range Codes() {
		seen := map[string]bool{}
		for n := range code.Numbers() {
			if !key.MatchString(n.Name) || n.Means == "" || seen[n.Name] || seen["key "+n.Key] {
				t.Errorf("%v: %+v", code, n)
			}
			seen[n.Name], seen["key "+n.Key] = true, true
			if lengthKey := slices.Contains([]string{"size", "other", "third", "limit"}, n.Key); lengthKey != n.Kind.IsLength() {
				t.Errorf("%v: %s is %v and stands under %s", code, n.Name, n.Kind, n.Key)
			}
		}
	}
}

// A reason holds no number that its code does not name.
func TestEveryNumberOfAReasonHasAName(t *testing.T) {
	for _, c := range codeCases {
		p := soundParts(t)
		c.with(p)
		fit := p.evaluate()
		for r := range fit.Reasons() {
			bare := r
			for n := range r.Numbers() {
				bare.forget(n.slot)
			}
			if want := (Reason{Code: r.Code, Level: r.Level, Field: r.Field, Measured: r.Measured}); bare != want {
				t.Errorf("%v, %s: %+v is not named", r.Code, c.name, bare)
			}
		}
	}
}

func (r *Reason) forget(s slot) {
	switch s {
	case inSize:
		r.Size = measure.Length{}
	case inOther:
		r.Other = measure.Length{}
	case inThird:
		r.Third = measure.Length{}
	case inLimit:
		r.Limit = measure.Length{}
	case inShare:
		r.Share = 0
	case inValue:
		r.Value = 0
	case inBound:
		r.Bound = 0
	}
}

// What blocks a joint misses its limit, and says by how much; a joint that only some miss does not miss it as a whole.
func TestMissOfWhatBlocks(t *testing.T) {
	none := []Code{SeatRounded, DataMissing, FlushAsSupplied, FlushTurn, GripHolds}
	for _, c := range codeCases {
		p := soundParts(t)
		c.with(p)
		fit := p.evaluate()
		for r := range fit.Reasons() {
			miss, has := r.Miss()
			if has == slices.Contains(none, r.Code) {
				t.Errorf("%v, %s: a miss of %v, %v", r.Code, c.name, miss, has)
			}
			if r.Level == Blocks && has && miss.Sign() <= 0 {
				t.Errorf("%v, %s: blocks, and keeps its limit by %v", r.Code, c.name, miss.Neg())
			}
		}
	}
}

// Worked by hand: by how much the joints of a builder's first cases miss.
func TestMiss(t *testing.T) {
	mm := func(text string) measure.Length { return long(t, text) }
	for _, tt := range []struct {
		reason Reason
		want   string
	}{
		{Reason{Code: FlushUndersize, Size: mm("-.2 mm"), Limit: mm(".05 mm")}, ".15 mm"}, // .2 under, of which .05 pass
		{Reason{Code: FlushTurnLimit, Size: mm(".9 mm"), Limit: mm(".6 mm")}, ".3 mm"},
		{Reason{Code: GripLoose, Size: mm("-.04 mm")}, ".04 mm"},
		{Reason{Code: GripSplit, Size: mm(".36 mm"), Value: .04, Bound: .02}, ".18 mm"}, // a bore of 9 mm, of which 2 % are .18
		{Reason{Code: WallThin, Size: mm(".3 mm"), Limit: mm(".5 mm")}, ".4 mm"},        // per side, so twice on the diameter
		{Reason{Code: SeatStepWide, Size: mm("10.5 mm"), Other: mm("10.4 mm")}, ".1 mm"},
		{Reason{Code: SeatStepLong, Size: mm("5 mm"), Other: mm("4 mm")}, "1 mm"},
		{Reason{Code: SeatRecessOpen, Size: mm("3 mm"), Limit: mm("2 mm")}, "1 mm"},
		{Reason{Code: BoreTight, Size: mm("-.1 mm"), Limit: mm(".02 mm")}, ".12 mm"},
		{Reason{Code: BoreShallow, Size: mm("10 mm"), Limit: mm("19 mm")}, "9 mm"},
	} {
		if got, has := tt.reason.Miss(); !has || got.Sub(mm(tt.want)).Abs().Compare(measure.Micrometres(1)) > 0 {
			t.Errorf("%v misses by %v, %v; want %s", tt.reason.Code, got, has, tt.want)
		}
	}
}

// A dimension that a reason does not name changes nothing of it.
func TestReasonsDependOnTheirFields(t *testing.T) {
	for _, c := range codeCases {
		p := soundParts(t)
		c.with(p)
		fit := p.evaluate()
		r, _ := reasonOf(&fit, c.code)
		fields := slices.Collect(r.Fields())
		for _, k := range knobs {
			for _, shift := range []measure.Length{measure.Micrometres(20), measure.Micrometres(-20)} {
				moved := probe{head: p.head, tip: p.tip, ferrule: p.ferrule, shop: p.shop}
				dim := k.dim(&moved)
				if !dim.Given() || slices.Contains(fields, k.field) {
					continue
				}
				*dim = dim.Shift(shift)
				after := moved.evaluate()
				if now, _ := reasonOf(after, c.code); now != r {
					t.Errorf("%v, %s, does not depend on the %v, and was\n%+v, is\n%+v", c.code, c.name, k.field, r, now)
				}
			}
		}
	}
}

// TestReasonsAreWrittenDown holds REASONS.md to the list of codes.
func TestReasonsAreWrittenDown(t *testing.T) {
	var b strings.Builder
	b.WriteString("# Reasons\n\nWhat the codes of reasons name, written by a test from the list in `code.go`; `go test ./fitcalc -run Reasons -update` writes it\n" +
		"anew. A reason yields its numbers by these names; lines of data have them under their keys, lengths with `_mm` at the end, and leave\n" +
		"out what is nothing. A reason of `data.missing` has the dimension that is missing.\n")
	for code := range Codes() {
		fmt.Fprintf(&b, "\n## `%v`\n\n", code)
		if len(code.row().numbers) > 0 {
			b.WriteString("| number | key | | |\n|---|---|---|---|\n")
		}
		for n := range code.Numbers() {
			fmt.Fprintf(&b, "| `%s` | `%s` | %v | %s |\n", n.Name, n.Key, n.Kind, n.Means)
		}
		var fields []string
		for f := range (Reason{Code: code}).Fields() {
			if f != NoField {
				fields = append(fields, "`"+f.Code()+"`")
			}
		}
		if len(fields) > 0 {
			fmt.Fprintf(&b, "\nDepends on %s.\n", strings.Join(fields, ", "))
		}
	}
	if *update {
		if err := os.WriteFile("REASONS.md", []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("REASONS.md")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
