package records_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/records"
)

func TestIn(t *testing.T) {
	for _, test := range []struct {
		name, text string
		want       records.Found
	}{
		{"a list of JSON", `[{"no": "A-1", "od": 13.60, "sold out": true}, {"no": "A-2", "note": null, "od": "13,5"}]`, records.Found{How: "JSON", Tables: []records.Table{
			{Rows: [][]string{{"no", "od", "sold out", "note"}, {"A-1", "13.60", "yes"}, {"A-2", "13,5"}}}}}},
		{"a list in an object, with what is for all", `{"unit": "mm", "parts": {"ferrules": [{"no": "A-1", "size": {"base": 13.5, "top": 10}}]}}`, records.Found{How: "JSON", Tables: []records.Table{
			{Name: "ferrules", Rows: [][]string{{"unit: mm"}, {"parts"}, {"ferrules"}, {"no", "size base", "size top"}, {"A-1", "13.5", "10"}}}}}},
		{"two lists", `{"heads": [{"no": "H", "od": 13}], "ferrules": [{"no": "F", "od": 14}]}`, records.Found{How: "JSON", Tables: []records.Table{
			{Name: "heads", Rows: [][]string{{"heads"}, {"no", "od"}, {"H", "13"}}}, {Name: "ferrules", Rows: [][]string{{"ferrules"}, {"no", "od"}, {"F", "14"}}}}}},
		{"records by their numbers", `{"A-1": {"od": 13.6, "l": 12}, "A-2": {"od": 13.5, "l": 20}}`, records.Found{How: "JSON", Tables: []records.Table{
			{Rows: [][]string{{"Item no.", "od", "l"}, {"A-1", "13.6", "12"}, {"A-2", "13.5", "20"}}}}}},
		{"lists within a record", `[{"no": "A", "tips": [".335", ".350"], "prices": [{"from": 1, "each": 2}, {"from": 10, "each": 1}]}]`, records.Found{How: "JSON", Tables: []records.Table{
			{Rows: [][]string{{"no", "tips", "prices 1 from", "prices 1 each", "prices 2 from", "prices 2 each"}, {"A", ".335 / .350", "1", "2", "10", "1"}}}}}},
		{"objects one after another", "{\"no\": 1, \"od\": 2}\n{\"no\": 3, \"od\": 4}\n", records.Found{How: "JSON", Tables: []records.Table{
			{Rows: [][]string{{"no", "od"}, {"1", "2"}, {"3", "4"}}}}}},
		{"XML with attributes", `<?xml version="1.0" encoding="windows-1252"?><list unit="mm"><!-- of May --><part no="A &amp; 1"><hosel od="13,5"/>new<l>12</l></part> <part no="B"><l>13</l></part></list>`,
			records.Found{How: "XML", Tables: []records.Table{{Name: "part", Rows: [][]string{{"list"}, {"unit: mm"}, {"part", "no", "hosel od", "l"}, {"new", "A & 1", "13,5", "12"}, {"", "B", "", "13"}}}}}},
		{"objects in lines of a text", "Stock, in mm\n\n{\"no\":\"A\",\"od\":13.5,\"l\":12},\n{\"no\":\"B\",\"l\":14,\"od\":13}\nend", records.Found{How: "lines of names with values", Tables: []records.Table{
			{Rows: [][]string{{"Stock, in mm"}, nil, {"no", "od", "l"}, {"A", "13.5", "12"}, {"B", "13", "14"}, {"end"}}}}}},
		{"a record in each line", "# mm\nhead=A od=13.5 name=\"big iron\"\nhead=B name=small od=13\n", records.Found{How: "lines of names with values", Tables: []records.Table{
			{Rows: [][]string{{"# mm"}, {"head", "od", "name"}, {"A", "13.5", "big iron"}, {"B", "13", "small"}}}}}},
		{"a value in each line", "* DUMP OF=ALL\n\nNO=A-1\nOD = 13.6\n\nNO=A-2\nOD=13.5=\n", records.Found{How: "lines of a name with its value", OfLines: true, Tables: []records.Table{
			{Rows: [][]string{{"* DUMP OF=ALL"}, nil, {"NO", "A-1"}, {"OD", "13.6"}, nil, {"NO", "A-2"}, {"OD", "13.5="}}}}}},
		{"sections, one of them for all", "; list\n[all]\nunit = mm\n[A-1]\nod=13.6\nl=\"12\"\n[A-2]\nod=13.5\nl=13\n", records.Found{How: "lines of a name with its value", OfLines: true, Tables: []records.Table{
			{Rows: [][]string{{"; list"}, {"all"}, {"unit: mm"}, {"Item no.", "A-1"}, {"od", "13.6"}, {"l", "12"}, {"Item no.", "A-2"}, {"od", "13.5"}, {"l", "13"}}}}}},
	} {
		got, ok, err := records.In("list.txt", test.text, sheet.Limits{})
		if err != nil || !ok {
			t.Errorf("%s: %v, %v", test.name, ok, err)
			continue
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s: %s", test.name, diff)
		}
	}
}

// TestNone gives texts that hold no records.
func TestNone(t *testing.T) {
	for _, text := range []string{
		"", "a,b\n1,2\n", "[Our list]\nA-1,13.6\n", "{not json", "<b>new</b> list\nA-1 13.6", "<a></b>", "[1, 2, 3]", `{"no": "A-1"}`, "<list><part/></list>",
		"Part,Price\nA-1,=B1*2\nA-2,=B2*2\nA-3,=B3*2\nA-4,=B4*2\n",    // formulas as text
		"Colours: B = black, W = white\nL = long\nNo,Colour\nA-1,B\n", // a legend
		"a=1\nb=2\nc=3\nd=4\n", // one record: what its names are nothing says
	} {
		if got, ok, err := records.In("list.txt", text, sheet.Limits{}); ok || err != nil {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
}

// TestLimits gives more values than may be read.
func TestLimits(t *testing.T) {
	var many strings.Builder
	for i := range 50 {
		fmt.Fprintf(&many, `{"no": %d, "od": 13}`, i)
	}
	for _, text := range []string{many.String(), strings.Repeat("[", 100) + strings.Repeat("]", 100), "<list>" + strings.Repeat("<part no='1'><od>1</od></part>", 50) + "</list>"} {
		_, _, err := records.In("list.json", text, sheet.Limits{Cells: 60})
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Next == "" {
			t.Errorf("%.30q: %v", text, err)
		}
	}
}

// FuzzIn looks for texts that break the reader, and for rows that no line accounts for.
func FuzzIn(f *testing.F) {
	for _, seed := range []string{`[{"no": "A-1", "od": 13.6}]`, `{"a": {"b": [1, {"c": null}]}, "d": {"b": 2}}`, "<list><part no='1'><od>1</od></part><part no='2'/></list>",
		"a=1\nb=2\na=3\nb=4\n", "[x]\na=1\n[y]\na=2\nb=\"3\"\n", "h=1 i=2 j=3\nh=4 i=5 j='6'\n", "{\"a\":1,\"b\":2,\"c\":3}\ntext\n{\"a\":1,\"b\":2,\"c\":3}"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		found, ok, err := records.In("list.txt", text, sheet.Limits{Cells: 1000, Columns: 50})
		if ok && (err != nil || len(found.Tables) == 0) {
			t.Errorf("%d tables, %v", len(found.Tables), err)
		}
		if lines := strings.Count(text, "\n") + strings.Count(text, "\r") + 1; ok && found.OfLines && len(found.Tables[0].Rows) > lines {
			t.Errorf("%d rows of %d lines", len(found.Tables[0].Rows), lines)
		}
	})
}
