package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/internal/schematest"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func written(t *testing.T, write func(io.Writer) error) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// writers are all writers of the package on one result.
func writers(r *matrix.Result) map[string]func(io.Writer) error {
	return map[string]func(io.Writer) error{
		"fits.jsonl":     func(w io.Writer) error { return WriteFitsJSONL(w, r, Options{}) },
		"fits.csv":       func(w io.Writer) error { return WriteFitsCSV(w, r, Options{Units: fitcalc.Imperial}) },
		"heads.jsonl":    func(w io.Writer) error { return WriteHeadsJSONL(w, r) },
		"ferrules.jsonl": func(w io.Writer) error { return WriteFerrulesJSONL(w, r) },
		"findings.csv":   func(w io.Writer) error { return WriteFindingsCSV(w, tell.Findings(r)) },
		"summary.json":   func(w io.Writer) error { return WriteSummaryJSON(w, r, nil) },
	}
}

// A ferrule that is known by its tip has that tip in its line, no bore of its own, and the assumption.
func TestFerruleByTip(t *testing.T) {
	r := telltest.ByTip(t, telltest.Small(t))
	text := written(t, func(w io.Writer) error { return WriteFerrulesJSONL(w, r) })
	seen := map[string]bool{}
	for line := range bytes.Lines(text) {
		var got struct {
			Ferrule     string   `json:"ferrule"`
			Fits        int      `json:"fits"`
			Bore        *float64 `json:"bore_mm"`
			ForTip      *string  `json:"for_tip"`
			Assumptions []string `json:"assumptions"`
		}
		if err := json.Unmarshal(line, &got); err != nil {
			t.Fatal(err)
		}
		tip, byTip := map[string]string{"BT-370": ".370 parallel", "BT-355": ".355 taper", "BT-395": ".395 parallel"}[got.Ferrule]
		assumed := slices.Contains(got.Assumptions, fitcalc.AssumedBoreOfTip.Code())
		if byTip != (got.ForTip != nil) || byTip != assumed && got.Fits > 0 || byTip && (*got.ForTip != tip || got.Bore != nil) {
			t.Fatalf("%s", line)
		}
		seen[got.Ferrule] = true
	}
	if !seen["BT-370"] || !seen["BT-355"] {
		t.Errorf("no lines of them among %v", seen)
	}
}

func TestGolden(t *testing.T) {
	r := telltest.Small(t)
	for name, write := range writers(r) {
		golden.Check(t, name, written(t, write))
	}
	golden.Check(t, "fits-mm.csv", written(t, func(w io.Writer) error { return WriteFitsCSV(w, r, Options{Sentences: true}) }))
	golden.Check(t, "fits-sentences.jsonl", written(t, func(w io.Writer) error { return WriteFitsJSONL(w, r, Options{Sentences: true}) }))
	golden.Check(t, "summary-measured.json", written(t, func(w io.Writer) error { return WriteSummaryJSON(w, telltest.Measured(t), nil) }))
}

// Each listed pair says which of its sizes come from readings.
func TestMeasured(t *testing.T) {
	r := telltest.Measured(t)
	want := map[string]string{"TF-610 HM-20": "hosel_od; base_od", "TF-610 VB-09": "hosel_od", "TF-900 HM-20": "base_od"}
	text := written(t, func(w io.Writer) error { return WriteFitsJSONL(w, r, Options{}) })
	checked, others := 0, 0
	for line := range bytes.Lines(text) {
		var pair struct {
			Head, Ferrule string
			Measured      []string
		}
		if err := json.Unmarshal(line, &pair); err != nil {
			t.Fatal(err)
		}
		expected, asked := want[pair.Head+" "+pair.Ferrule]
		if !asked {
			others++
			continue
		}
		checked++
		if got := strings.Join(pair.Measured, "; "); got != expected {
			t.Errorf("%s %s: %q, want %q", pair.Head, pair.Ferrule, got, expected)
		}
	}
	if checked == 0 || others == 0 {
		t.Errorf("%d pairs with measured sizes were looked at, and %d others", checked, others)
	}
}

