package chart_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"golang.org/x/text/unicode/norm"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/internal/browser"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func TestMain(m *testing.M) { browser.Run(m) }

// tab is a chart that is open in the browser.
type tab struct{ *browser.Tab }

func openTab(t testing.TB, content []byte, fragment string, before ...chromedp.Action[chromedp.Void]) *tab {
	t.Helper()
	if testing.Short() {
		t.Skip("short: what a browser does is left out")
	}
	return &tab{browser.Open(t, content, fragment, before...)}
}

func evaluate[T any](b *tab, expression string) T {
	b.T.Helper()
	return browser.Evaluate[T](b.Tab, expression)
}

// The tests would see it if the browser complained.
func TestComplaintsAreSeen(t *testing.T) {
	b := openTab(t, []byte(`<!doctype html><meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'unsafe-inline'">
		<title>x</title><img src="nothing.png"><script>throw new Error("on purpose")</script>`), "")
	b.Wait("document.readyState === 'complete'")
	seen := ""
	for range 100 {
		seen += strings.Join(b.Complaints(), "\n")
		if strings.Contains(seen, "on purpose") && strings.Contains(seen, "Content Security Policy") {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Error("neither the exception nor the breach of the policy was seen")
}

func quote(v any) string {
	content, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(content)
}

// Many ways to write a size: the page reads each as the same picometres as the library, or refuses it as the library does.
func TestReadsSizesAsTheLibraryDoes(t *testing.T) {
	b := openTab(t, write(t, telltest.Empty(), chart.Options{}), "")
	texts := []string{
		"13.6 mm", "13.6mm", "13,6 mm", " 13.60 MM ", "0,535 in", ".535 in", ".535\"", ".535″", ".535”", "0.535 inch", "535 thou", "17/32 in", "17/32\"", "1 1/32 in",
		"1-1/32 in", "½ in", "1½\"", "½\"", "１３．６ mm", "Ø13.6 mm", "φ 13.6 mm", "13.6 毫米", "0.000000001 mm", "13.600000001 mm",
		"1,250 mm", "13,600 mm", "1/3 in", "0.0000000001 mm", "13.6 furlongs", "mm", "1.2.3 mm", "1/0 in", "abc", "13.6 mm mm", "1e3 mm",
		"0,125 mm", "12,34,567 mm", "5/ 8 in", "13. mm", ". mm", "3 /8 in",
	}
	random := rand.New(rand.NewPCG(3, 14))
	for range 300 {
		texts = append(texts, fmt.Sprintf("%d.%0*d mm", random.IntN(30), 1+random.IntN(9), random.IntN(10)),
			fmt.Sprintf(".%0*d in", 1+random.IntN(8), random.IntN(10)), fmt.Sprintf("%d/%d in", 1+random.IntN(63), 1<<random.IntN(8)))
	}
	type read struct {
		PM    *int64
		Error string
	}
	got := evaluate[[]read](b, quote(texts)+".map(lengths.parse)")
	agreed := 0
	for i, text := range texts {
		want, err := measure.ParseLength(text)
		switch {
		case err == nil && got[i].PM != nil && *got[i].PM == want.Picometres():
			agreed++
		case err != nil && got[i].Error != "":
			agreed++
		default:
			t.Errorf("%q: the page reads %v, the library %v (%v)", text, quote(got[i]), want, err)
		}
	}
	if agreed != len(texts) {
		t.Errorf("only %d of %d agreed", agreed, len(texts))
	}
	if below := evaluate[read](b, "lengths.parse('-13.6 mm')"); below.Error != "number" {
		t.Errorf("a hosel below nothing: %v", quote(below))
	}
	bare := evaluate[[]read](b, quote([]string{"13.6", ".535", "17/32", "1.9999", "2", "3", "5", "5.01"})+".map(lengths.parse)")
	for i, want := range []string{"13.6 mm", ".535 in", "17/32 in", "1.9999 in", "", "", "", "5.01 mm"} {
		if want == "" {
			if bare[i].Error != "unit" {
				t.Errorf("bare number %d: %v, want the question for its unit", i, quote(bare[i]))
			}
		} else if l, err := measure.ParseLength(want); err != nil || bare[i].PM == nil || *bare[i].PM != l.Picometres() {
			t.Errorf("bare number %d: %v, want %v", i, quote(bare[i]), want)
		}
	}
}

// What the page writes is what the library writes.
func TestWritesSizesAsTheLibraryDoes(t *testing.T) {
	b := openTab(t, write(t, telltest.Empty(), chart.Options{}), "")
	random := rand.New(rand.NewPCG(2, 71))
	sizes := []int64{0, 1, 499_999, 500_000, 500_001, 1_500_000, 2_500_000, 1_270_000, 3_810_000, 12_700_000_000, -500_001, -12_345_678_901, 25_400_000_000, 999_999_500_000}
	for range 500 {
		sizes = append(sizes, random.Int64N(40_000_000_000)-2_000_000_000)
	}
	got := evaluate[[][3]any](b, quote(sizes)+".map((pm) => [lengths.mm(pm), lengths.inches(pm), lengths.half(pm)])")
	for i, pm := range sizes {
		l := measure.Picometres(pm)
		text := strings.ReplaceAll(fmt.Sprintf("%v (%v)", got[i][0], got[i][1]), "\u00a0", " ")
		if want := fitcalc.Metric.Show(l); text != want {
			t.Errorf("%d pm: the page writes %s, the library %s", pm, text, want)
		}
		if half := int64(got[i][2].(float64)); half != l.Half().Picometres() {
			t.Errorf("half of %d pm: %d, the library %d", pm, half, l.Half().Picometres())
		}
	}
}

// Readers of fractions get lengths along the axis in sixty-fourths, as the library writes them.
func TestWritesFractionsAsTheLibraryDoes(t *testing.T) {
	b := openTab(t, write(t, telltest.Empty(), chart.Options{}), "")
	step := measure.Inches(1).Picometres() / 64
	sizes := []int64{1, -1, step - 1, step + 1, 127 * step / 2}
	for parts := int64(-70); parts < 300; parts++ {
		sizes = append(sizes, parts*step)
	}
	for units, metric := range map[fitcalc.Units]bool{fitcalc.Metric: true, fitcalc.Imperial: false, fitcalc.Fractions: false} {
		got := evaluate[[][2]string](b, fmt.Sprintf("%s.map((pm) => [lengths.mm(pm), lengths.along(pm, %q)])", quote(sizes), units.String()))
		for i, pm := range sizes {
			first, second := got[i][1], got[i][0]
			if metric {
				first, second = second, first
			}
			text := strings.ReplaceAll(first+" ("+second+")", "\u00a0", " ")
			if want := units.ShowLength(measure.Picometres(pm)); text != want {
				t.Errorf("%v, %d pm: the page writes %s, the library %s", units, pm, text, want)
			}
		}
	}
}

// With fractions the lengths of ferrules are sixty-fourths wherever they stand, and diameters decimal.
func TestFractions(t *testing.T) {
	r := telltest.Small(t)
	content := write(t, r, chart.Options{Units: fitcalc.Fractions, Columns: chart.Columns()})
	best, fits := r.Best(0)
	ferrule := r.Catalogue.Ferrules[best.Ferrule]
	if !fits || !strings.Contains(fitcalc.Fractions.ShowLength(ferrule.Ferrule.Length.Nominal()), "\"") {
		t.Fatal("the fixture's first head has no ferrule of a length in sixty-fourths")
	}
	words := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	long := words(fitcalc.Fractions.ShowLength(ferrule.Ferrule.Length.Nominal()))
	base := words(fitcalc.Fractions.Show(ferrule.Ferrule.BaseOD.Nominal()))
	for fragment, places := range map[string][]string{
		"#head=" + r.Catalogue.Heads[0].Part: {"#answer .fitting tbody tr:first-child", "#answer .numbers"}, "#ferrule=" + ferrule.Part: {"#answer .facts"},
	} {
		b := openTab(t, content, fragment)
		for _, place := range places {
			for _, want := range []string{long, base} {
				if got := words(b.Text(place)); !strings.Contains(got, want) {
					t.Errorf("%s: %s says %q, want %s in it", fragment, place, got, want)
				}
			}
		}
		if len(places) == 1 {
			continue
		}
		drawn := words(norm.NFKC.String(evaluate[string](b, "document.querySelector('#answer svg.section').textContent + ' ' + document.querySelector('#answer svg.section').getAttribute('aria-label')")))
		inches, _, _ := strings.Cut(long, " (")
		if strings.Count(drawn, inches) != 2 {
			t.Errorf("the figure says %q, want %s in it and in its description", drawn, inches)
		}
	}
}

// Lengths in reasons are fractions both in the table, which Go writes, and in the answers, which the script does.
func TestReasonsInFractions(t *testing.T) {
	r := telltest.Small(t)
	length := measure.Nominal(measure.Inches(1).MulRatio(7, 64)) // shorter than usual, so that its length is a reason
	for i := range r.Catalogue.Ferrules {
		r.Catalogue.Ferrules[i].Ferrule.Length = length
	}
	r = matrix.Decide(r.Catalogue, r.Shop)
	content := write(t, r, chart.Options{Units: fitcalc.Fractions})
	want := "7/64\" (2.778 mm)"
	if table := text(parse(t, content).id("all")); !strings.Contains(table, want) {
		t.Errorf("the table does not say %s", want)
	}
	b := openTab(t, content, "#head="+r.Catalogue.Heads[0].Part)
	if got := b.Text("#answer-body .notes"); !strings.Contains(got, want) {
		t.Errorf("the answer says %q, want %s in it", got, want)
	}
}

// measuring is a hosel whose OD is typed.
type measuring struct {
	name   string
	hosel  int // in the page
	tip    int
	head   fitcalc.Head // in the library
	breaks []int64
}

// The heart of the page: hundreds of measurements typed as text, break points and one picometre beside them included, answered for
// every ferrule as fitcalc.Evaluate answers.
func TestMeasurementsAgreeWithEvaluate(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"small": telltest.Small(t), "varied": varied(t, 48, 56)} {
		for _, caliper := range []measure.Length{{}, measure.Micrometres(30)} {
			content := write(t, r, chart.Options{Caliper: caliper})
			_, chart := parse(t, content).data()
			b := openTab(t, content, "")
			seen := map[string]int{}
			count := 0
			for _, m := range measurings(r, chart) {
				count += compareMeasuring(t, b, r, chart, m, caliper, seen)
			}
			t.Logf("%s, caliper %v: %d measurements, verdicts %v", name, caliper, count, seen)
			if count < 500 {
				t.Errorf("%s: only %d measurements", name, count)
			}
			for _, verdict := range []string{"flush", "turn", "prep", "measure", "no", "ask", "bare"} {
				if seen[verdict] == 0 && (name == "small" || verdict != "ask") {
					t.Errorf("%s: no verdict %s among them", name, verdict)
				}
			}
		}
	}
}

func measurings(r *matrix.Result, chart chartData) []measuring {
	var all []measuring
	add := func(name string, hosel int, head fitcalc.Head) {
		for i, tip := range chart.Hosels[hosel].Tips {
			if tip >= len(r.Tips) { // a usual size that no head of the catalogue takes
				continue
			}
			m := measuring{name: name, hosel: hosel, tip: tip, head: head}
			for _, course := range chart.Rows[chart.Hosels[hosel].Rows[i]][1:] {
				shape := chart.Shapes[chart.Courses[course][0]]
				for k := 1; k < len(shape); k += 2 {
					var at int64
					if json.Unmarshal(shape[k], &at) == nil {
						m.breaks = append(m.breaks, at)
					}
				}
			}
			slices.Sort(m.breaks)
			m.breaks = slices.Compact(m.breaks)
			all = append(all, m)
		}
	}
	for _, bench := range chart.Bench {
		top := fitcalc.TopForm(bench.Top)
		add("bench, "+top.String(), bench.Hosel, fitcalc.Head{Top: top})
	}
	done := map[int]bool{}
	for i := range r.Catalogue.Heads {
		if hosel := chart.Heads.Hosel[i]; !done[hosel] {
			done[hosel] = true
			add(r.Catalogue.Heads[i].Part, hosel, r.Catalogue.Heads[i].Head)
		}
	}
	return all
}

// asMeasured is the OD of a hosel that was measured with calipers of an error, the shop's tolerance where that is nothing.
func asMeasured(od measure.Length, r *matrix.Result, caliper measure.Length) measure.Dim {
	if caliper.IsZero() {
		caliper = r.Shop.HoselODTolerance
	}
	return measure.PlusMinus(od, caliper).WithOrigin(measure.Measured)
}

// compareMeasuring compares measurements of one hosel on one tip, and returns how many.
func compareMeasuring(t *testing.T, b *tab, r *matrix.Result, chart chartData, m measuring, caliper measure.Length, seen map[string]int) int {
	t.Helper()
	random := rand.New(rand.NewPCG(uint64(m.hosel), uint64(m.tip)))
	texts := []string{".5 in", "17/32 in", "13.6 mm", "12,7 mm"}
	for range 8 {
		texts = append(texts, fmt.Sprintf("%d.%02d mm", 11+random.IntN(4), random.IntN(100)), fmt.Sprintf(".%d in", 430+random.IntN(140)))
	}
	random.Shuffle(len(m.breaks), func(i, k int) { m.breaks[i], m.breaks[k] = m.breaks[k], m.breaks[i] })
	for _, at := range m.breaks[:min(len(m.breaks), 12)] {
		for _, pm := range []int64{at - 1, at, at + 1} {
			texts = append(texts, measure.Picometres(pm).String())
		}
	}
	type line struct {
		Ferrule int
		Verdict string
		Off     struct{ Nominal, Most int64 }
	}
	type answer struct {
		PM          int64
		Lines       []line
		Least, Most any
	}
	answers := evaluate[[]answer](b, fmt.Sprintf(`%s.map((text) => {
		const {pm} = lengths.parse(text), found = answers.measured(answers.data.hosels[%d], [%d], pm);
		return {pm, least: found.least, lines: (found.lines || []).map((l) => ({ferrule: l.ferrule, verdict: l.verdict, off: l.off}))};
	})`, quote(texts), m.hosel, m.tip))
	for i, a := range answers {
		od, err := measure.ParseLength(texts[i])
		if err != nil || od.Picometres() != a.PM {
			t.Errorf("%s: the page reads %d pm, the library %v (%v)", texts[i], a.PM, od, err)
			continue
		}
		measured := asMeasured(od, r, caliper)
		head := m.head
		if head.Adapter.Given() {
			head.Adapter.TopOD = measured
		} else {
			head.HoselOD = measured
		}
		if a.Least == nil && len(a.Lines) != len(r.Catalogue.Ferrules) {
			t.Errorf("%s, %s: %d ferrules in the answer of %d", m.name, texts[i], len(a.Lines), len(r.Catalogue.Ferrules))
		}
		if a.Least != nil {
			if _, err := fitcalc.Evaluate(head, r.Tips[m.tip].Tip, fitcalc.Ferrule{}, r.Shop); err == nil {
				t.Errorf("%s, %s: the page calls the hosel impossible, the library does not", m.name, texts[i])
			}
			continue
		}
		fits := map[fitcalc.Ferrule]fitcalc.Fit{} // ferrules that differ in their colour are decided once here, and compared each
		for _, l := range a.Lines {
			ferrule := r.Catalogue.Ferrules[l.Ferrule].Ferrule
			fit, known := fits[ferrule]
			if !known {
				fit, err = fitcalc.Evaluate(head, r.Tips[m.tip].Tip, ferrule, r.Shop)
				fits[ferrule] = fit
			}
			if err != nil {
				t.Errorf("%s, %s: the page answers, the library says %v", m.name, texts[i], err)
				break
			}
			seen[l.Verdict]++
			off := fit.Flush.TurnDown
			if l.Verdict != fit.Verdict.String() || l.Off.Nominal != off.Nominal.Picometres() && fit.Flush.Known || l.Off.Most != off.Most.Picometres() && fit.Flush.Known {
				t.Errorf("%s, tip %s, %s, %s: the page says %s and %d to %d pm off, the library %v and %v to %v", m.name, chart.Tips[m.tip].Name, texts[i],
					chart.Ferrules.Part[l.Ferrule], l.Verdict, l.Off.Nominal, l.Off.Most, fit.Verdict, off.Nominal, off.Most)
			}
		}
	}
	return len(texts)
}

// For every head of the catalogue the page shows the pairs of the result in their order, with what comes off.
func TestCatalogueAnswersAreTheResult(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"small": telltest.Small(t), "close calls": closeCalls(t)} {
		t.Run(name, func(t *testing.T) { compareCatalogue(t, r) })
	}
}

