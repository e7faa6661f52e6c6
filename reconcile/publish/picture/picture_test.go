package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func drawn(t testing.TB, c Graph, opts Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := c.WriteSVG(&b, opts); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestGolden(t *testing.T) {
	for prefix, units := range map[string]fitcalc.Units{"mm": fitcalc.Metric, "in": fitcalc.Imperial} {
		for _, c := range All(telltest.Small(t), units) {
			got := drawn(t, c, Options{Prefix: prefix + "-"})
			golden.Check(t, prefix+"-"+c.ID+".svg", got)
		}
	}
}

// TestSizesCountEveryPart counts again, part by part, without classes.
func TestSizesCountEveryPart(t *testing.T) {
	for name, r := range map[string]*matrix.Result{
		"small": telltest.Small(t), "large": telltest.Large(t, 90, 40), "awkward": telltest.Awkward(t), "empty": telltest.Empty(),
	} {
		for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial} {
			c := Sizes(r, units)
			with, without, bases := 0, 0, 0
			for i := range r.Catalogue.Heads {
				od := r.Catalogue.Heads[i].Head.JointOD()
				if !od.Given() {
					continue
				}
				served := false
				for k := range r.Catalogue.Ferrules {
					base := r.Catalogue.Ferrules[k].Ferrule.BaseOD
					over := base.Nominal().Sub(od.Nominal())
					served = served || base.Given() && !over.Less(r.Shop.FlushStep.Neg()) && !r.Shop.TurnLimit.Less(over)
				}
				if served {
					with++
				} else {
					without++
				}
			}
			for k := range r.Catalogue.Ferrules {
				if r.Catalogue.Ferrules[k].Ferrule.BaseOD.Given() {
					bases++
				}
			}
			got := []int{c.Series[0].Total(), c.Series[1].Total(), c.Series[2].Total()}
			if diff := cmp.Diff([]int{with, without, bases}, got); diff != "" {
				t.Errorf("%s: (-want +got):\n%s", name, diff)
			}
			for _, s := range c.Series {
				if len(s.Values) != len(c.Labels) || len(c.Labels) > mostClasses {
					t.Errorf("%s: %s has %d values for %d labels", name, s.Name, len(s.Values), len(c.Labels))
				}
			}
		}
	}
}

func TestSizesFindTheGap(t *testing.T) {
	c := Sizes(telltest.Small(t), fitcalc.Metric)
	// OB-77 is .560 in, 14.224 mm, and the largest base OD is .520 in, 13.208 mm; the driver's sleeve of .450 in, 11.43 mm, has HM-35
	// of .462 in.
	if got := c.Series[1].Total(); got != 1 {
		t.Errorf("%d hosels without a ferrule in size, want 1", got)
	}
	if !strings.Contains(c.Said, "from 14.2 mm") {
		t.Errorf("the gap is not named: %s", c.Said)
	}
}

func TestClasses(t *testing.T) {
	for _, test := range []struct {
		sizes []measure.Length
		units fitcalc.Units
		want  []string
	}{
		{nil, fitcalc.Metric, []string{}},
		{[]measure.Length{measure.Micrometres(12_700)}, fitcalc.Metric, []string{"12.7"}},
		// the end of a class is the beginning of the next
		{[]measure.Length{measure.Micrometres(12_699), measure.Micrometres(12_800)}, fitcalc.Metric, []string{"12.6", "12.7", "12.8"}},
		{[]measure.Length{measure.Thou(494), measure.Thou(500)}, fitcalc.Imperial, []string{".490", ".495", ".500"}},
	} {
		got := classFor(test.sizes, test.units).labels(test.units)
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%v (-want +got):\n%s", test.sizes, diff)
		}
	}
	wide := classFor([]measure.Length{measure.Micrometres(1), measure.Millimetres(90_000)}, fitcalc.Metric)
	if wide.count > mostClasses || wide.of(measure.Millimetres(90_000)) != wide.count-1 {
		t.Errorf("%d classes", wide.count)
	}
}

func TestTurnDownsCountServedHeads(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"small": telltest.Small(t), "large": telltest.Large(t, 60, 50)} {
		c := TurnDowns(r, fitcalc.Imperial)
		all, flush := 0, 0
		for _, s := range c.Series {
			all += s.Total()
		}
		for head := range r.Catalogue.Heads {
			if best, found := r.Best(head); found && best.Verdict == fitcalc.Flush {
				flush++
			}
		}
		if want := tell.Take(r).Standing[tell.Served]; all != want || want == 0 {
			t.Errorf("%s: %d heads, want %d", name, all, want)
		}
		if got := c.Series[0].Total(); got < flush {
			t.Errorf("%s: %d heads need no turning, and %d of them are flush", name, got, flush)
		}
	}
}