func TestSameBytes(t *testing.T) {
	for _, make := range []func(testing.TB) *matrix.Result{telltest.Small, telltest.Awkward} {
		first := make(t)
		for name, write := range writers(first) {
			again := writers(make(t))[name]
			if !bytes.Equal(written(t, write), written(t, again)) {
				t.Errorf("%s: the same results gave other bytes", name)
			}
		}
	}
}

func lines(t *testing.T, r *matrix.Result) [][]byte {
	t.Helper()
	return linesOf(t, func(w io.Writer) error { return WriteFitsJSONL(w, r, Options{}) })
}

func linesOf(t *testing.T, write func(io.Writer) error) [][]byte {
	t.Helper()
	var all [][]byte
	for line := range bytes.Lines(written(t, write)) {
		all = append(all, bytes.TrimSuffix(line, []byte("\n")))
	}
	return all
}

func results(t *testing.T) map[string]*matrix.Result {
	return map[string]*matrix.Result{
		"small": telltest.Small(t), "all": telltest.SmallAll(t), "awkward": telltest.Awkward(t), "empty": telltest.Empty(),
		"large": telltest.Large(t, 40, 90), "set": telltest.Set(t),
		"measured": telltest.Measured(t), "only the best": telltest.OnlyBest(t),
	}
}

func TestSchemas(t *testing.T) {
	fit, summary := schematest.Compile(t, FitSchema()), schematest.Compile(t, SummarySchema())
	for name, r := range results(t) {
		for _, line := range lines(t, r) {
			if err := fit.Validate(schematest.Parse(t, line)); err != nil {
				t.Errorf("%s: %s\n%v", name, line, err)
			}
		}
		for _, parts := range []struct {
			schema []byte
			write  func(io.Writer, *matrix.Result) error
		}{{HeadSchema(), WriteHeadsJSONL}, {FerruleSchema(), WriteFerrulesJSONL}} {
			schema := schematest.Compile(t, parts.schema)
			for _, line := range linesOf(t, func(w io.Writer) error { return parts.write(w, r) }) {
				if err := schema.Validate(schematest.Parse(t, line)); err != nil {
					t.Errorf("%s: %s\n%v", name, line, err)
				}
			}
		}
		text := written(t, func(w io.Writer) error {
			return WriteSummaryJSON(w, r, []tell.Input{
				{Name: "heads.xlsx", Kind: "heads", Bytes: 12, SHA256: strings.Repeat("ab", 32)}, {Name: "shop.toml", Kind: "settings"},
				{Name: "readings.csv", Kind: "readings"},
			})
		})
		if err := summary.Validate(schematest.Parse(t, text)); err != nil {
			t.Errorf("%s: %s\n%v", name, text, err)
		}
	}
}

// TestSchemasRefuse shows that the schemas can fail.
func TestSchemasRefuse(t *testing.T) {
	fit, summary := schematest.Compile(t, FitSchema()), schematest.Compile(t, SummarySchema())
	r := telltest.Small(t)
	whole := schematest.Parse(t, lines(t, r)[0]).(map[string]any)
	for key, wrong := range map[string]any{
		"verdict": "perhaps", "turn_down_mm": map[string]any{"nominal": json.Number("1")}, "visible_undersize_probability": json.Number("1.5"),
		"reasons": []any{"flush.turn"}, "grip_length_mm": "12 mm", "head": nil, "ferrule": json.Number("3"), "pairs": json.Number("2"),
	} {
		changed := maps.Clone(whole)
		changed[key] = wrong
		if fit.Validate(changed) == nil {
			t.Errorf("%s = %v passed", key, wrong)
		}
	}
	for _, key := range []string{"head", "ferrule", "tip", "verdict", "reasons", "turn_down_mm", "oversize_mm"} {
		changed := maps.Clone(whole)
		delete(changed, key)
		if fit.Validate(changed) == nil {
			t.Errorf("a line without %s passed", key)
		}
	}
	text := written(t, func(w io.Writer) error { return WriteSummaryJSON(w, r, nil) })
	counts := schematest.Parse(t, text).(map[string]any)
	delete(counts["pairs"].(map[string]any), "out_of_range")
	if summary.Validate(counts) == nil {
		t.Error("a summary without pairs.out_of_range passed")
	}
}