func compareCatalogue(t *testing.T, r *matrix.Result) {
	t.Helper()
	b := openTab(t, write(t, r, chart.Options{}), "")
	for head := range r.Catalogue.Heads {
		type line struct {
			Ferrule, Tip int
			Verdict      string
			Turns        bool
			Minutes      float64
			Off          struct{ Nominal, Most int64 }
		}
		lines := evaluate[[]line](b, fmt.Sprintf("answers.catalogue(%d)", head))
		i := 0
		for _, p := range r.HeadPairs(head) {
			if !p.Verdict.Fits() && p.Verdict != fitcalc.Ask {
				continue
			}
			fit := r.Fit(p)
			if i >= len(lines) {
				t.Fatalf("head %d: only %d lines", head, len(lines))
			}
			l := lines[i]
			i++
			if math.Abs(l.Minutes-float64(p.Minutes)) > 0.006 || l.Ferrule != int(p.Ferrule) || l.Tip != int(p.Tip) || l.Verdict != p.Verdict.String() ||
				fit.Flush.Known && (l.Off.Nominal != fit.Flush.TurnDown.Nominal.Picometres() || l.Off.Most != fit.Flush.TurnDown.Most.Picometres()) {
				t.Errorf("head %d, line %d: the page has %+v, the result %+v", head, i, l, p)
			}
		}
	}
	for ferrule := range r.Catalogue.Ferrules {
		want := 0
		for p := range r.Pairs() {
			if int(p.Ferrule) == ferrule && p.Verdict.Fits() {
				want++
			}
		}
		if got := evaluate[int](b, fmt.Sprintf("answers.heads(%d).length", ferrule)); got != want {
			t.Errorf("ferrule %d fits %d heads in the page, %d in the result", ferrule, got, want)
		}
	}
}