// TestTurnClassEnds: the end of a class belongs to it.
func TestTurnClassEnds(t *testing.T) {
	r := telltest.Small(t)
	ends := turnClasses(fitcalc.Metric)
	for p := range r.Pairs() {
		if p.Verdict != fitcalc.Turn {
			continue
		}
		for i, end := range ends {
			p.TurnDown = end
			if got := turnClass(r, p, ends); got != i+1 {
				t.Errorf("%v is in class %d, want %d", end, got, i+1)
			}
			p.TurnDown = end.Add(measure.Picometres(1))
			if got := turnClass(r, p, ends); got != i+2 {
				t.Errorf("a picometre more than %v is in class %d, want %d", end, got, i+2)
			}
		}
		return
	}
	t.Fatal("no pair is turned")
}

func TestVerdictsCountEveryPairTwice(t *testing.T) {
	for name, r := range map[string]*matrix.Result{
		"small": telltest.Small(t), "awkward": telltest.Awkward(t), "large": telltest.Large(t, 20, 30),
	} {
		c, counts := Verdicts(r), r.Counts()
		for i, v := range fitcalc.Verdicts() {
			if got := c.Series[i].Total(); got != 2*counts[v] {
				t.Errorf("%s: %v counts %d, want %d", name, v, got, 2*counts[v])
			}
		}
	}
}

func TestManySuppliers(t *testing.T) {
	r := telltest.Large(t, 40, 60)
	for i := range r.Catalogue.Heads {
		r.Catalogue.Heads[i].Supplier = "Supplier " + string(rune('A'+i%26)) + string(rune('a'+i/26))
	}
	c := Verdicts(r)
	heads := 0
	for _, label := range c.Labels {
		if strings.HasPrefix(label, "heads: ") {
			heads++
		}
	}
	if heads != mostSuppliers || !strings.Contains(strings.Join(c.Labels, "\n"), "heads: 25 others") {
		t.Errorf("%d suppliers of heads: %q", heads, c.Labels)
	}
	if sum := c.Series[1].Total(); sum != 2*r.Counts()[fitcalc.Turn] {
		t.Errorf("%d pairs are turned, want %d", sum, 2*r.Counts()[fitcalc.Turn])
	}
}

// TestSVG: a drawing is well-formed, says what it shows, and holds nothing that a strict page would refuse.
func TestSVG(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"awkward": telltest.Awkward(t), "empty": telltest.Empty()} {
		for _, c := range All(r, fitcalc.Fractions) {
			text := drawn(t, c, Options{Prefix: `"a&<`})
			var title, desc string
			decoder := xml.NewDecoder(bytes.NewReader(text))
			for {
				token, err := decoder.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatalf("%s, %s: %v", name, c.ID, err)
				}
				start, is := token.(xml.StartElement)
				if !is {
					continue
				}
				for _, a := range start.Attr {
					if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "href" ||
						strings.Contains(a.Value, "url(") || a.Name.Local != "xmlns" && strings.Contains(a.Value, "://") {
						t.Errorf("%s, %s: attribute %s", name, c.ID, a.Name.Local)
					}
				}
				switch {
				case start.Name.Local == "style" || start.Name.Local == "script":
					t.Errorf("%s, %s: element %s", name, c.ID, start.Name.Local)
				case start.Name.Local == "title" && title == "":
					if err := decoder.DecodeElement(&title, &start); err != nil {
						t.Fatal(err)
					}
				case start.Name.Local == "desc":
					if err := decoder.DecodeElement(&desc, &start); err != nil {
						t.Fatal(err)
					}
				}
			}
			if title != c.Title || !strings.HasPrefix(desc, c.Said) {
				t.Errorf("%s, %s: title %q, description %q", name, c.ID, title, desc)
			}
		}
	}
}

func TestSameBytes(t *testing.T) {
	for i, c := range All(telltest.Awkward(t), fitcalc.Metric) {
		again := All(telltest.Awkward(t), fitcalc.Metric)[i]
		if !bytes.Equal(drawn(t, c, Options{}), drawn(t, again, Options{})) {
			t.Errorf("%s has other bytes the second time", c.ID)
		}
	}
}