// TestCell shows that parts side by side in one row are told apart by their cells, and that other parts say nothing of cells.
func TestCell(t *testing.T) {
	r := telltest.Small(t)
	r.Catalogue.Heads[2].Source = catalog.Source{File: "heads.xlsx", Sheet: "On its side", Row: 3, Cell: "D3"}
	for i, line := range linesOf(t, func(w io.Writer) error { return WriteHeadsJSONL(w, r) }) {
		var got struct{ Source map[string]any }
		if err := json.Unmarshal(line, &got); err != nil {
			t.Fatal(err)
		}
		if cell, given := got.Source["cell"]; given != (i == 2) || given && cell != "D3" {
			t.Errorf("line %d: cell %v, given %v", i+1, cell, given)
		}
	}
}

// TestLine holds lines against the fits they come from.
func TestLine(t *testing.T) {
	for name, r := range results(t) {
		all := lines(t, r)
		if len(all) < r.Listed {
			t.Fatalf("%s: %d lines for %d pairs", name, len(all), r.Listed)
		}
		open, at := 0, 0
		for head := range r.Catalogue.Heads {
			for _, p := range r.HeadPairs(head) {
				checkLine(t, r, p, all[at])
				at++
			}
			for ; at < len(all) && bytes.Contains(all[at], []byte(`"pairs":`)); at++ {
				open++
			}
		}
		if at != len(all) {
			t.Errorf("%s: %d lines, of which %d are of pairs or of what heads lack", name, len(all), at)
		}
		if r.All && open > 0 || name == "small" && open < 3 {
			t.Errorf("%s: %d lines of what is not listed", name, open)
		}
	}
}

func checkLine(t *testing.T, r *matrix.Result, p matrix.Pair, line []byte) {
	t.Helper()
	type triple struct{ Nominal, Least, Most *float64 }
	var got struct {
		Head, Ferrule, Verdict string
		Pairs                  *int
		TurnDownMM             *triple  `json:"turn_down_mm"`
		Oversize               *float64 `json:"oversize_mm"`
		Interference           *float64 `json:"interference_mm"`
		Minutes                *float64 `json:"minutes"`
		Undersize              *float64 `json:"visible_undersize_probability"`
		Reasons                []struct{ Code string }
	}
	if err := json.Unmarshal(line, &got); err != nil {
		t.Fatal(err)
	}
	fit := r.Fit(p)
	text := func(s string) string { return strings.ToValidUTF8(s, "\ufffd") }
	if got.Head != text(r.Catalogue.Heads[p.Head].Part) || got.Ferrule != text(r.Catalogue.Ferrules[p.Ferrule].Part) || got.Verdict != p.Verdict.String() || got.Pairs != nil {
		t.Errorf("%s is not the pair %+v", line, p)
	}
	if (got.TurnDownMM != nil) != fit.Flush.Known || (got.Interference != nil) != fit.Grip.Known || (got.Minutes != nil) != fit.Work.Known {
		t.Errorf("%s: left out and known are at odds", line)
	}
	if len(got.Reasons) == 0 || got.Reasons[0].Code != fit.Reason().Code.String() {
		t.Errorf("%s: the first reason should be %v", line, fit.Reason().Code)
	}
	if !fit.Flush.Known {
		return
	}
	near := func(name string, got *float64, want, tolerance float64) {
		if got == nil || *got-want > tolerance || want-*got > tolerance {
			t.Errorf("%s: %s, want %v", line, name, want)
		}
	}
	near("turn-down", got.TurnDownMM.Nominal, fit.Flush.TurnDown.Nominal.Millimetres(), 0.00005)
	near("most turn-down", got.TurnDownMM.Most, fit.Flush.TurnDown.Most.Millimetres(), 0.00005)
	near("oversize", got.Oversize, fit.Flush.Oversize.Nominal.Millimetres(), 0.00005)
	near("chance of undersize", got.Undersize, fit.Flush.VisibleUndersize, fit.Flush.VisibleUndersize*0.0051+1e-9)
	if fit.Grip.Known {
		near("interference", got.Interference, fit.Grip.Interference.Nominal.Millimetres(), 0.00005)
	}
}