func (b *tab) focus() string {
	b.T.Helper()
	return evaluate[string](b, "document.activeElement.id || document.activeElement.value || document.activeElement.textContent || document.activeElement.tagName")
}

// From a fresh page to the numbers of the second best ferrule, without a mouse.
func TestKeyboardAlone(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{}), "")
	for _, want := range []string{"head", "supplier", "category", "head-search"} {
		b.Press(kb.Tab)
		if got := b.focus(); got != want {
			t.Fatalf("the focus is on %q, want %q", got, want)
		}
	}
	b.Press("610")
	if n := evaluate[int](b, "document.querySelectorAll('#head-list button').length"); n != 1 {
		t.Fatalf("%d heads are listed for 610", n)
	}
	if text := b.Text("#status"); text != "" {
		t.Errorf("%q is announced before the reader pauses", text)
	}
	b.Wait("document.getElementById('status').textContent === '1 head'")
	b.Press(kb.ArrowDown)
	if got := b.focus(); !strings.HasPrefix(got, "TF-610") {
		t.Fatalf("the focus is on %q, want the head in the list", got)
	}
	b.Press(kb.Enter)
	if got := b.Text("#answer-title"); got != "Ferrules for TF-610" {
		t.Fatalf("the answer is %q", got)
	}
	pairs := r.HeadPairs(0)
	best, second := r.Catalogue.Ferrules[pairs[0].Ferrule].Part, r.Catalogue.Ferrules[pairs[1].Ferrule].Part
	b.Wait("document.getElementById('status').textContent.includes(" + quote(best) + ")")
	for i := 0; b.focus() != second; i++ {
		if i > 20 {
			t.Fatalf("the button of %s is not reached by the keyboard; the focus is on %q", second, b.focus())
		}
		b.Press(kb.Tab)
	}
	b.Press(kb.Enter)
	if got := b.Text("#detail-title"); got != second+" on this head" {
		t.Errorf("the detail is %q", got)
	}
	if got := b.focus(); got != second {
		t.Errorf("the focus went to %q", got)
	}
}