// TestGrey: what meets in a graph differs in lightness, CIE L* (ISO/CIE 11664-4), by 8 or more between neighbours of the ramp and
// 15 or more elsewhere.
func TestGrey(t *testing.T) {
	lightness := func(rgb string) float64 { return 116*math.Cbrt(luminance(rgb)) - 16 }
	for i := range ramp[1:] {
		if d := lightness(ramp[i]) - lightness(ramp[i+1]); d < 8 {
			t.Errorf("classes %d and %d differ by %.1f", i, i+1, d)
		}
	}
	all := []string{deep, middle, strong, pale}
	for i, a := range all {
		for _, b := range all[i+1:] {
			if d := math.Abs(lightness(a) - lightness(b)); d < 15 {
				t.Errorf("%s and %s differ by %.1f", a, b, d)
			}
		}
	}
	for _, fill := range append(slices.Concat(ramp, slices.Collect(maps.Values(VerdictFills))), strong) {
		a, b := luminance(fill), luminance(on(fill))
		if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 4.5 { // WCAG 2.1, 1.4.3
			t.Errorf("letters on %s have a contrast of %.1f", fill, ratio)
		}
	}
}

// Every verdict has a fill of its own.
func TestEveryVerdictHasItsFill(t *testing.T) {
	seen := map[string]fitcalc.Verdict{}
	for _, v := range fitcalc.Verdicts() {
		fill := VerdictFills[v]
		if other, taken := seen[fill]; fill == "" || taken {
			t.Errorf("%v has the fill %q, as %v has", v, fill, other)
		}
		seen[fill] = v
	}
}

// What suits some pieces only is told apart from what fits: heads of which nothing else is known are not among those that are turned,
// and pairs to be measured not among those that fit.
func TestMeasuredFirstIsCountedApart(t *testing.T) {
	r := someOnly(t)
	some, serve := 0, 0
	for head := range r.Catalogue.Heads {
		switch best, _ := r.Best(head); {
		case best.Verdict == fitcalc.Measure:
			some++
		case best.Verdict.Serves():
			serve++
		}
	}
	if some == 0 || serve == 0 {
		t.Fatalf("%d heads to be measured and %d served: the fixture shows nothing", some, serve)
	}
	turned := TurnDowns(r, fitcalc.Metric)
	all := 0
	for _, s := range turned.Series {
		all += s.Total()
	}
	if all != serve || !strings.Contains(turned.Said, fmt.Sprintf("measured first: %d.", some)) {
		t.Errorf("%d heads are counted of %d served: %s", all, serve, turned.Said)
	}
	fit := 0
	for p := range r.Pairs() {
		if p.Verdict == fitcalc.Flush || p.Verdict == fitcalc.Turn || p.Verdict == fitcalc.Prep {
			fit++
		}
	}
	want := fmt.Sprintf("Of these fit: %d. To be measured first: %d.", fit, r.Counts()[fitcalc.Measure])
	if said := Verdicts(r).Said; !strings.Contains(said, want) {
		t.Errorf("%q does not say %q", said, want)
	}
}

// someOnly is a catalogue with a head that is .001 in larger than the largest base: with the usual ±.003 and ±.002 in, a fifth of the
// joints would show a ledge of more than .002 in, since that is 0.83 of a standard deviation of √(.003² + .002²)/3 in off.
func someOnly(t testing.TB) *matrix.Result {
	t.Helper()
	r := telltest.Small(t)
	widest := measure.Length{}
	for i := range r.Catalogue.Ferrules {
		widest = measure.Max(widest, r.Catalogue.Ferrules[i].Ferrule.BaseOD.Nominal())
	}
	head := r.Catalogue.Heads[0]
	head.Part, head.Head.HoselOD = "SOME-1", measure.Nominal(widest.Add(measure.Thou(1)))
	r.Catalogue.Heads = append(r.Catalogue.Heads, head)
	return matrix.Decide(r.Catalogue, r.Shop)
}

var errFull = errors.New("the disk is full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrors(t *testing.T) {
	c := Verdicts(telltest.Small(t))
	if err := c.WriteSVG(full{}, Options{}); !errors.Is(err, errFull) {
		t.Errorf("error %v, want %v", err, errFull)
	}
}
