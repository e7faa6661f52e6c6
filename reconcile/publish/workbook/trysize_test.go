package workbook

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// soffice returns the spreadsheet program that recalculates workbooks for these tests. On a continuous-integration machine a
// missing one is a failure.
func soffice(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("short: what the spreadsheet program does is left out")
	}
	path, err := exec.LookPath("soffice")
	if err == nil {
		return path
	}
	if os.Getenv("CI") == "true" {
		t.Fatal("soffice is not installed, and CI=true: the formulas cannot be checked")
	}
	t.Skip("soffice is not installed: the formulas are checked only where LibreOffice Calc is")
	return ""
}

// recalculated converts workbooks in a folder to text and returns one of their sheets, counted from 1, each with every number in
// full.
func recalculated(t *testing.T, dir string, names []string, sheet int) map[string][][]string {
	t.Helper()
	filter := fmt.Sprintf("csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,%d", sheet)
	out := filepath.Join(dir, "out")
	args := []string{
		"--headless", "--norestore", "-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(dir, "profile")),
		"--convert-to", filter, "--outdir", out,
	}
	for _, name := range names {
		args = append(args, filepath.Join(dir, name+".xlsx"))
	}
	if said, err := exec.Command(soffice(t), args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	sheets := map[string][][]string{}
	for _, name := range names {
		files, err := filepath.Glob(filepath.Join(out, name+"-*.csv"))
		if err != nil || len(files) != 1 {
			t.Fatalf("%s gave %v (%v)", name, files, err)
		}
		file, err := os.Open(files[0])
		if err != nil {
			t.Fatal(err)
		}
		reader := csv.NewReader(file)
		reader.FieldsPerRecord = -1
		sheets[name], err = reader.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return sheets
}

var (
	functionName = regexp.MustCompile(`([A-Z]+)\(`)
	columnRange  = regexp.MustCompile(`^'([^']+)'!\$([A-Z]+)\$(\d+):\$[A-Z]+\$(\d+)$`)
)

// typed is what a reader types and chooses.
type typed struct {
	text, unit string
	tip        matrix.Tip
	top        fitcalc.TopForm
}

// onlyWhatCounts drops the sheets that no answer depends on, which take LibreOffice long to read again and again.
func onlyWhatCounts(t *testing.T, text []byte) []byte {
	t.Helper()
	f := open(t, text)
	for _, sheet := range f.GetSheetList() {
		if sheet != sheetSize && sheet != sheetWindows && sheet != sheetWorking {
			if err := f.DeleteSheet(sheet); err != nil {
				t.Fatal(err)
			}
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// save writes a workbook with something typed into it and nothing worked out.
func save(t *testing.T, text []byte, path string, cells map[string]any) {
	t.Helper()
	f := open(t, text)
	for cell, value := range cells {
		if err := f.SetCellValue(sheetSize, cell, value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.UpdateLinkedValue(); err != nil { // drops what formulas came to
		t.Fatal(err)
	}
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
}

// sizesToType are round sizes, the very ends of windows and a picometre less.
func sizesToType(t *testing.T, r *matrix.Result) []typed {
	t.Helper()
	tips := triedTips(r)
	var all []typed
	add := func(i int, text, unit string) {
		all = append(all, typed{text, unit, tips[i%len(tips)], triedTops[i%len(triedTops)]})
	}
	for i, text := range []string{"12.7", "12.65", "11.43", "12.99", "13.05", "9.4", "40", "0.5", "12.7000000004"} {
		add(i, text, "mm")
	}
	for i, text := range []string{"0.5", "0.507", "0.4995", "0.45", "0.51200001", "0.515"} {
		add(i, text, "in")
	}
	parallel := slices.IndexFunc(tips, func(tip matrix.Tip) bool { return tip.Name == ".370 parallel" })
	for i := range r.Catalogue.Ferrules {
		windows, err := fitcalc.Windows(benchHead(fitcalc.TopFlat, &r.Shop), tips[parallel].Tip, r.Catalogue.Ferrules[i].Ferrule, r.Shop)
		if err != nil {
			t.Fatal(err)
		}
		for n, w := range windows[1:] {
			for _, less := range []int64{0, 1} {
				if (i+n)%2 > 0 {
					continue // half of them, for the sake of time
				}
				at := w.HoselOD.Lower().At().Sub(measure.Picometres(less))
				all = append(all, typed{strings.TrimSuffix(at.String(), " mm"), "mm", tips[parallel], fitcalc.TopFlat})
			}
		}
	}
	return all
}

// TestTriedSizesRecalculated types many sizes, lets LibreOffice work them out, and holds every answer against fitcalc.Evaluate.
func TestTriedSizesRecalculated(t *testing.T) {
	soffice(t)
	r := telltest.Small(t)
	dir := t.TempDir()
	sizes := sizesToType(t, r)
	if len(sizes) < 30 {
		t.Fatalf("only %d sizes to type", len(sizes))
	}
	books := map[fitcalc.Units][]byte{}
	for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial} {
		books[units] = onlyWhatCounts(t, bytesOf(t, r, Options{Units: units, Language: languageIn(t, units)}, standardLimits))
	}
	unitsOf := func(i int) fitcalc.Units { return []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial}[i%2] }
	var names []string
	for i, y := range sizes {
		value, err := strconv.ParseFloat(y.text, 64)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("try%03d", i)
		save(t, books[unitsOf(i)], filepath.Join(dir, name+".xlsx"), map[string]any{"B5": value, "C5": y.unit, "B6": y.tip.Name, "B7": y.top.String()})
		names = append(names, name)
	}
	wrong := map[string]map[string]any{
		"text": {"B5": "half an inch"}, "zero": {"B5": 0}, "less": {"B5": -12.7}, "unit": {"C5": "feet"}, "tip": {"B6": "no such tip"}, "blank": {"B5": nil},
	}
	for name, cells := range wrong {
		save(t, books[fitcalc.Metric], filepath.Join(dir, name+".xlsx"), cells)
		names = append(names, name)
	}
	sheets := recalculated(t, dir, names, 1)
	fits := 0
	for i, y := range sizes {
		fits += checkTried(t, r, y, unitsOf(i), sheets[names[i]])
	}
	if fits < 30 {
		t.Errorf("only %d answers fit: too few to mean much", fits)
	}
	for name := range wrong {
		sheet := sheets[name]
		if !strings.HasPrefix(sheet[trialInput-1][3], "Type a number") {
			t.Errorf("%s: the sheet says %q", name, sheet[trialInput-1])
		}
		for _, row := range sheet[trialHeading:] {
			if strings.Join(row, "") != "" {
				t.Errorf("%s: there is an answer: %q", name, row)
			}
		}
	}
}

// languageIn is that of a reader of units, to try with each: verdicts are said in it, and formulas know them by their codes.
func languageIn(t *testing.T, units fitcalc.Units) *say.Language {
	t.Helper()
	if units == fitcalc.Metric {
		return nil
	}
	german, err := say.In("de", nil)
	if err != nil {
		t.Fatal(err)
	}
	return german
}

// checkTried holds a recalculated sheet against the library and returns how many ferrules fit.
func checkTried(t *testing.T, r *matrix.Result, y typed, units fitcalc.Units, sheet [][]string) (fits int) {
	t.Helper()
	where := fmt.Sprintf("%s %s on %s, %s", y.text, y.unit, y.tip.Name, y.top)
	read := reader{units}
	head := benchHead(y.top, &r.Shop)
	od, err := measure.ParseLength(y.text + " " + y.unit)
	if err != nil {
		od, err = measure.FromMillimetres(mustFloat(t, y.text)) // more digits than a picometre has
		if err != nil {
			t.Fatal(err)
		}
	}
	head.HoselOD = head.HoselOD.Shift(od.Sub(head.HoselOD.Nominal()))
	table := sheet[trialHeading:]
	seen := map[string]bool{}
	lastRank, lastOff := -1, 0.0
	for _, row := range table {
		at := slices.IndexFunc(r.Catalogue.Ferrules, func(f catalog.Ferrule) bool { return f.Part == row[0] })
		if at < 0 || seen[row[0]] {
			t.Errorf("%s: row %q", where, row)
			continue
		}
		seen[row[0]] = true
		ferrule := r.Catalogue.Ferrules[at].Ferrule
		fit, err := fitcalc.Evaluate(head, y.tip.Tip, ferrule, r.Shop)
		if err != nil {
			t.Fatal(err)
		}
		if want := languageIn(t, units).Verdict(fit.Verdict); row[2] != want {
			t.Errorf("%s, %s: %s, want %v", where, row[0], row[2], want)
		}
		down := fit.Flush.TurnDown.Nominal
		if fit.Verdict == fitcalc.Flush {
			down = measure.Length{} // nothing comes off
		}
		other := reader{fitcalc.Imperial}
		if read.name() == "in" {
			other = reader{fitcalc.Metric}
		}
		for column, want := range map[int]float64{
			3: read.value(down), 4: read.value(down) / 2, 5: other.value(down), 6: other.value(down) / 2,
		} {
			if !fit.Verdict.Fits() {
				if row[column] != "" {
					t.Errorf("%s, %s: column %d is %q and it does not fit", where, row[0], column+1, row[column])
				}
			} else if got := mustFloat(t, row[column]); math.Abs(got-want) > 1e-8 {
				t.Errorf("%s, %s: column %d is %v, want %v", where, row[0], column+1, got, want)
			}
		}
		off := 90.0
		if base := ferrule.BaseOD; base.Given() {
			over := base.Nominal().Sub(od)
			off = math.Abs(over.Millimetres())
			if got := mustFloat(t, row[7]); math.Abs(got-read.value(over)) > 1e-8 {
				t.Errorf("%s, %s: oversize %v, want %v", where, row[0], got, read.value(over))
			}
		} else if row[7] != "" {
			t.Errorf("%s, %s: oversize %q of a base that is not known", where, row[0], row[7])
		}
		rank := slices.Index(fitcalc.Verdicts(), fit.Verdict)
		if rank < lastRank || rank == lastRank && off < lastOff-0.001 {
			t.Errorf("%s: %s stands too low", where, row[0])
		}
		lastRank, lastOff = rank, off
		if fit.Verdict.Fits() {
			fits++
			inRange := mustFloat(t, row[8])-1e-9 <= read.value(od) && read.value(od) <= mustFloat(t, row[9])+1e-9
			nearEnd := math.Min(math.Abs(mustFloat(t, row[8])-read.value(od)), math.Abs(mustFloat(t, row[9])-read.value(od))) <= read.value(read.step())
			if !inRange && !nearEnd {
				t.Errorf("%s, %s fits, but not from %s to %s", where, row[0], row[8], row[9])
			}
		}
	}
	if len(seen) != len(r.Catalogue.Ferrules) {
		t.Errorf("%s: %d of %d ferrules", where, len(seen), len(r.Catalogue.Ferrules))
	}
	return fits
}

func mustFloat(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Errorf("%q is no number", text)
	}
	return v
}

// TestFirstSizeStands: what formulas are said to come to is what LibreOffice makes of them, and what the library says.
func TestFirstSizeStands(t *testing.T) {
	for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial, fitcalc.Fractions} {
		r := telltest.Small(t)
		f := written(t, r, Options{Units: units, Language: languageIn(t, units)})
		stands := rows(t, f, sheetSize)
		y := typed{text: stands[4][1], unit: stands[4][2], top: fitcalc.TopFlat}
		at := slices.IndexFunc(triedTips(r), func(tip matrix.Tip) bool { return tip.Name == stands[5][1] })
		if at < 0 {
			t.Fatalf("the tip is %q", stands[5][1])
		}
		y.tip = triedTips(r)[at]
		for i := range stands {
			for len(stands[i]) < 14 {
				stands[i] = append(stands[i], "")
			}
		}
		if checkTried(t, r, y, units, stands) == 0 {
			t.Error("nothing fits at first")
		}
	}
}

func TestFirstSizeIsRecalculatedTheSame(t *testing.T) {
	soffice(t)
	dir := t.TempDir()
	text := bytesOf(t, telltest.Small(t), Options{}, standardLimits)
	save(t, text, filepath.Join(dir, "first.xlsx"), nil)
	stands := rows(t, open(t, text), sheetSize)
	for i, row := range recalculated(t, dir, []string{"first"}, 4)["first"] {
		for c, got := range row {
			want := ""
			if i < len(stands) && c < len(stands[i]) {
				want = stands[i][c]
			}
			a, notA := strconv.ParseFloat(got, 64)
			b, notB := strconv.ParseFloat(want, 64)
			if got != want && (notA != nil || notB != nil || math.Abs(a-b) > 1e-9) {
				t.Errorf("%s comes to %q, and is said to be %q", address(c+1, i+1), got, want)
			}
		}
	}
}

// TestWindowsAreThoseOfTheLibrary reads the table back: beginnings to the picometre, verdicts, and ends that are rounded inward.
func TestWindowsAreThoseOfTheLibrary(t *testing.T) {
	r := telltest.Small(t)
	for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial} {
		f := written(t, r, Options{Units: units})
		table := below(t, f, sheetWindows, "Tip")
		tips, read := triedTips(r), reader{units}
		if want := len(tips) * len(triedTops) * len(r.Catalogue.Ferrules); len(table) != want {
			t.Fatalf("%d rows, want %d", len(table), want)
		}
		wide := (len(rows(t, f, sheetWindows)[windowHeading-1]) - windowFixed) / 2
		bounded := 0
		for i, row := range table {
			ferrule := r.Catalogue.Ferrules[i%len(r.Catalogue.Ferrules)]
			block := i / len(r.Catalogue.Ferrules)
			tip, head := tips[block/len(triedTops)], benchHead(triedTops[block%len(triedTops)], &r.Shop)
			if diff := cmp.Diff([]string{tip.Name, head.Top.String(), ferrule.Part}, row[:3]); diff != "" {
				t.Fatalf("row %d (-want +got):\n%s", i, diff)
			}
			windows, err := fitcalc.Windows(head, tip.Tip, ferrule.Ferrule, r.Shop)
			if err != nil {
				t.Fatal(err)
			}
			for c, w := range windows {
				at := measure.Picometres(int64(math.Round(mustFloat(t, row[windowFixed+c]) * 1e9)))
				if at != w.HoselOD.Lower().At() || row[windowFixed+wide+c] != w.Verdict.String() {
					t.Errorf("%v, window %d: %v %s, want %v %v", row[:3], c, at, row[windowFixed+wide+c], w.HoselOD.Lower().At(), w.Verdict)
				}
			}
			verdictAt := func(od measure.Length) fitcalc.Verdict {
				head.HoselOD = head.HoselOD.Shift(od.Sub(head.HoselOD.Nominal()))
				fit, err := fitcalc.Evaluate(head, tip.Tip, ferrule.Ferrule, r.Shop)
				if err != nil {
					t.Fatal(err)
				}
				return fit.Verdict
			}
			if row[3] == "" {
				continue
			}
			bounded++
			for column, outward := range map[int]int64{3: -1, 4: 1} {
				value := mustFloat(t, row[column])
				if units == fitcalc.Imperial {
					value *= 25.4
				}
				end := measure.Picometres(int64(math.Round(value * 1e9)))
				if v := verdictAt(end); !v.Fits() {
					t.Errorf("%v: %v at its end %v", row[:3], v, end)
				}
				if beyond := end.Add(read.step().MulInt(outward)); verdictAt(beyond).Fits() {
					t.Errorf("%v fits a step beyond its end %v", row[:3], end)
				}
			}
		}
		if bounded < 10 {
			t.Errorf("only %d rows have ends", bounded)
		}
	}
}

func TestFitting(t *testing.T) {
	um := func(n int64) measure.Bound { return measure.Including(measure.Micrometres(n)) }
	window := func(from measure.Bound, to int64, v fitcalc.Verdict) fitcalc.Window {
		return fitcalc.Window{HoselOD: measure.NewInterval(from, measure.Excluding(measure.Micrometres(to))), Verdict: v}
	}
	some := measure.Including(measure.Picometres(3_000_000_001))
	for name, test := range map[string]struct {
		windows  []fitcalc.Window
		from, to measure.Length
		found    bool
	}{
		"none":      {[]fitcalc.Window{window(um(1), 9, fitcalc.No)}, measure.Length{}, measure.Length{}, false},
		"joined":    {[]fitcalc.Window{window(um(1), 9, fitcalc.No), window(um(9), 20, fitcalc.Turn), window(um(20), 30, fitcalc.Flush)}, measure.Micrometres(9), measure.Micrometres(29), true},
		"inward":    {[]fitcalc.Window{window(some, 3005, fitcalc.Turn)}, measure.Micrometres(3001), measure.Micrometres(3004), true},
		"longest":   {[]fitcalc.Window{window(um(1), 5, fitcalc.Turn), window(um(5), 6, fitcalc.No), window(um(6), 20, fitcalc.Prep)}, measure.Micrometres(6), measure.Micrometres(19), true},
		"too short": {[]fitcalc.Window{window(some, 3001, fitcalc.Turn)}, measure.Length{}, measure.Length{}, false},
	} {
		from, to, found := fitting(test.windows, measure.Micrometres(1))
		if found != test.found || found && (from != test.from || to != test.to) {
			t.Errorf("%s: %v to %v, %v; want %v to %v, %v", name, from, to, found, test.from, test.to, test.found)
		}
	}
}

// TestManyFerrulesToTry: where the table would be too large, those of use to most heads stay, and the sheet says so.
func TestManyFerrulesToTry(t *testing.T) {
	r := telltest.Large(t, 20, 60)
	limits := standardLimits
	limits.windows = 10 * len(triedTips(r)) * len(triedTops)
	f := open(t, bytesOf(t, r, Options{}, limits))
	if got := len(below(t, f, sheetSize, "Ferrule")); got != 10 {
		t.Errorf("%d ferrules, want 10", got)
	}
	if !strings.Contains(rows(t, f, sheetSize)[1][0], "The 50 ferrules of use to the fewest heads are left out") {
		t.Errorf("the sheet does not say what is left out: %q", rows(t, f, sheetSize)[1])
	}
	a := tell.Take(r)
	kept, least := map[string]bool{}, math.MaxInt
	for _, row := range below(t, f, sheetSize, "Ferrule") {
		kept[row[0]] = true
	}
	for i, fits := range a.Fits {
		if kept[r.Catalogue.Ferrules[i].Part] {
			least = min(least, fits)
		}
	}
	for i, fits := range a.Fits {
		if !kept[r.Catalogue.Ferrules[i].Part] && fits > least {
			t.Errorf("%s fits %d heads and is left out", r.Catalogue.Ferrules[i].Part, fits)
		}
	}
}

// TestOldFunctionsOnly: formulas use what every program has had for long.
func TestOldFunctionsOnly(t *testing.T) {
	f := written(t, telltest.Small(t), Options{})
	allowed := map[string]bool{
		"IF": true, "INDEX": true, "MATCH": true, "SMALL": true, "ROUND": true, "ABS": true, "MAX": true, "MIN": true, "OR": true, "AND": true,
		"ISNUMBER": true, "COUNTIF": true,
	}
	formulas := 0
	for _, sheet := range []string{sheetSize, sheetWorking} {
		for r, row := range rows(t, f, sheet) {
			for c := range row {
				formula, err := f.GetCellFormula(sheet, address(c+1, r+1))
				if err != nil {
					t.Fatal(err)
				}
				if formula == "" {
					continue
				}
				formulas++
				for _, name := range functionName.FindAllStringSubmatch(formula, -1) {
					if !allowed[name[1]] {
						t.Errorf("%s!%s uses %s", sheet, address(c+1, r+1), name[1])
					}
				}
			}
		}
	}
	if formulas < 100 {
		t.Errorf("only %d formulas", formulas)
	}
}

func TestSizeInputs(t *testing.T) {
	f := written(t, telltest.Small(t), Options{})
	validations, err := f.GetDataValidations(sheetSize)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, v := range validations {
		got[v.Sqref] = v.Type + " " + v.Formula1
	}
	want := map[string]string{"B5": "decimal 0", "C5": `list "mm,in"`, "B6": "list tips_to_try", "B7": "list tops_to_try"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	lists := map[string]string{}
	for _, name := range f.GetDefinedName() {
		lists[name.Name] = name.RefersTo
	}
	for name, want := range map[string][]string{"tips_to_try": nil, "tops_to_try": {"flat", "countersunk", "counterbored"}} {
		if name == "tips_to_try" {
			for _, tip := range triedTips(telltest.Small(t)) {
				want = append(want, tip.Name)
			}
		}
		if diff := cmp.Diff(want, listed(t, f, lists[name])); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// listed are the values of a range of one column as they are shown, and rawListed as they are kept.
func listed(t *testing.T, f *excelize.File, refersTo string) []string {
	t.Helper()
	return valuesOf(t, f, refersTo)
}

func rawListed(t *testing.T, f *excelize.File, refersTo string) []string {
	t.Helper()
	return valuesOf(t, f, refersTo, excelize.Options{RawCellValue: true})
}

func valuesOf(t *testing.T, f *excelize.File, refersTo string, opts ...excelize.Options) []string {
	t.Helper()
	parts := columnRange.FindStringSubmatch(refersTo)
	if parts == nil {
		t.Fatalf("the list is %q", refersTo)
	}
	var values []string
	from, to := mustFloat(t, parts[3]), mustFloat(t, parts[4])
	for row := from; row <= to; row++ {
		value, err := f.GetCellValue(parts[1], fmt.Sprintf("%s%.0f", parts[2], row), opts...)
		if err != nil {
			t.Fatal(err)
		}
		values = append(values, value)
	}
	return values
}