func TestTypedMeasurement(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{}), "#od=&tip=.370+parallel&top=flat")
	b.Do(chromedp.SendKeys(chromedp.ID("od"), ".498 in"))
	if got, want := b.Text("#od-read"), "read as 12.6492 mm = .498 in"; got != want {
		t.Errorf("read back: %q, want %q", got, want)
	}
	tip := fitcalc.ParallelTip(measure.Nominal(measure.Thou(370)))
	fits := 0
	for i := range r.Catalogue.Ferrules {
		fit, err := fitcalc.Evaluate(fitcalc.Head{HoselOD: asMeasured(measure.Thou(498), r, measure.Length{}), Top: fitcalc.TopFlat}, tip, r.Catalogue.Ferrules[i].Ferrule, r.Shop)
		if err != nil {
			t.Fatal(err)
		}
		if !fit.Verdict.Fits() {
			continue
		}
		fits++
		row := fmt.Sprintf("[...document.querySelectorAll('#answer tbody tr')].find((r) => r.querySelector('.pick')?.textContent === %s)", quote(r.Catalogue.Ferrules[i].Part))
		shown := norm.NFKC.String(evaluate[string](b, "("+row+" || {innerText: ''}).innerText"))
		if !strings.Contains(shown, fit.Verdict.String()) {
			t.Errorf("%s: %q, want %v", r.Catalogue.Ferrules[i].Part, shown, fit.Verdict)
		}
		if off := fit.Flush.TurnDown.Nominal; fit.Verdict == fitcalc.Turn {
			for _, l := range []measure.Length{off, off.Half()} {
				if both := strings.Fields(fitcalc.Metric.Show(l)); !strings.Contains(strings.Join(strings.Fields(shown), " "), strings.Join(both, " ")) {
					t.Errorf("%s: %q does not say %s", r.Catalogue.Ferrules[i].Part, shown, strings.Join(both, " "))
				}
			}
		}
	}
	if got := evaluate[int](b, "document.querySelectorAll('#answer .pick').length"); got != fits || fits == 0 {
		t.Errorf("%d ferrules are shown, %d fit", got, fits)
	}
	if drawn := evaluate[bool](b, "document.querySelector('#answer svg.section .ferrule') !== null"); !drawn {
		t.Error("no cross-section")
	}
	for text, says := range map[string]string{
		"13x": "not a size", "3": "Write the unit", "1,250 mm": "comma", "99999 mm": "Check the unit", "0.0000000001 mm": "fewer digits", "": "Type the hosel OD",
	} {
		evaluate[bool](b, "document.getElementById('od').value = "+quote(text)+", document.getElementById('od').dispatchEvent(new Event('input'))")
		if got := b.Text("#answer-body"); !strings.Contains(got, says) {
			t.Errorf("%q: the page says %q, want %q in it", text, got, says)
		}
		if invalid := evaluate[string](b, "document.getElementById('od').getAttribute('aria-invalid')"); invalid != fmt.Sprint(text != "") {
			t.Errorf("%q: aria-invalid is %s", text, invalid)
		}
	}
}