// TestSideBySide: both files have the same bytes whether they are written together or alone, on one core or on several.
func TestSideBySide(t *testing.T) {
	for name, r := range results(t) {
		var jsonl, csv bytes.Buffer
		if err := WriteFits(&jsonl, &csv, r, Options{}); err != nil {
			t.Fatal(err)
		}
		for _, cores := range []int{1, 3} {
			before := runtime.GOMAXPROCS(cores)
			if alone := written(t, func(w io.Writer) error { return WriteFitsJSONL(w, r, Options{}) }); !bytes.Equal(jsonl.Bytes(), alone) {
				t.Errorf("%s: fits.jsonl is another on %d cores", name, cores)
			}
			if alone := written(t, func(w io.Writer) error { return WriteFitsCSV(w, r, Options{}) }); !bytes.Equal(csv.Bytes(), alone) {
				t.Errorf("%s: fits.csv is another on %d cores", name, cores)
			}
			runtime.GOMAXPROCS(before)
		}
	}
}

func read(t *testing.T, text []byte) [][]string {
	t.Helper()
	reader := csv.NewReader(bytes.NewReader(text))
	reader.FieldsPerRecord = 0 // all records as long as the header: RFC 4180, section 2, rule 4
	records, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return records
}

func TestCSV(t *testing.T) {
	for name, r := range results(t) {
		for file, write := range writers(r) {
			if !strings.HasSuffix(file, ".csv") {
				continue
			}
			text := written(t, write)
			want := len(lines(t, r))
			if file == "findings.csv" {
				want = len(tell.Findings(r))
			}
			records := read(t, text)
			if len(records) != want+1 {
				t.Errorf("%s of %s: %d records, want %d and a header", file, name, len(records), want)
			}
			if bytes.Count(text, []byte("\r\n")) < len(records) || !bytes.HasSuffix(text, []byte("\r\n")) {
				t.Errorf("%s of %s: a record does not end in CRLF (RFC 4180, section 2, rule 1)", file, name)
			}
			for _, record := range records {
				for i, field := range record {
					harmless(t, records[0][i], field)
				}
			}
		}
	}
}

// harmless fails for a field that a spreadsheet program takes for a formula (CWE-1236); a negative number is none.
func harmless(t *testing.T, column, field string) {
	t.Helper()
	trimmed := strings.TrimLeft(field, " \u00a0")
	if trimmed == "" || !strings.ContainsAny(trimmed[:1], "=+-@\t\r\n") && !strings.HasPrefix(trimmed, "＝") {
		return
	}
	if _, err := strconv.ParseFloat(field, 64); err != nil {
		t.Errorf("%s: %q is a formula", column, field)
	}
}

func TestNegativeNumbersStayNumbers(t *testing.T) {
	r := telltest.SmallAll(t)
	records := read(t, written(t, func(w io.Writer) error { return WriteFitsCSV(w, r, Options{}) }))
	at := slices.Index(records[0], "oversize_mm")
	negative := 0
	for i, p := range slices.Collect(r.Pairs()) {
		fit, record := r.Fit(p), records[i+1]
		if !fit.Flush.Known {
			if record[at] != "" {
				t.Errorf("unknown oversize is %q", record[at])
			}
			continue
		}
		want, _ := fit.Flush.Oversize.Nominal.FormatMillimetres(3)
		if got, err := strconv.ParseFloat(record[at], 64); err != nil || strconv.FormatFloat(got, 'f', 3, 64) != want && got != 0 {
			t.Errorf("oversize %q (%v), want %s", record[at], err, want)
		} else if got < 0 {
			negative++
		}
	}
	if negative == 0 {
		t.Error("the fixture has no negative oversize")
	}
}

// TestQuoting uses the example of RFC 4180, section 2, rule 7: "aaa","b""bb","ccc".
func TestQuoting(t *testing.T) {
	text := written(t, func(w io.Writer) error {
		return WriteFindingsCSV(w, finding.List{{Severity: finding.Note, Code: "data.unit", Message: `b"bb`, Settle: "a,b"}})
	})
	if want := "severity,code,file,sheet,row,cell,message,settle,related\r\nnote,data.unit,,,,,\"b\"\"bb\",\"a,b\",\r\n"; string(text) != want {
		t.Errorf("got %q, want %q", text, want)
	}
}

