package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func everyCode() []string {
	var codes []string
	for c := fitcalc.NoCode + 1; c.String() != ""; c++ {
		codes = append(codes, c.String())
	}
	return codes
}

func built(t *testing.T, r *matrix.Result, opts Options) *builder {
	t.Helper()
	l, err := language("en", nil)
	if err != nil {
		t.Fatal(err)
	}
	b := newBuilder(r, opts, l)
	if _, err := b.build(); err != nil {
		t.Fatal(err)
	}
	return b
}

// courseAt returns where a course stands at an OD.
func courseAt(c course, od measure.Length) stretch {
	at := c[0]
	for _, s := range c[1:] {
		if s.from <= od.Picometres() {
			at = s
		}
	}
	return at
}

// Courses are what Windows says, whatever parted them further: for every hosel, tip and form of a catalogue the verdict at each of
// the windows' ends, one picometre beside them, and at random ODs between, against Evaluate on the head itself.
func TestCoursesAreWindows(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 25))
	for _, tolerance := range []measure.Length{{}, measure.Micrometres(20)} {
		b := built(t, telltest.Small(t), Options{Caliper: tolerance})
		seen := map[fitcalc.Verdict]int{}
		compareCourses(t, b, random, seen)
		for _, verdict := range fitcalc.Verdicts() {
			if seen[verdict] == 0 {
				t.Errorf("no verdict %v among those compared", verdict)
			}
		}
	}
	compareCourses(t, built(t, deepAndShallow(t), Options{}), random, map[fitcalc.Verdict]int{})
	compareCourses(t, built(t, telltest.ByTip(t, deepAndShallow(t)), Options{}), random, map[fitcalc.Verdict]int{})
}

// A ferrule that is known by its tip shows that tip, and has the usual bore for its drawing.
func TestFerruleByTip(t *testing.T) {
	r := telltest.ByTip(t, telltest.Small(t))
	b := built(t, r, Options{})
	for i := range r.Catalogue.Ferrules {
		f := &r.Catalogue.Ferrules[i].Ferrule
		form := b.chart.Forms[b.chart.Ferrules.Form[i]]
		want := ""
		if !f.Bore.Given() {
			want = f.ForTip.String()
		}
		if form.ForTip != want || form.Bore != size(r.Bore(i)) {
			t.Errorf("%s is for %q with a bore of %v, want %q and %v", r.Catalogue.Ferrules[i].Part, form.ForTip, form.Bore, want, r.Bore(i))
		}
	}
}

// deepAndShallow is a catalogue of heads that differ in the depth, form and tolerance of their bores, some of them too shallow.
func deepAndShallow(t *testing.T) *matrix.Result {
	t.Helper()
	c := telltest.Small(t).Catalogue
	heads := c.Heads
	for i, depth := range []measure.Dim{
		measure.Nominal(measure.Thou(1000)), measure.PlusMinus(measure.Thou(1375), measure.Thou(60)), measure.Nominal(measure.Thou(740)),
		measure.Nominal(measure.Thou(751)), measure.Nominal(measure.Thou(1600)),
	} {
		for _, h := range heads {
			h.Part += fmt.Sprint(" depth ", i)
			if h.Head.BoreDepth = depth; h.Head.Adapter.BoreDepth.Given() {
				h.Head.Adapter.BoreDepth = depth
			}
			if i == 1 && h.Head.BoreForm == fitcalc.BoreUnknown {
				h.Head.BoreForm = fitcalc.BoreTapered
			}
			c.Heads = append(c.Heads, h)
		}
	}
	return matrix.Decide(c, fitcalc.DefaultShop())
}

func compareCourses(t *testing.T, b *builder, random *rand.Rand, seen map[fitcalc.Verdict]int) {
	t.Helper()
	for hosel, data := range b.chart.Hosels {
		for i, tip := range data.Tips {
			row := b.chart.Rows[data.Rows[i]]
			for form := range b.forms {
				compareCourse(t, b, hosel, tip, form, b.chart.Courses[row[form+1]], random, seen)
			}
		}
	}
}

func compareCourse(t *testing.T, b *builder, hosel, tip, form int, c course, random *rand.Rand, seen map[fitcalc.Verdict]int) {
	t.Helper()
	head := b.hosels[hosel].head
	windows, err := fitcalc.Windows(head, b.tips[tip], b.forms[form], b.result.Shop)
	if err != nil {
		t.Fatal(err)
	}
	least := measure.Picometres(b.least(hosel))
	if at := windows[0].HoselOD.Lower().At(); at.Compare(least) > 0 {
		t.Errorf("the windows begin at %v, the row at %v", at, least)
	}
	ods := []measure.Length{least, least.Add(one)}
	for _, w := range windows[1:] {
		at := w.HoselOD.Lower().At()
		ods = append(ods, at.Sub(one), at, at.Add(one))
	}
	for _, s := range c[1:] {
		at := measure.Picometres(s.from)
		ods = append(ods, at.Sub(one), at, at.Add(one))
	}
	for range 6 {
		ods = append(ods, measure.Millimetres(10).Add(measure.Picometres(random.Int64N(6_000_000_000))))
	}
	shop := b.result.Shop
	for _, od := range ods {
		if od.Less(least) {
			continue
		}
		at := head
		to := &at.HoselOD
		if at.Adapter.Given() {
			to = &at.Adapter.TopOD
		}
		*to = measure.PlusMinus(od, b.tolerance).WithOrigin(measure.Measured)
		fit, err := fitcalc.Evaluate(at, b.tips[tip], b.forms[form], shop)
		if err != nil {
			t.Fatalf("%v: %v", od, err)
		}
		s := courseAt(c, od)
		outcome := b.outcomes.all[s.outcome]
		seen[fit.Verdict]++
		if outcome[0] != int(fit.Verdict) {
			t.Errorf("hosel %d, tip %d, form %d at %v: the page says verdict %d, the library %v", hosel, tip, form, od, outcome[0], fit.Verdict)
		}
		compareReasons(t, b, outcome, &fit)
		if fit.Verdict.Fits() {
			if got := minutesAt(c, od); math.Abs(got-fit.Work.Minutes) > 0.05 {
				t.Errorf("hosel %d, tip %d, form %d at %v: %.2f minutes, the library %.2f", hosel, tip, form, od, got, fit.Work.Minutes)
			}
		}
	}
}