func TestDeepLinks(t *testing.T) {
	r := telltest.Small(t)
	r.Catalogue.Heads[1].Part, r.Catalogue.Heads[1].Supplier = r.Catalogue.Heads[0].Part, "Other Foundry" // a part number that two suppliers use
	r = matrix.Decide(r.Catalogue, r.Shop)
	content := write(t, r, chart.Options{})
	for fragment, want := range map[string]string{
		"":                                  "Which kind of head?",
		"#head=TF-900":                      "Ferrules for TF-900",
		"#head=TF-900&od=12.65mm":           "Ferrules for TF-900",
		"#ferrule=HM-21":                    "What HM-21 fits",
		"#od=.5in":                          "Ferrules for a hosel of 12.70 mm (.500 in)",
		"#od=13&tip=.355+taper&top=flat":    "Ferrules for a hosel of 13.00 mm (.5118 in)",
		"#head=nothing":                     "Which kind of head?",
		"#head=%3Cscript%3Ealert(1)":        "Which kind of head?",
		"#od=%3Cimg+src%3Dx+onerror%3Dx%3E": "What do you have?",
	} {
		b := openTab(t, content, fragment)
		if got := b.Text("#answer-title"); got != want {
			t.Errorf("%s: %q, want %q", fragment, got, want)
		}
	}
	b := openTab(t, content, "#head=TF-610&by=Other+Foundry")
	if got := b.Text("#answer .facts"); !strings.Contains(got, "Other Foundry") {
		t.Errorf("the head of the wrong supplier: %q", got)
	}
	b.Do(chromedp.Click("#head-list li:nth-child(3) button"))
	if hash := evaluate[string](b, "location.hash"); hash != "#head=TF-900" {
		t.Errorf("the address became %q", hash)
	}
	evaluate[bool](b, "history.back() || true")
	b.Wait("document.getElementById('answer').innerText.includes('Other Foundry')")
}

