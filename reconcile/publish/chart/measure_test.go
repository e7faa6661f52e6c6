package chart_test

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/unicode/norm"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func dim(t testing.TB, text string) measure.Dim {
	t.Helper()
	d, err := measure.ParseDim(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// closeCalls is a catalogue of pairs that are right for some pieces only, or nearly.
func closeCalls(t testing.TB) *matrix.Result {
	t.Helper()
	c := &catalog.Catalogue{}
	head := func(part, od string) {
		h := fitcalc.Head{Category: fitcalc.Iron, Bore: dim(t, ".374 in"), BoreDepth: dim(t, "1.25 in"), Top: fitcalc.TopFlat, HoselOD: dim(t, od)}
		c.Heads = append(c.Heads, catalog.Head{Item: catalog.Item{Part: part, Supplier: "Tarrow Forge"}, Category: fitcalc.Iron, Head: h})
	}
	head("SAME", "13.6 mm")
	head("SMALLER", "13.63 mm")
	head("LARGER", "12.55 mm")
	head("WIDE", "13.6 ±0.15 mm")
	head("TOUCH", "13.6 ±0.10 mm")
	head("STATED", "13.6 ±0.14 mm")
	head("SLEEVE", "13.63 mm")
	sleeve := &c.Heads[len(c.Heads)-1].Head
	sleeve.Adapter, sleeve.HoselOD = fitcalc.Adapter{TopOD: sleeve.HoselOD, Bore: sleeve.Bore, BoreDepth: sleeve.BoreDepth}, measure.Dim{}
	ferrule := func(part, base string) {
		f := fitcalc.Ferrule{Bore: dim(t, ".368 in"), BaseOD: dim(t, base), Length: dim(t, ".5 in"), Style: fitcalc.Plain}
		c.Ferrules = append(c.Ferrules, catalog.Ferrule{Item: catalog.Item{Part: part, Supplier: "Hexmoor"}, Ferrule: f})
	}
	ferrule("F-535", ".535 in")
	ferrule("F-UNEVEN", "13.6 +0.30/+0.10 mm")
	return matrix.Decide(c, fitcalc.DefaultShop())
}

// place returns where a part stands.
func place(t testing.TB, r *matrix.Result, part string) (head, ferrule int) {
	t.Helper()
	head = slices.IndexFunc(r.Catalogue.Heads, func(h catalog.Head) bool { return h.Part == part })
	ferrule = slices.IndexFunc(r.Catalogue.Ferrules, func(f catalog.Ferrule) bool { return f.Part == part })
	if head < 0 && ferrule < 0 {
		t.Fatalf("no part %s", part)
	}
	return head, ferrule
}

// pairOf is what the library finds for a pair of the catalogue.
func pairOf(t testing.TB, r *matrix.Result, headPart, ferrulePart string) fitcalc.Fit {
	t.Helper()
	head, _ := place(t, r, headPart)
	_, ferrule := place(t, r, ferrulePart)
	for _, p := range r.HeadPairs(head) {
		if int(p.Ferrule) == ferrule {
			return r.Fit(p)
		}
	}
	t.Fatalf("%s and %s are not listed", headPart, ferrulePart)
	return fitcalc.Fit{}
}

// ofTen is a share in tenths, never none nor all.
func ofTen(share float64) string {
	return fmt.Sprintf("about %.0f in 10", min(9, max(1, math.Round(share*10))))
}

// What suits some pieces says which, of how many of ten, and what to do; an adapter is called the adapter.
func TestSomePiecesOnly(t *testing.T) {
	r := closeCalls(t)
	content := write(t, r, chart.Options{})
	table := text(parse(t, content).id("all"))
	for part, begins := range map[string]string{"SMALLER": "Suits the smaller hosels", "SLEEVE": "Suits the smaller adapters", "LARGER": "Suits the larger hosels"} {
		fit := pairOf(t, r, part, "F-535")
		if fit.Verdict != fitcalc.Measure {
			t.Fatalf("%s is %v: the fixture shows nothing", part, fit.Verdict)
		}
		share := 1 - fit.Flush.VisibleUndersize
		if part == "LARGER" {
			share = 1 - fit.Flush.OverTurnLimit
		}
		want := begins + " of this head, " + ofTen(share)
		head, _ := place(t, r, part)
		if best, _ := r.Best(head); best.Verdict == fitcalc.Measure && !strings.Contains(table, want) {
			t.Errorf("%s: the table does not say %q", part, want)
		}
		b := openTab(t, content, "#head="+part)
		row := b.row("F-535")
		for _, says := range []string{"measure", want, "easure before you choose"} {
			if !strings.Contains(row, says) {
				t.Errorf("%s: %q, want %q in it", part, row, says)
			}
		}
	}
}

// row is the text of a ferrule's row in the answer.
func (b *tab) row(ferrule string) string {
	b.T.Helper()
	return norm.NFKC.String(evaluate[string](b, fmt.Sprintf(
		"([...document.querySelectorAll('#answer tbody tr')].find((r) => r.querySelector('.pick')?.textContent === %s) || {innerText: ''}).innerText", quote(ferrule))))
}

// A head for which everything has to be measured first says so, and nothing there is called the best.
func TestNothingServes(t *testing.T) {
	r := closeCalls(t)
	b := openTab(t, write(t, r, chart.Options{}), "#head=LARGER")
	head, _ := place(t, r, "LARGER")
	if standing := r.Standing(head); standing != matrix.Selective {
		t.Fatalf("the head is %v: the fixture shows nothing", standing)
	}
	if got := b.Text("#answer-body > .empty"); !strings.Contains(got, "No ferrule suits every piece") {
		t.Errorf("the answer begins with %q", got)
	}
	if badge := b.Text("#answer .badge"); badge != "" {
		t.Errorf("one is called %q", badge)
	}
	evaluate[bool](b, "document.querySelector('#head-list button[aria-current]').click() || true")
	b.Wait("document.getElementById('status').textContent.startsWith('No ferrule fits. ')")
}

// Two ODs stated in two units are one size; what was measured is what it is. 13.6 mm is 0.011 mm more than .535 in: with ±0.14 and
// ±.002 in a base as large as the hosel is small by more than the step of .002 in, 1.02 standard deviations, in 15 of a hundred, and one
// 0.011 mm smaller, 0.80 standard deviations, in 21; 16 are allowed.
func TestStatedTwiceIsOneSizeUntilMeasured(t *testing.T) {
	r := closeCalls(t)
	if fit := pairOf(t, r, "STATED", "F-535"); fit.Verdict != fitcalc.Flush || !fit.Flush.OneSize {
		t.Fatalf("as stated: %v, one size %v", fit.Verdict, fit.Flush.OneSize)
	}
	content := write(t, r, chart.Options{Caliper: measure.Micrometres(140)})
	b := openTab(t, content, "#head=STATED")
	if row := b.row("F-535"); !strings.Contains(row, "flush") || !strings.Contains(row, "in 100 will need a light touch-up") {
		t.Errorf("as stated: %q", row)
	}
	b = openTab(t, content, "#head=STATED&od=13.6mm")
	if row := b.row("F-535"); !strings.Contains(row, "measure") || !strings.Contains(row, "Measure the ferrule too") || strings.Contains(row, "before you choose") {
		t.Errorf("as measured: %q", row)
	}
}

// Where the usual joint has nothing to come off and many have, the page says the most and not nothing.
func TestMostWhereNothingComesOffUsually(t *testing.T) {
	r := closeCalls(t)
	fit := pairOf(t, r, "WIDE", "F-535")
	turns := false
	for reason := range fit.Reasons() {
		turns = turns || reason.Code == fitcalc.FlushTurn
	}
	if !turns || !fit.Flush.TurnDown.Nominal.IsZero() {
		t.Fatalf("turned %v, by %v: the fixture shows nothing", turns, fit.Flush.TurnDown.Nominal)
	}
	want := "at most " + fitcalc.Metric.Show(fit.Flush.TurnDown.Most)
	content := write(t, r, chart.Options{})
	if table := text(parse(t, content).id("all")); !strings.Contains(table, want) {
		t.Errorf("the table does not say %q", want)
	}
	row := strings.Join(strings.Fields(openTab(t, content, "#head=WIDE").row("F-535")), " ")
	for _, says := range []string{want, "at most " + fitcalc.Metric.Show(fit.Flush.TurnDown.Most.Half()), ofTen(fit.Flush.VisibleOversize)[len("about "):] + " will stand out"} {
		if !strings.Contains(row, says) {
			t.Errorf("%q, want %q in it", row, says)
		}
	}
	if strings.Contains(row, " 0.00 mm") {
		t.Errorf("nothing comes off: %q", row)
	}
}

// The shares that the page takes from its spreads are those of the library within two thousandths, whatever the limits of the base,
// and it speaks of a touch where the library does.
func TestSharesOfMeasuredHosels(t *testing.T) {
	r := closeCalls(t)
	for _, caliper := range []measure.Length{{}, measure.Micrometres(20)} {
		content := write(t, r, chart.Options{Caliper: caliper})
		_, chart := parse(t, content).data()
		b := openTab(t, content, "")
		tip := 1 // the first that is known
		if r.Tips[tip].Tip.Form() != fitcalc.TipParallel {
			t.Fatalf("the tip is %s", chart.Tips[tip].Name)
		}
		var ods []int64
		for um := int64(12_400); um < 14_000; um += 3 {
			ods = append(ods, um*1_000_000+um%7)
		}
		type line struct {
			Ferrule int
			Shares  map[string]float64
		}
		all := evaluate[[][]line](b, fmt.Sprintf(`%s.map((od) => answers.measured(answers.data.hosels[%d], [%d], od).lines.map((l) => ({ferrule: l.ferrule,
			shares: Object.fromEntries(l.reasons.filter((r) => r.code.startsWith("flush.")).map((r) => [r.code + " " + r.level, answers.share(l, r)]))})))`,
			quote(ods), chart.Bench[0].Hosel, tip))
		seen := map[string]int{}
		for i, lines := range all {
			od := asMeasured(measure.Picometres(ods[i]), r, caliper)
			for _, l := range lines {
				fit, err := fitcalc.Evaluate(fitcalc.Head{HoselOD: od, Top: fitcalc.TopFlat}, r.Tips[tip].Tip, r.Catalogue.Ferrules[l.Ferrule].Ferrule, r.Shop)
				if err != nil {
					t.Fatal(err)
				}
				compareShares(t, &fit, l.Shares, seen)
			}
		}
		for _, kind := range []string{"flush.as-supplied 0", "flush.undersize 3", "flush.turn-limit 0", "flush.turn-limit 3"} {
			if seen[kind] == 0 {
				t.Errorf("caliper %v: no reason %s among those compared", caliper, kind)
			}
		}
	}
}

func compareShares(t *testing.T, fit *fitcalc.Fit, shares map[string]float64, seen map[string]int) {
	t.Helper()
	for reason := range fit.Reasons() {
		want := reason.Share
		switch {
		case reason.Code == fitcalc.FlushAsSupplied && want == 0, fit.Verdict == fitcalc.No:
			continue
		case reason.Code == fitcalc.FlushAsSupplied, reason.Code == fitcalc.FlushTurnLimit && reason.Level == fitcalc.Remarks:
		case reason.Code == fitcalc.FlushUndersize, reason.Code == fitcalc.FlushTurnLimit:
			want = 1 - want
		default:
			continue
		}
		kind := fmt.Sprint(reason.Code, " ", int(reason.Level))
		seen[kind]++
		if got, told := shares[kind]; !told || math.Abs(got-want) > 0.002 {
			t.Errorf("%v on %v, %s: the page says %.4f (%v), the library %.4f", fit.Flush.BaseOD, fit.Flush.HoselOD, kind, got, told, want)
		}
	}
	if _, told := shares["flush.as-supplied 0"]; told && !strings.Contains(fmt.Sprint(codesOf(fit)), "flush.as-supplied") {
		t.Errorf("%v on %v: a touch that the library does not know", fit.Flush.BaseOD, fit.Flush.HoselOD)
	}
}

func codesOf(fit *fitcalc.Fit) []string {
	var codes []string
	for r := range fit.Reasons() {
		if r.Share > 0 {
			codes = append(codes, r.Code.String())
		}
	}
	return codes
}

// A ferrule suits hosels after measuring on both sides of those that it serves.
func TestWindowsOnBothSides(t *testing.T) {
	r := closeCalls(t)
	b := openTab(t, write(t, r, chart.Options{}), "#ferrule=F-535")
	type span struct{ From, To int64 }
	windows := evaluate[[]struct {
		Tip   int
		Spans map[string][]span
	}](b, "answers.windows(0)")
	if len(windows) == 0 {
		t.Fatal("no windows")
	}
	for _, w := range windows {
		var serves []span
		for _, v := range []string{"flush", "turn", "prep"} {
			serves = append(serves, w.Spans[v]...)
		}
		slices.SortFunc(serves, func(a, b span) int { return cmp.Compare(a.From, b.From) })
		some := w.Spans["measure"]
		if len(some) != 2 || len(serves) == 0 || some[0].To != serves[0].From || some[1].From != serves[len(serves)-1].To {
			t.Errorf("tip %d: %+v", w.Tip, w.Spans)
		}
	}
	if got := b.Text("#answer .sheet"); strings.Count(got, "from") < 4 || !strings.Contains(got, "After measuring") {
		t.Errorf("the table says %q", got)
	}
}

// Each verdict has a mark of its own, told apart without its colour.
func TestMarksDiffer(t *testing.T) {
	b := openTab(t, write(t, telltest.Small(t), chart.Options{}), "")
	evaluate[bool](b, "document.getElementById('show-all').click() || true")
	marks := evaluate[map[string]string](b, `Object.fromEntries([...document.querySelectorAll(".key dt")].map((dt) => {
		const s = getComputedStyle(dt, "::before");
		const filled = s.backgroundColor === "rgba(0, 0, 0, 0)" ? s.backgroundImage.replace(/rgba?\([^)]*\)/g, "") : "filled";
		return [dt.className, [s.width, s.height, s.borderTopStyle, s.borderTopWidth, s.borderRightWidth, s.borderBottomWidth, s.borderTopLeftRadius, s.transform, filled].join(" ")];
	}))`)
	if len(marks) != len(fitcalc.Verdicts()) {
		t.Errorf("%d verdicts are explained, want %d", len(marks), len(fitcalc.Verdicts()))
	}
	seen := map[string]string{}
	for class, mark := range marks {
		if other, same := seen[mark]; same {
			t.Errorf("%s and %s have the same mark: %s", class, other, mark)
		}
		seen[mark] = class
	}
}