// compareReasons demands that what decides stands among the reasons told, with its numbers where they stand.
func compareReasons(t *testing.T, b *builder, outcome []int, fit *fitcalc.Fit) {
	t.Helper()
	told := map[string]bool{}
	for _, r := range outcome[3:] {
		told[b.reasons.all[r].Code] = true
	}
	codes := map[string]fitcalc.Reason{}
	for r := range fit.Reasons() {
		codes[r.Code.String()] = r
	}
	for _, r := range outcome[3:] {
		data := b.reasons.all[r]
		reason, is := codes[data.Code]
		if !is {
			t.Errorf("the page gives the reason %s, the library %v", data.Code, fmt.Sprint(codes))
			continue
		}
		if data.Level != int(reason.Level) || data.Size != nil && *data.Size != pm(reason.Size) || data.Limit != nil && *data.Limit != pm(reason.Limit) {
			t.Errorf("the page gives %+v, the library %+v", data, reason)
		}
	}
	if len(told) == 0 && fit.Verdict != fitcalc.Flush {
		t.Errorf("no reason for %v", fit.Verdict)
	}
}

func minutesAt(c course, od measure.Length) float64 {
	for i, s := range c {
		if i+1 < len(c) && c[i+1].from <= od.Picometres() {
			continue
		}
		from, last := float64(s.from), float64(c[i+1].from-1)
		place := (float64(od.Picometres()) - from) / (last - from) * steps
		for k := 2; ; k += 2 {
			if x, z := float64(s.minutes[k-2]), float64(s.minutes[k]); place <= z {
				a, b := float64(s.minutes[k-1]), float64(s.minutes[k+1])
				return (a + (b-a)*(place-x)/(z-x)) / 100
			}
		}
	}
	return math.NaN()
}

// A page without room for everything has the best ferrules of each head, says how many there are, and answers a measured hosel as one
// without its head.
func TestCrowdedPage(t *testing.T) {
	r := telltest.Small(t)
	l, err := language("en", nil)
	if err != nil {
		t.Fatal(err)
	}
	b := newBuilder(r, Options{}, l)
	b.room = room{courses: 1, listed: 1, best: 2}
	c, err := b.build()
	if err != nil {
		t.Fatal(err)
	}
	short, usual := 0, 0
	for head := range r.Catalogue.Heads {
		var want []int
		fits := 0
		for _, p := range r.HeadPairs(head) {
			if p.Verdict.Fits() {
				if fits++; fits <= 2 {
					want = append(want, int(p.Ferrule))
				}
			}
		}
		if fits > 2 {
			short++
		}
		answer := c.Answers[c.Heads.Answer[head]]
		for i, ferrule := range want {
			if answer[4*i] != ferrule {
				t.Errorf("head %d, line %d: ferrule %d, want %d", head, i, answer[4*i], ferrule)
			}
		}
		if more := 4 * len(want); len(answer) > more && fitcalc.Verdict(c.Outcomes[answer[more+1]][0]).Fits() || c.Heads.Fits[head] != fits {
			t.Errorf("head %d: %d fit, the page says %d and lists %v", head, fits, c.Heads.Fits[head], answer)
		}
		hosel := c.Hosels[c.Heads.Hosel[head]]
		if !hosel.Usual {
			continue
		}
		usual++
		for i, tip := range hosel.Tips {
			found := false
			for _, bench := range c.Bench {
				of := c.Hosels[bench.Hosel]
				at := slices.Index(of.Tips, tip)
				found = found || at >= 0 && (bench.Top == hosel.Top || hosel.Top == sleeveTop) && of.Rows[at] == hosel.Rows[i]
			}
			if !found && slices.Contains(b.benchSet, tip) {
				t.Errorf("head %d on tip %d: the row is no usual hosel's with such a top", head, tip)
			}
		}
	}
	for ferrule, n := range c.Ferrules.Fits {
		if n != r.FerruleFits(ferrule) {
			t.Errorf("ferrule %d fits %d heads, the page says %d", ferrule, r.FerruleFits(ferrule), n)
		}
	}
	if short == 0 || usual < 2 {
		t.Errorf("%d heads have more than is listed, %d hosels are taken as usual ones", short, usual)
	}
}