func TestWithoutScript(t *testing.T) {
	r := telltest.Small(t)
	off := chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
	b := openTab(t, write(t, r, chart.Options{}), "", off)
	text := evaluate[string](b, "document.getElementById('all').textContent")
	for i := range r.Catalogue.Heads {
		if part := r.Catalogue.Heads[i].Part; !strings.Contains(text, part) {
			t.Errorf("%s is not to be seen", part)
		}
	}
	if !strings.Contains(text, "The hosel's top is rounded") || !strings.Contains(text, "Not given: hosel OD") {
		t.Errorf("the reasons are not to be seen in %q", text)
	}
	heights := evaluate[[]int](b, "['all', 'finder', 'show-all', 'cautions-title'].map((id) => document.getElementById(id).offsetHeight)")
	if heights[0] < 500 || heights[1] != 0 || heights[2] != 0 || heights[3] == 0 {
		t.Errorf("heights of the table, the form, a button and the cautions: %v", heights)
	}
	if rows := evaluate[int](b, "[...document.querySelectorAll('#all tbody tr')].filter((r) => r.getBoundingClientRect().height > 0).length"); rows != len(r.Catalogue.Heads) {
		t.Errorf("%d rows are to be seen, want %d", rows, len(r.Catalogue.Heads))
	}
}

