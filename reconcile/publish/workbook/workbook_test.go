package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func bytesOf(t testing.TB, r *matrix.Result, opts Options, limits limits) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out, r, opts, limits); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func open(t testing.TB, text []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

func written(t testing.TB, r *matrix.Result, opts Options) *excelize.File {
	t.Helper()
	return open(t, bytesOf(t, r, opts, standardLimits))
}

// rows are the raw values of a sheet.
func rows(t testing.TB, f *excelize.File, sheet string) [][]string {
	t.Helper()
	all, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// below are the rows under the heading row that begins with the given heading.
func below(t testing.TB, f *excelize.File, sheet, heading string) [][]string {
	t.Helper()
	all := rows(t, f, sheet)
	at := slices.IndexFunc(all, func(row []string) bool { return len(row) > 1 && row[0] == heading })
	if at < 0 {
		t.Fatalf("%s has no heading %q", sheet, heading)
	}
	return all[at+1:]
}

// dump is a workbook as text: each sheet with its views, and each cell with its number format, of tables so many rows. What has no headings
// is whole where a table has at least six: a person can review no more.
func dump(t testing.TB, f *excelize.File, most int) string {
	t.Helper()
	var b strings.Builder
	for _, sheet := range f.GetSheetList() {
		panes, err := f.GetPanes(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if sheet == sheetWindows {
			continue // TestWindowsAreThoseOfTheLibrary reads it line by line
		}
		fmt.Fprintf(&b, "== %s (frozen: %d columns, %d rows)\n", sheet, panes.XSplit, panes.YSplit)
		for r, row := range rows(t, f, sheet) {
			if r >= panes.YSplit+most && (panes.YSplit > 0 || most < 6) {
				break
			}
			if len(row) > 0 && row[0] == "Settings in force" {
				break // TestSettings looks at these; they are not the workbook's to fix
			}
			for c, value := range row {
				if value == "" {
					continue
				}
				at := address(c+1, r+1)
				fmt.Fprintf(&b, "%s\t%s%s%s%s\n", at, strings.ReplaceAll(value, "\n", `\n`), formatOf(t, f, sheet, at), linkOf(t, f, sheet, at),
					formulaOf(t, f, sheet, at))
			}
		}
	}
	for _, name := range f.GetDefinedName() {
		fmt.Fprintf(&b, "name %s (%s) %s\n", name.Name, name.Scope, name.RefersTo)
	}
	return b.String()
}

func formatOf(t testing.TB, f *excelize.File, sheet, at string) string {
	t.Helper()
	id, err := f.GetCellStyle(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	if style.CustomNumFmt == nil {
		return ""
	}
	return "\t" + *style.CustomNumFmt
}

func formulaOf(t testing.TB, f *excelize.File, sheet, at string) string {
	t.Helper()
	formula, err := f.GetCellFormula(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	if formula == "" {
		return ""
	}
	return "\t= " + formula
}

func linkOf(t testing.TB, f *excelize.File, sheet, at string) string {
	t.Helper()
	linked, target, err := f.GetCellHyperLink(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	if !linked {
		return ""
	}
	return "\t-> " + target
}

func TestGolden(t *testing.T) {
	for name, one := range map[string]struct {
		most int // rows below the headings
		opts Options
	}{
		"small-mm.txt": {6, Options{ShopName: "Lathe & Linen", Inputs: []tell.Input{
			{Name: "heads.xlsx", Kind: "heads"}, {Name: "ferrules.csv", Kind: "ferrules"}, {Name: "shop.toml", Kind: "settings"},
		}, Sources: func(file string) string { return "../sheets as sent/" + file }}},
		"small-in-full.txt": {2, Options{Units: fitcalc.Imperial, Full: true}},
		"small-frac.txt":    {2, Options{Units: fitcalc.Fractions}},
	} {
		golden.Check(t, name, dump(t, written(t, telltest.Small(t), one.opts), one.most))
	}
}

// Where readings were given, the first sheet says what they are and what was learned, and each pair which of its sizes they gave.
func TestMeasured(t *testing.T) {
	r := telltest.Measured(t)
	f := written(t, r, Options{Units: fitcalc.Metric})
	said := map[string]string{}
	for _, row := range rows(t, f, report.ReadFirst) {
		if len(row) > 1 {
			said[row[0]] = row[1]
		}
	}
	if !strings.Contains(said["Readings"], "6 sizes of 6 parts by 18 readings") || !strings.Contains(said["Learned"], "base OD of Hollin Mouldings") {
		t.Errorf("readings %q, learned %q", said["Readings"], said["Learned"])
	}
	pairs := below(t, f, sheetFits, "Head")
	headings, err := f.GetRows(sheetFits)
	if err != nil {
		t.Fatal(err)
	}
	at := slices.Index(headings[3], "Measured")
	if at < 0 {
		t.Fatalf("no column says what is measured: %q", headings[3])
	}
	want := map[string]string{"TF-610 HM-20": "hosel OD; base OD", "TF-900 HM-20": "base OD", "TF-900 VB-09": ""}
	for _, row := range pairs {
		if expected, asked := want[row[0]+" "+row[1]]; asked {
			delete(want, row[0]+" "+row[1])
			if row[at] != expected {
				t.Errorf("%s %s: %q, want %q", row[0], row[1], row[at], expected)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not listed: %v", want)
	}
	if rows, err := written(t, telltest.Small(t), Options{}).GetRows(sheetFits); err != nil || slices.Contains(rows[3], "Measured") {
		t.Errorf("nothing was measured: %q (%v)", rows[3], err)
	}
}

func TestSettings(t *testing.T) {
	r := telltest.Small(t)
	f := written(t, r, Options{Units: fitcalc.Imperial})
	all := below(t, f, report.ReadFirst, "Setting")
	first := len(rows(t, f, report.ReadFirst)) - len(all) + 1
	settings := tell.Settings(r.Shop)
	if len(all) != len(settings) {
		t.Fatalf("%d rows for %d settings", len(all), len(settings))
	}
	changed := 0
	for i, s := range settings {
		want := []string{s.Key, tell.Show(s.Value, fitcalc.Imperial), tell.Show(s.Default, fitcalc.Imperial), s.Why, "", "", s.Source}
		if diff := cmp.Diff(want, all[i]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", s.Key, diff)
		}
		id, err := f.GetCellStyle(report.ReadFirst, address(1, first+i))
		if err != nil {
			t.Fatal(err)
		}
		style, err := f.GetStyle(id)
		if err != nil {
			t.Fatal(err)
		}
		if marked := len(style.Fill.Color) > 0; marked != s.Changed {
			t.Errorf("%s: stands out is %v, want %v", s.Key, marked, s.Changed)
		}
		if s.Changed {
			changed++
		}
	}
	if changed != 1 || len(settings) < 30 {
		t.Errorf("%d of %d settings changed, want 1 of more than 30", changed, len(settings))
	}
}

func TestSameBytes(t *testing.T) {
	for _, make := range []func(testing.TB) *matrix.Result{telltest.Small, telltest.Awkward} {
		first, second := bytesOf(t, make(t), Options{}, standardLimits), bytesOf(t, make(t), Options{}, standardLimits)
		if !bytes.Equal(first, second) {
			t.Error("the same results gave other bytes")
		}
	}
}

func TestCounts(t *testing.T) {
	for name, r := range map[string]*matrix.Result{
		"small": telltest.Small(t), "awkward": telltest.Awkward(t), "large": telltest.Large(t, 30, 80), "only the best": telltest.OnlyBest(t),
	} {
		f, a := written(t, r, Options{}), tell.Take(r)
		if first := rows(t, f, report.ReadFirst); r.OnlyBest > 0 != slices.ContainsFunc(first[:6], func(row []string) bool { return len(row) > 0 && strings.HasPrefix(row[0], "Of ") }) {
			t.Errorf("%s: only the best %d, and the first sheet says %q", name, r.OnlyBest, first[:6])
		}
		fits := below(t, f, sheetFits, "Head")
		verdicts := map[string]int{}
		for _, row := range fits {
			verdicts[row[3]]++
		}
		pairs := map[[2]int]bool{} // of geometries
		for p := range r.Pairs() {
			pair := [2]int{r.HeadGeometry(int(p.Head)), r.FerruleGeometry(int(p.Ferrule))}
			if !pairs[pair] {
				pairs[pair] = true
				verdicts[say.English().Verdict(p.Verdict)]--
			}
		}
		if len(fits) != len(pairs) {
			t.Errorf("%s: %d rows of fits for %d pairs", name, len(fits), len(pairs))
		}
		for v, n := range verdicts {
			if n != 0 {
				t.Errorf("%s: %d rows of %v too many", name, n, v)
			}
		}
		best := 0
		for _, row := range below(t, f, sheetBest, "Head") {
			if row[3] == "1" {
				best++
			}
		}
		served, left, idle := 0, 0, 0
		for _, heads := range r.HeadGeometries() {
			if a.Standings[heads[0]] == tell.Served {
				served++
			} else {
				left++
			}
		}
		for _, ferrules := range r.FerruleGeometries() {
			if a.Fits[ferrules[0]] == 0 {
				idle++
			}
		}
		if want := served; best != want {
			t.Errorf("%s: %d heads with a best ferrule, want %d", name, best, want)
		}
		without := len(below(t, f, sheetWithout, "Head"))
		if want := left; without != max(1, want) {
			t.Errorf("%s: %d heads without, want %d", name, without, want)
		}
		if unused, want := len(below(t, f, sheetUnused, "Ferrule")), idle; unused != max(1, want) {
			t.Errorf("%s: %d unused ferrules, want %d", name, unused, want)
		}
		if got, want := len(below(t, f, sheetFindings, "Severity")), len(tell.Findings(r)); got != want {
			t.Errorf("%s: %d findings, want %d", name, got, want)
		}
	}
}

// TestMatrix holds every cell of the matrix against the pairs.
func TestMatrix(t *testing.T) {
	r := telltest.Small(t)
	f := written(t, r, Options{Full: true})
	everyPair := telltest.SmallAll(t)
	onFits := map[[2]int32]bool{}
	for p := range r.Pairs() {
		onFits[[2]int32{p.Head, p.Ferrule}] = true
	}
	all := rows(t, f, sheetMatrix)
	column := map[string]int{}
	for c, part := range all[legendRow-1] {
		if part, _, _ = strings.Cut(part, " – not given: "); c >= gridColumns {
			column[part] = c
		}
	}
	row := map[string]int{}
	for i := gridHeading; i < len(all); i++ {
		row[all[i][0]] = i
	}
	listed := map[string]bool{}
	for p := range everyPair.Pairs() {
		if p.Verdict == fitcalc.No || p.Verdict == fitcalc.Bare {
			continue // an empty cell
		}
		head, ferrule := r.Catalogue.Heads[p.Head].Part, r.Catalogue.Ferrules[p.Ferrule].Part
		at := address(column[ferrule]+1, row[head]+1)
		listed[at] = true
		raw, err := f.GetCellValue(sheetMatrix, at, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		format := formatOf(t, f, sheetMatrix, at)
		want, mark := "", marks[p.Verdict]
		switch p.Verdict {
		case fitcalc.Flush:
			want = "0"
		case fitcalc.Turn, fitcalc.Prep:
			want = strconv.FormatFloat(p.TurnDown.Millimetres(), 'f', -1, 64)
		default:
			want = mark
		}
		if raw != want || p.Verdict.Fits() && !strings.Contains(format, `"`+mark) {
			t.Errorf("%s on %s, %s: %q with format %q, want %s %q", ferrule, head, at, raw, format, mark, want)
		}
		linked, target, err := f.GetCellHyperLink(sheetMatrix, at)
		if err != nil || linked != onFits[[2]int32{p.Head, p.Ferrule}] {
			t.Errorf("%s leads somewhere: %v (%v)", at, linked, err)
		}
		if !linked {
			continue
		}
		if got := follow(t, f, target); got[0] != head || got[1] != ferrule {
			t.Errorf("%s, %s on %s, leads to %v", at, ferrule, head, got[:2])
		}
	}
	for i := gridHeading; i < len(all); i++ {
		for c := gridColumns; c < len(all[i]); c++ {
			if at := address(c+1, i+1); all[i][c] != "" && !listed[at] {
				t.Errorf("%s = %q, but the pair is out of range", at, all[i][c])
			}
		}
	}
}

var reference = regexp.MustCompile(`^'([^']+)'!A(\d+)$`)

// follow returns the row that a link leads to.
func follow(t *testing.T, f *excelize.File, target string) []string {
	t.Helper()
	parts := reference.FindStringSubmatch(target)
	if parts == nil {
		t.Fatalf("link to %q", target)
	}
	row, err := strconv.Atoi(parts[2])
	if err != nil {
		t.Fatal(err)
	}
	return rows(t, f, parts[1])[row-1]
}

// A ferrule that is known by its tip shows the tip in place of its bore, and is tried with the bore of one made for it.
func TestFerruleByTip(t *testing.T) {
	r := telltest.ByTip(t, telltest.Small(t))
	f := written(t, r, Options{Full: true, Units: fitcalc.Imperial})
	for _, sheet := range []string{sheetMatrix, sheetUnused} {
		want := map[string]string{sheetMatrix: "for .370 parallel", sheetUnused: "for .395 parallel"}[sheet]
		if !slices.ContainsFunc(rows(t, f, sheet), func(row []string) bool { return slices.Contains(row, want) }) {
			t.Errorf("%s does not say %q", sheet, want)
		}
	}
	for _, row := range below(t, f, sheetSize, "Ferrule") {
		if bore := map[string]string{"BT-370": "0.368", "BT-395": "0.393"}[row[0]]; bore != "" && row[11] != bore {
			t.Errorf("%s is tried with a bore of %s, want %s", row[0], row[11], bore)
		}
	}
}

func TestDefaultMatrixShowsFerrulesInUse(t *testing.T) {
	r := telltest.Small(t)
	shown := rows(t, written(t, r, Options{}), sheetMatrix)[legendRow-1][gridColumns:]
	a := tell.Take(r)
	var want []string
	for i, fits := range a.Fits {
		part := r.Catalogue.Ferrules[i].Part
		if part == "VB-60" {
			want = append(want, part+" – not given: base OD")
		} else if fits > 0 {
			want = append(want, part)
		}
	}
	slices.Sort(shown)
	slices.Sort(want)
	if diff := cmp.Diff(want, shown); diff != "" {
		t.Errorf("ferrules (-want +got):\n%s", diff)
	}
}

func TestLegend(t *testing.T) {
	f := written(t, telltest.Small(t), Options{})
	all := rows(t, f, sheetMatrix)
	for i, v := range fitcalc.Verdicts() {
		row := all[legendRow-1+i]
		if row[0] != marks[v]+"  "+say.English().Verdict(v) || row[1] != say.English().Meaning(v) {
			t.Errorf("legend of %v is %q", v, row[:2])
		}
	}
	if !strings.Contains(all[1][0], "on the diameter") || !strings.Contains(all[1][0], "per side") {
		t.Errorf("the note does not say how the turn-down is given: %q", all[1][0])
	}
}

func TestLayout(t *testing.T) {
	f := written(t, telltest.Small(t), Options{ShopName: "Lathe & Linen"})
	want := []string{
		report.ReadFirst, sheetMatrix, sheetBest, sheetSize, sheetWithout, sheetUnused, sheetFits, sheetFindings, sheetPictures, sheetWindows,
		sheetWorking,
	}
	if diff := cmp.Diff(want, f.GetSheetList()); diff != "" {
		t.Errorf("sheets (-want +got):\n%s", diff)
	}
	if f.GetActiveSheetIndex() != 0 {
		t.Error("the workbook does not open on its first sheet")
	}
	names := map[string]bool{}
	for _, n := range f.GetDefinedName() {
		names[n.Scope+" "+n.Name] = true
	}
	for _, sheet := range want {
		page, err := f.GetPageLayout(sheet)
		if err != nil || *page.FitToWidth < 1 || *page.FitToHeight < 1 {
			t.Errorf("%s: page %+v (%v)", sheet, page, err)
		}
		props, err := f.GetSheetProps(sheet)
		if err != nil || props.FitToPage == nil || !*props.FitToPage {
			t.Errorf("%s does not fit the page (%v)", sheet, err)
		}
		both, err := f.GetHeaderFooter(sheet)
		if err != nil || both == nil || !strings.Contains(both.OddHeader, "Lathe && Linen") || !strings.Contains(both.OddFooter, "&P of &N") {
			t.Errorf("%s: header and footer %+v (%v)", sheet, both, err)
		}
		if names[sheet+" _xlnm.Print_Area"] == (sheet == sheetWorking) {
			t.Errorf("%s has a print area: %v", sheet, sheet == sheetWorking)
		}
		if visible, err := f.GetSheetVisible(sheet); err != nil || visible == (sheet == sheetWorking) {
			t.Errorf("%s is shown: %v (%v)", sheet, visible, err)
		}
		if sheet == report.ReadFirst || sheet == sheetPictures || sheet == sheetWorking {
			continue
		}
		panes, err := f.GetPanes(sheet)
		if err != nil || !panes.Freeze || panes.YSplit == 0 || panes.XSplit == 0 {
			t.Errorf("%s: panes %+v (%v)", sheet, panes, err)
		}
		if !names[sheet+" _xlnm.Print_Titles"] {
			t.Errorf("%s repeats no headings", sheet)
		}
		if sheet != sheetMatrix && sheet != sheetSize && !names[sheet+" _xlnm._FilterDatabase"] {
			t.Errorf("%s has no filter", sheet)
		}
	}
}

// TestTextStaysText feeds formulas and the like as names and messages.
func TestTextStaysText(t *testing.T) {
	r := telltest.Awkward(t)
	text := bytesOf(t, r, Options{Full: true, ShopName: telltest.Hostile()[0]}, standardLimits)
	f := open(t, text)
	seen, computed := map[string]bool{}, map[string]bool{}
	for n, sheet := range f.GetSheetList() {
		ours := sheet == sheetSize || sheet == sheetWorking
		if ours {
			computed[fmt.Sprintf("xl/worksheets/sheet%d.xml", n+1)] = true
		}
		for i, row := range rows(t, f, sheet) {
			for c, value := range row {
				formula, err := f.GetCellFormula(sheet, address(c+1, i+1))
				if err != nil || formula != "" && (!ours || quotes(formula)) {
					t.Errorf("%s!%s holds the formula %q (%v)", sheet, address(c+1, i+1), formula, err)
				}
				seen[value] = true
			}
		}
	}
	for _, hostile := range telltest.Hostile() {
		if !seen[clean(hostile)] {
			t.Errorf("%q is nowhere", hostile)
		}
	}
	eachSheet(t, text, func(name, xml string) {
		if strings.Contains(xml, "<dimension") {
			t.Errorf("%s states a dimension, which is that of an empty sheet", name)
		}
		if computed[name] {
			return
		}
		if strings.Contains(xml, "<f>") || strings.Contains(xml, "<f ") {
			t.Errorf("%s holds a formula", name)
		}
	})
}

// quotes reports whether a formula has anything of the hostile texts in it.
func quotes(formula string) bool {
	return slices.ContainsFunc(telltest.Hostile(), func(text string) bool { return strings.Contains(formula, clean(text)) })
}

func eachSheet(t *testing.T, text []byte, look func(name, xml string)) {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	for _, member := range archive.File {
		if !strings.HasPrefix(member.Name, "xl/worksheets/sheet") {
			continue
		}
		in, err := member.Open()
		if err != nil {
			t.Fatal(err)
		}
		xml, err := io.ReadAll(in)
		if err := errors.Join(err, in.Close()); err != nil {
			t.Fatal(err)
		}
		look(member.Name, string(xml))
	}
}

// TestNumbersAreNumbers looks at the cells as they are stored: a number has no type, a text is an inline string. It is the size to
// 0.0001 mm or .00001 in.
func TestNumbersAreNumbers(t *testing.T) {
	r := telltest.Small(t)
	for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial} {
		f := written(t, r, Options{Units: units})
		fits := below(t, f, sheetFits, "Head")
		first := len(rows(t, f, sheetFits)) - len(fits) + 1
		for i, p := range slices.Collect(r.Pairs()) {
			fit := r.Fit(p)
			at := address(6, first+i)
			kind, err := f.GetCellType(sheetFits, at)
			if err != nil {
				t.Fatal(err)
			}
			if !fit.Flush.Known {
				if fits[i][5] != "" {
					t.Errorf("%s = %q, but nothing is known", at, fits[i][5])
				}
				continue
			}
			want, within := fit.Flush.TurnDown.Nominal.Millimetres(), .5e-4
			if units == fitcalc.Imperial {
				want, within = fit.Flush.TurnDown.Nominal.Inches(), .5e-5
			}
			if got, err := strconv.ParseFloat(fits[i][5], 64); err != nil || math.Abs(got-want) > within+1e-12 || kind != excelize.CellTypeUnset {
				t.Errorf("%s = %q of type %v (%v), want the number %v", at, fits[i][5], kind, err, want)
			}
		}
	}
}

// TestFull: what is beyond what a person scrolls through is left out, and each sheet says so.
func TestFull(t *testing.T) {
	r := telltest.Large(t, 150, 80)
	const most = 60
	f := open(t, bytesOf(t, r, Options{}, limits{rows: most, ferrules: 25, alternates: 2, windows: 500}))
	for _, sheet := range []string{sheetMatrix, sheetBest, sheetFits} {
		all := rows(t, f, sheet)
		if last := all[len(all)-1][0]; len(all) != most || !strings.Contains(last, "too many to read here") || !strings.Contains(last, "fits.csv") {
			t.Errorf("%s has %d rows, and its last is %q", sheet, len(all), last)
		}
	}
	for i := range rows(t, f, sheetBest) { // a pair beyond the sheet of fits leads nowhere, and not to its top
		if to := linkOf(t, f, sheetBest, address(5, i+1)); strings.HasSuffix(to, "!A1") {
			t.Errorf("row %d of %s leads to %s", i+1, sheetBest, to)
		}
	}
	all := rows(t, f, sheetMatrix)
	if across := len(all[legendRow-1]) - gridColumns; across != 25 || !strings.Contains(all[2][0], "the first 25 of") {
		t.Errorf("%d ferrules, and the note says %q", across, all[2][0])
	}
	if linked := links(t, f, sheetMatrix, r); linked < 10 || linked > most*26 {
		t.Errorf("%d links", linked)
	}
	first := strings.Join(slices.Concat(rows(t, f, report.ReadFirst)...), "\n")
	if !strings.Contains(first, fmt.Sprintf("No sheet has more than %d rows", most)) {
		t.Error("the first sheet does not say where sheets end")
	}
	visible, err := f.GetSheetVisible(sheetWindows)
	if err != nil || visible {
		t.Errorf("a table that nobody reads is shown: %v (%v)", visible, err)
	}
}

// TestGeometries: heads of one geometry share a row that names them, and stand below it when it is unfolded.
func TestGeometries(t *testing.T) {
	r := telltest.Set(t)
	f := written(t, r, Options{})
	all := rows(t, f, sheetMatrix)[gridHeading:]
	var got []string
	for _, row := range all {
		got = append(got, row[0])
	}
	want := []string{"Iron heads (8)", "OB-1-4 … PW", "OB-1-4", "OB-1-5", "OB-1-6", "OB-1-7", "OB-1-8", "OB-1-9", "OB-1-PW", "OB-2-4"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for i, name := range got {
		visible, err := f.GetRowVisible(sheetMatrix, gridHeading+1+i)
		if member := i >= 2 && i <= 8; err != nil || visible == member {
			t.Errorf("%s is shown: %v (%v)", name, visible, err)
		}
	}
	for _, sheet := range []string{sheetBest, sheetFits} {
		if first := below(t, f, sheet, "Head")[0]; first[0] != "OB-1-4 … PW" {
			t.Errorf("%s begins with %q", sheet, first)
		}
	}
	if ferrules := rows(t, f, sheetMatrix)[legendRow-1][gridColumns:]; !slices.Equal(ferrules, []string{"HM-1-BK, RD"}) {
		t.Errorf("across stand %q", ferrules)
	}
}

// links counts the links of a sheet of the matrix and follows each.
func links(t *testing.T, f *excelize.File, sheet string, r *matrix.Result) int {
	t.Helper()
	count := 0
	all := rows(t, f, sheet)
	for i, row := range all {
		for c := range row {
			linked, target, err := f.GetCellHyperLink(sheet, address(c+1, i+1))
			if err != nil {
				t.Fatal(err)
			}
			if !linked {
				continue
			}
			count++
			got := follow(t, f, target)
			if got[0] != row[0] || c >= gridColumns && got[1] != all[legendRow-1][c] {
				t.Errorf("%s!%s leads to %v", sheet, address(c+1, i+1), got[:2])
			}
		}
	}
	return count
}

func TestEmpty(t *testing.T) {
	f := written(t, telltest.Empty(), Options{})
	for sheet, heading := range map[string]string{
		sheetWithout: "Head", sheetUnused: "Ferrule", sheetFindings: "Severity",
	} {
		if got := below(t, f, sheet, heading); len(got) != 1 || got[0][0] == "" {
			t.Errorf("%s: %q, want one sentence", sheet, got)
		}
	}
}

var errFull = errors.New("the disk is full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrors(t *testing.T) {
	if err := Write(full{}, telltest.Small(t), Options{}); !errors.Is(err, errFull) {
		t.Errorf("error %v, want %v", err, errFull)
	}
}

func TestLongTexts(t *testing.T) {
	r := telltest.Small(t)
	r.Catalogue.Findings.Add(finding.Finding{Severity: finding.Note, Code: "data.unit", Message: strings.Repeat("😀", 20_000)})
	f := written(t, r, Options{ShopName: strings.Repeat("a&\n", 300)})
	for _, row := range below(t, f, sheetFindings, "Severity") {
		if strings.HasPrefix(row[5], "😀") && !strings.HasSuffix(row[5], cutShort) {
			t.Error("the long message is cut and does not say so")
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	r := telltest.Large(b, 400, 300)
	b.ReportMetric(float64(r.Listed), "pairs")
	for b.Loop() {
		if err := Write(io.Discard, r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