func TestSummary(t *testing.T) {
	for name, r := range results(t) {
		s := summarise(r, nil)
		if s.Pairs.Listed+s.Pairs.Counted+s.Pairs.OutOfRange != s.Pairs.Heads*s.Pairs.Ferrules || s.Pairs.Possible != s.Pairs.Heads*s.Pairs.Ferrules {
			t.Errorf("%s: pairs %+v", name, s.Pairs)
		}
		if left := s.Pairs.FitsNotListed; (left != nil) != (r.OnlyBest > 0) || s.Pairs.OnlyBest != r.OnlyBest {
			t.Errorf("%s: only the best %d, fits not listed %+v", name, s.Pairs.OnlyBest, left)
		} else if left != nil {
			not := left.Flush + left.Turn + left.Prep + left.Measure + s.Verdicts.Ask + s.Verdicts.Bare
			for _, reason := range s.Pairs.NotListed {
				not += reason.Pairs
			}
			if not != s.Pairs.Counted || left.Turn == 0 {
				t.Errorf("%s: %d pairs are not listed, counted %d; %+v", name, not, s.Pairs.Counted, left)
			}
		}
		v := s.Verdicts
		if v.Flush+v.Turn+v.Prep+v.Measure+v.Ask+v.No+v.Bare != s.Pairs.Listed+s.Pairs.Counted {
			t.Errorf("%s: verdicts %+v do not sum to %d", name, v, s.Pairs.Listed+s.Pairs.Counted)
		}
		h := s.Heads
		if h.Served+h.Selective+h.Undecided+h.Unserved+h.Bare != len(r.Catalogue.Heads) {
			t.Errorf("%s: heads %+v", name, h)
		}
		if s.Ferrules.Used+s.Ferrules.Unused != len(r.Catalogue.Ferrules) {
			t.Errorf("%s: ferrules %+v", name, s.Ferrules)
		}
		if all := s.Rows.All; all.Rows != all.Used+all.Assumed+all.Held+all.SetAside {
			t.Errorf("%s: rows %+v", name, all)
		}
	}
	s := summarise(telltest.Small(t), nil)
	if v := s.Verdicts; v.Flush == 0 || v.Turn == 0 || v.Prep == 0 || v.Ask == 0 || v.No == 0 || v.Bare == 0 {
		t.Errorf("the fixture lacks a verdict: %+v", v)
	}
	if h := s.Heads; h.Served == 0 || h.Undecided == 0 || h.Unserved == 0 || h.Bare == 0 {
		t.Errorf("the fixture lacks a kind of head: %+v", h)
	}
	if len(s.Settings) != 1 || s.Settings[0].Key != "turn_limit" || s.Settings[0].Value != "0.889 mm" {
		t.Errorf("settings %+v, want turn_limit of .035 in alone", s.Settings)
	}
}

var errFull = errors.New("the disk is full")

// full takes some bytes and then no more.
type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestWriteErrors(t *testing.T) {
	r := telltest.Large(t, 40, 90)
	for i := range 1000 {
		r.Catalogue.Findings.Add(finding.Finding{Severity: finding.Note, Code: "data.unit", Message: "m", Place: finding.Place{Row: i + 1}})
	}
	for name, write := range writers(r) {
		for _, room := range []int{0, 200, 20_000} {
			if err := write(&full{room}); !errors.Is(err, errFull) && (name != "summary.json" || room < 3000) {
				t.Errorf("%s with room for %d bytes: error %v", name, room, err)
			}
		}
	}
	if err := WriteFindingsCSV(io.Discard, finding.List{{Code: "data.unit"}}); err == nil {
		t.Error("a finding without a severity was written")
	}
}

func BenchmarkWriteFits(b *testing.B) {
	r := telltest.Large(b, 700, 300)
	b.Run("JSONL", func(b *testing.B) {
		for b.Loop() {
			if err := WriteFitsJSONL(io.Discard, r, Options{}); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(r.Listed), "pairs")
	})
	b.Run("CSV", func(b *testing.B) {
		for b.Loop() {
			if err := WriteFitsCSV(io.Discard, r, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}