func TestPrints(t *testing.T) {
	r := telltest.Small(t)
	content := write(t, r, chart.Options{ShopName: "Harrowpike Bench"})
	pages := regexp.MustCompile(`/Type\s*/Page\b`)
	for fragment, most := range map[string]int{"#head=TF-610": 1, "#ferrule=HM-21": 1} {
		b := openTab(t, content, fragment)
		for name, paper := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
			pdf, err := chromedp.Run(b.Context, chromedp.PrintToPDF(chromedp.PDFPaper(paper)))
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.HasPrefix(pdf, []byte("%PDF-")) {
				t.Fatalf("%s on %s is no PDF", fragment, name)
			}
			if got := len(pages.FindAll(pdf, -1)); got < 1 || got > most {
				t.Errorf("%s on %s takes %d pages, at most %d", fragment, name, got, most)
			}
		}
	}
	// The whole chart of thirty heads is a page or two, and has each of them.
	many := write(t, varied(t, 30, 40), chart.Options{})
	all := openTab(t, many, "")
	evaluate[bool](all, "document.getElementById('show-all').click() || true")
	pdf, err := chromedp.Run(all.Context, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
	if err != nil {
		t.Fatal(err)
	}
	if got := len(pages.FindAll(pdf, -1)); got > 2 {
		t.Errorf("thirty heads take %d pages", got)
	}
	// Marks are borders: browsers print no backgrounds unless they are told to.
	all.Do(browser.Media("print", ""))
	pale := evaluate[[]string](all, `[...document.querySelectorAll(".key .v")].filter((e) => { const s = getComputedStyle(e, "::before"); return s.backgroundColor !== "rgba(0, 0, 0, 0)" || s.backgroundImage !== "none" || s.borderTopWidth === "0px"; }).map((e) => e.className)`)
	if len(pale) > 0 {
		t.Errorf("marks that need a background to be printed: %v", pale)
	}
	b := openTab(t, content, "#head=TF-610")
	b.Do(browser.Media("print", ""))
	shown := b.Text("body")
	for _, want := range []string{"Harrowpike Bench", "Ferrules for TF-610", "12.70 mm", "Before you start", "no proof of a bond"} {
		if !strings.Contains(shown, want) {
			t.Errorf("the print does not have %q", want)
		}
	}
	for _, control := range []string{"Search heads", "Show the whole chart", "Print this answer", "Copy link", "Add to the list"} {
		if strings.Contains(shown, control) {
			t.Errorf("the print has the control %q", control)
		}
	}
	wide := evaluate[bool](b, "document.documentElement.scrollWidth <= document.documentElement.clientWidth")
	if !wide {
		t.Error("the print is wider than the page")
	}
}

// On a telephone nothing runs out of the screen, and what is to be pressed is large enough for a finger.
func TestPhone(t *testing.T) {
	content := write(t, telltest.Small(t), chart.Options{ShopName: "Harrowpike Bench", Columns: chart.Columns()})
	for _, fragment := range []string{"", "#head=TF-610", "#head=OB-31", "#ferrule=HM-21", "#od=.5in"} {
		b := openTab(t, content, fragment, chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile))
		if wide := evaluate[int](b, "document.documentElement.scrollWidth"); wide > 360 {
			t.Errorf("%s: %d pixels wide on a screen of 360", fragment, wide)
		}
		small := evaluate[[]string](b, `[...document.querySelectorAll("button, select, input:not([type=radio]), summary, .ways label")]
			.filter((e) => e.offsetParent && !e.matches(".pick") && e.offsetHeight < 40).map((e) => e.outerHTML)`)
		if len(small) > 0 {
			t.Errorf("%s: too small for a finger: %v", fragment, small)
		}
	}
}

// axe-core finds nothing, whatever is shown and however.
func TestAxe(t *testing.T) {
	axe := browser.AxeCore(t)
	content := write(t, telltest.Small(t), chart.Options{ShopName: "Harrowpike Bench", Contact: "at the bench", Accent: "#f2c230", Columns: chart.Columns()})
	for _, scheme := range []string{"light", "dark"} {
		for _, width := range []int64{1280, 390} {
			if scheme == "dark" && width == 390 {
				continue // other colours, same layout
			}
			for _, fragment := range []string{"", "#head=TF-610", "#head=QM-P2", "#head=QM-5H", "#head=OB-31&od=.499in", "#ferrule=HM-21", "#od=.51in", "#od=nonsense", "#kind=iron", "#head=TF-610&order=HM-21*3&units=in"} {
				b := openTab(t, content, fragment, chromedp.EmulateViewport(width, 900), browser.Media("", scheme))
				evaluate[bool](b, `(() => {
					const beside = document.getElementById("beside");
					if (beside) {
						beside.selectedIndex = 1;
						beside.dispatchEvent(new Event("change"));
					}
					document.querySelectorAll("details").forEach((d) => { d.open = true; });
					document.getElementById("show-all").click();
					return true;
				})()`)
				b.Wait(`[...document.querySelectorAll("details")].every((d) => d.children.length > 1)`)
				b.Axe(axe, fmt.Sprintf("%s, %d wide, %s", scheme, width, fragment))
			}
		}
	}
}

// Every language fills the page: no blank is left open, and nothing is English by oversight in what is always shown.
func TestLanguagesInTheBrowser(t *testing.T) {
	r := telltest.Small(t)
	for _, tag := range chart.Languages() {
		b := openTab(t, write(t, r, chart.Options{Language: tag}), "")
		for _, fragment := range []string{"#head=TF-900", "#od=.5in", "#ferrule=HM-21"} {
			before := b.Text("#answer-title")
			evaluate[bool](b, fmt.Sprintf("(location.hash = %q) !== ''", fragment)) // one page is asked all: to load it takes longest
			b.Wait(fmt.Sprintf("document.getElementById('answer-title').innerText.normalize('NFKC') !== %s", quote(before)))
			evaluate[bool](b, `document.querySelectorAll("details").forEach((d) => { d.open = true; }) || true`)
			b.Wait(`[...document.querySelectorAll("details")].every((d) => d.children.length > 1)`)
			text := b.Text("body")
			if open := regexp.MustCompile(`\{\w+\}|undefined|NaN|null`).FindString(text); open != "" {
				t.Errorf("%s, %s: %q stands in the page", tag, fragment, open)
			}
			if tag != "en" && strings.Contains(text, "Ferrule fit chart") {
				t.Errorf("%s, %s: the title is English", tag, fragment)
			}
		}
	}
}

// How fast a chart of 2,000 heads and 500 ferrules is there, and how fast it answers a keystroke.
func BenchmarkOpen(b *testing.B) {
	content := write(b, varied(b, 2000, 500), chart.Options{})
	for b.Loop() {
		opened := openTab(b, content, "#od=13.1mm")
		opened.Wait("performance.getEntriesByName('first-contentful-paint').length > 0")
		b.ReportMetric(evaluate[float64](opened, "performance.getEntriesByName('first-contentful-paint')[0].startTime"), "ms-to-paint")
		for _, typing := range [][3]string{{"measure", "od", "13.125 mm"}, {"head", "head-search", "brindle iron 3"}, {"ferrule", "ferrule-search", "mossvane collared"}} {
			evaluate[bool](opened, fmt.Sprintf("document.querySelector('input[name=way][value=%s]').click() || true", typing[0]))
			b.ReportMetric(opened.keystroke(typing[1], typing[2]), "ms-per-key-"+typing[0])
		}
	}
}

// keystroke is the median time in ms that a keystroke of a text takes.
func (b *tab) keystroke(id, text string) float64 {
	b.T.Helper()
	times := evaluate[[]float64](b, fmt.Sprintf(`(() => {
		const e = document.getElementById(%q), times = [], text = %q;
		for (let round = 0; round < 3; round++) for (let i = 1; i <= text.length; i++) {
			const start = performance.now();
			e.value = text.slice(0, i);
			e.dispatchEvent(new Event("input", {bubbles: true}));
			document.body.offsetHeight;
			times.push(performance.now() - start);
		}
		return times;
	})()`, id, text))
	slices.Sort(times)
	return times[len(times)/2]
}
