package turnlist

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/hajimehoshi/bitmapfont/v3"
	"golang.org/x/image/math/fixed"
	"golang.org/x/net/html"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func written(t testing.TB, write func(w *bytes.Buffer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asHTML(t testing.TB, l *List) []byte {
	return written(t, func(w *bytes.Buffer) error { return l.WriteHTML(w) })
}
func asPDF(t testing.TB, l *List) []byte {
	return written(t, func(w *bytes.Buffer) error { return l.WritePDF(w) })
}

// own are the style sheet and the script, which are files of their own, and digest is what the policy knows them by.
var (
	own    = regexp.MustCompile(`(?s)<(style|script)>.*?</(?:style|script)>`)
	digest = regexp.MustCompile(`sha256-.*?=&#39;`)
)

func TestGolden(t *testing.T) {
	r := telltest.Small(t)
	for name, opts := range map[string]Options{
		"best-mm": {ShopName: "Lathe & Linen"},
		"best-in": {Units: fitcalc.Fractions, Paper: Letter, Title: "Tarrow, three irons"},
	} {
		l := New(r, Best(r, nil), opts)
		golden.Check(t, name+".html", own.ReplaceAllString(digest.ReplaceAllString(string(asHTML(t, l)), "sha256-…'"), "<$1>…</$1>"))
		golden.Check(t, name+".json", written(t, func(w *bytes.Buffer) error { return l.WriteJSON(w) }))
	}
}

// Where a hosel was measured, its line says so and the list does not ask for it again.
func TestMeasured(t *testing.T) {
	r := telltest.Measured(t)
	at := func(head string) int {
		return slices.IndexFunc(r.Catalogue.Heads, func(h catalog.Head) bool { return h.Part == head })
	}
	measured, other := BestFor(r, at("TF-610")), BestFor(r, at("TF-900"))
	const again, once = "Measure the hosel in hand at its very top", "hosel was measured"
	for name, tt := range map[string]struct {
		lines []Line
		rule  string
		times int // on the screen, and on paper
	}{
		"none": {[]Line{other}, again + " and turn to that", 0},
		"some": {[]Line{other, measured}, again + ", but where it says that it was measured, and turn to that", 1},
		"all":  {[]Line{measured}, "Turn to the hosel at its very top, or a little over, never under; hosels of these heads were measured.", 1},
	} {
		l := New(r, tt.lines, Options{})
		text := string(asHTML(t, l))
		if !strings.Contains(l.Rule(), tt.rule) || strings.Count(text, once) != 2*tt.times || len(l.Joints) != len(tt.lines) {
			t.Errorf("%s: %q; said %d times that a hosel was measured, want %d", name, l.Rule(), strings.Count(text, once), tt.times)
		}
	}
	l := New(r, []Line{measured}, Options{})
	if !slices.Contains(l.Joints[0].Measured, "hosel_od") {
		t.Errorf("JSON says %v", l.Joints[0].Measured)
	}
	l = New(r, []Line{{Head: at("TF-900"), Ferrule: slices.IndexFunc(r.Catalogue.Ferrules, func(f catalog.Ferrule) bool { return f.Part == "HM-20" }), Tip: other.Tip}}, Options{})
	if len(l.Joints) != 1 || !strings.HasSuffix(l.Joints[0].Base(), ", measured") || l.Joints[0].Hosel() != "" {
		t.Errorf("%+v", l.Joints)
	}
}

// TestNumbersAreTheLibrarys evaluates every joint again.
func TestNumbersAreTheLibrarys(t *testing.T) {
	near := func(a float64, l measure.Length) bool { return math.Abs(a-l.Millimetres()) < 1e-12 }
	for _, r := range []*matrix.Result{telltest.SmallAll(t), telltest.Large(t, 40, 60)} {
		var lines []Line
		for p := range r.Pairs() {
			lines = append(lines, Line{Head: int(p.Head), Ferrule: int(p.Ferrule), Tip: int(p.Tip)})
		}
		l := New(r, lines, Options{})
		left, turned := 0, 0
		for i, p := range slices.Collect(r.Pairs()) {
			if !p.Verdict.Fits() {
				if got := l.Left[left]; got.Verdict != p.Verdict.String() || got.Why == "" {
					t.Errorf("line %d is left out as %s (%s), want %v", i, got.Verdict, got.Why, p.Verdict)
				}
				left++
				continue
			}
			part, fit := r.Catalogue.Heads[p.Head].Part, r.Fit(p)
			j := jointOf(t, l, part, r.Catalogue.Ferrules[p.Ferrule].Part)
			if j.Verdict != p.Verdict.String() {
				t.Fatalf("joint %d is %s on %s, %s", j.Number, j.Ferrule, part, j.Verdict)
			}
			hosel, step := fit.Flush.HoselOD.Nominal(), r.Shop.FlushStep
			if !near(j.FinishedMM, hosel) {
				t.Errorf("%s on %s is finished to %v, want %v", j.Ferrule, part, j.FinishedMM, hosel)
			}
			// Never under the hosel; rounded inward, and by no more than a step of calipers.
			low, high := hosel.Millimetres(), hosel.Add(step).Millimetres()
			if j.FinishedFromMM < low-1e-9 || j.FinishedFromMM > low+0.01 || j.FinishedToMM > high+1e-9 || j.FinishedToMM < high-0.01 {
				t.Errorf("%s on %s passes from %v to %v, want within %v to %v", j.Ferrule, part, j.FinishedFromMM, j.FinishedToMM, low, high)
			}
			if !j.Turned {
				if fit.Flush.VisibleOversize > r.Shop.UndersizeRisk || j.OffMM != (Amount{}) {
					t.Errorf("%s on %s is not turned, and %.0f%% are oversize", j.Ferrule, part, 100*fit.Flush.VisibleOversize)
				}
				continue
			}
			turned++
			down := fit.Flush.TurnDown
			if !near(j.OffMM.Nominal, down.Nominal) || !near(j.OffMM.Least, down.Least) || !near(j.OffMM.Most, down.Most) || !near(2*j.PerSideMM, down.Nominal) {
				t.Errorf("%s on %s: %v off, %v per side, want %+v", j.Ferrule, part, j.OffMM, j.PerSideMM, down)
			}
			if got := j.BaseODMM - j.FinishedMM; math.Abs(got-j.OffMM.Nominal) > 1e-9 {
				t.Errorf("%s on %s: from %v to %v is not %v off", j.Ferrule, part, j.BaseODMM, j.FinishedMM, j.OffMM.Nominal)
			}
		}
		if l.joints+len(l.Left) != len(lines) || left != len(l.Left) || turned == 0 || left == 0 {
			t.Errorf("%d joints and %d left out of %d lines, want %d left out", l.joints, len(l.Left), len(lines), left)
		}
	}
}

// jointOf is the joint of a list that has a head and a ferrule, of which there is one.
func jointOf(t testing.TB, l *List, head, ferrule string) Joint {
	t.Helper()
	var found []Joint
	for _, j := range l.Joints {
		if j.Ferrule == ferrule && slices.ContainsFunc(j.Heads, func(h HeadOf) bool { return h.Part == head }) {
			found = append(found, j)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%s on %s is on %d lines, want 1", ferrule, head, len(found))
	}
	return found[0]
}

// TestTwelveSevenToTwelveTwo: an OD of 12.7 mm turned to 12.2 mm loses about .020 in on the diameter. Common practice, from memory.
func TestTwelveSevenToTwelveTwo(t *testing.T) {
	var c catalog.Catalogue
	c.Heads = []catalog.Head{{Item: catalog.Item{Part: "H"}, Head: fitcalc.Head{HoselOD: measure.Nominal(measure.Micrometres(12_200)), Bore: measure.Nominal(measure.Thou(374)), Top: fitcalc.TopFlat}}}
	c.Ferrules = []catalog.Ferrule{{Item: catalog.Item{Part: "F"}, Ferrule: fitcalc.Ferrule{
		Bore: measure.Nominal(measure.Thou(368)), BaseOD: measure.Nominal(measure.Micrometres(12_700)), Length: measure.Nominal(measure.Thou(500)), Style: fitcalc.Plain,
	}}}
	r := matrix.Decide(&c, fitcalc.DefaultShop())
	j := New(r, Best(r, nil), Options{Units: fitcalc.Imperial}).Joints[0]
	if diff := cmp.Diff([]string{".0197 in", ".0098 in"}, []string{j.Off[0], j.PerSide[0]}); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	// .4803 in is 12.2 mm; .002 in upward, inward to half a thousandth
	if j.Finished[0] != ".4803 in" || j.FinishedRange[0] != ".4805 to .482 in" || j.FinishedRange[1] != "12.20 to 12.25 mm" {
		t.Errorf("finished to %v, %v", j.Finished, j.FinishedRange)
	}
}

func TestInward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := measure.Picometres(rapid.Int64Range(8_000_000_000, 20_000_000_000).Draw(t, "from"))
		to := from.Add(measure.Picometres(rapid.Int64Range(0, 300_000_000).Draw(t, "width")))
		units := rapid.SampledFrom([]fitcalc.Units{fitcalc.Metric, fitcalc.Imperial}).Draw(t, "units")
		least, most := inward(from, to, units)
		if least.Less(from) || to.Less(most) || most.Less(least) {
			t.Fatalf("%v to %v is rounded to %v to %v", from, to, least, most)
		}
	})
}

func TestBestTakesEveryHead(t *testing.T) {
	r := telltest.Small(t)
	l := New(r, Best(r, nil), Options{})
	a := tell.Take(r)
	if l.joints != a.Standing[tell.Served] || l.joints+len(l.Left) != a.Heads {
		t.Errorf("%d joints and %d left out of %d heads", l.joints, len(l.Left), a.Heads)
	}
	got := map[string]string{}
	for _, left := range l.Left {
		got[left.Head] = left.Verdict
	}
	if diff := cmp.Diff(map[string]string{"QM-P2": "bare", "QM-5H": "ask", "OB-77": "no"}, got); diff != "" {
		t.Errorf("left out (-want +got):\n%s", diff)
	}
	irons := Best(r, func(h *catalog.Head) bool { return h.Category == fitcalc.Iron })
	if len(irons) != 2 {
		t.Errorf("%d irons, want 2", len(irons))
	}
	empty := New(telltest.Empty(), Best(telltest.Empty(), nil), Options{})
	if len(empty.Joints)+len(empty.Left) != 0 {
		t.Errorf("an empty catalogue gives %+v", empty)
	}
	asPDF(t, empty)
	if !strings.Contains(string(asHTML(t, empty)), "No joint can be made.") {
		t.Error("an empty list does not say that it is")
	}
}

func TestCounts(t *testing.T) {
	r := telltest.Small(t)
	line := BestFor(r, 0)
	line.Count = 3
	other := line
	other.Count = 0 // is one
	l := New(r, []Line{line, other}, Options{})
	if diff := cmp.Diff([]Ferrules{{Part: l.Joints[0].Ferrule, Description: l.Joints[0].FerruleIs, Supplier: "Hollin Mouldings", Whose: "Hollin Mouldings", Count: 4}}, l.LayOut); diff != "" {
		t.Errorf("to lay out (-want +got):\n%s", diff)
	}
	if !strings.HasPrefix(l.Summary(), "4 joints:") || l.joints != 4 {
		t.Errorf("the summary is %q", l.Summary())
	}
}

// The clubs of a set that have one geometry are one line, with a piece for each; what differs in anything that the bench does is another.
func TestOneLineForWhatIsAlike(t *testing.T) {
	var c catalog.Catalogue
	for i, od := range []int64{12_900, 12_900, 13_000, 12_900} {
		c.Heads = append(c.Heads, catalog.Head{Item: catalog.Item{Part: fmt.Sprintf("7041-%d", i+4), Supplier: "Foundry"}, Head: fitcalc.Head{
			HoselOD: measure.Nominal(measure.Micrometres(od)), Bore: measure.Nominal(measure.Thou(374)), Top: fitcalc.TopFlat,
		}})
	}
	c.Ferrules = []catalog.Ferrule{{Item: catalog.Item{Part: "F"}, Ferrule: fitcalc.Ferrule{
		Bore: measure.Nominal(measure.Thou(368)), BaseOD: measure.Nominal(measure.Micrometres(13_200)), Length: measure.Nominal(measure.Thou(500)), Style: fitcalc.Plain,
	}}}
	shop := fitcalc.DefaultShop()
	shop.FlushStep = measure.Micrometres(60)
	r := matrix.Decide(&c, shop)
	lines := Best(r, nil)
	lines[3].Count = 2
	noted := lines[0]
	noted.Note = "for the counter"
	l := New(r, append(lines, noted), Options{})
	var got [][]string
	for _, j := range l.Joints {
		row := []string{j.FinishedRange[0]}
		for _, p := range j.Pieces() {
			row = append(row, p.Label)
		}
		got = append(got, row)
	}
	want := [][]string{
		{"12.90 to 12.96 mm", "7041-4", "7041-5", "7041-7 · 1", "7041-7 · 2", "7041-4"},
		{"13.00 to 13.06 mm", "1"},
	}
	if diff := cmp.Diff(want, got); diff != "" || l.joints != 6 || l.Joints[0].Count != 5 {
		t.Errorf("%d joints (-want +got):\n%s", l.joints, diff)
	}
	asPDF(t, l)
}

// TestHTML: what a sheet holds is text, a piece of each joint has its boxes, and nothing comes from elsewhere.
func TestHTML(t *testing.T) {
	r := telltest.Awkward(t)
	lines := Best(r, nil)
	for i := range lines {
		lines[i].Note = `<script>alert("x")</script>`
		lines[i].Count = 1 + i%3
	}
	l := New(r, lines, Options{Title: `</title><script>x`, ShopName: telltest.Hostile()[0]})
	text := asHTML(t, l)
	doc, err := html.Parse(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	pieces, boxes, scripts := 0, 0, 0
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if n.Data == "script" {
			scripts++
		}
		if slices.Contains([]string{"link", "img", "iframe", "a"}, n.Data) {
			t.Errorf("there is an element %s", n.Data)
		}
		for _, a := range n.Attr {
			switch {
			case a.Key == "class" && a.Val == "piece":
				pieces++
			case a.Key == "class" && strings.HasPrefix(a.Val, "write"):
				boxes++
			case strings.HasPrefix(a.Key, "on") || a.Key == "src" || a.Key == "href" || a.Key == "style":
				t.Errorf("there is an attribute %s", a.Key)
			}
		}
	}
	if scripts != 1 {
		t.Errorf("there are %d scripts, and one is its own", scripts)
	}
	if pieces != l.joints || boxes != 3*l.joints || l.joints < 10 {
		t.Errorf("%d pieces with %d boxes for %d joints", pieces, boxes, l.joints)
	}
	if strings.Contains(string(text), "url(") || strings.Contains(string(text), "@import") {
		t.Error("something comes from elsewhere")
	}
	for _, c := range say.English().Cautions() {
		if !strings.Contains(html.UnescapeString(string(text)), c.Text) {
			t.Errorf("the caution %q is missing", c.Title)
		}
	}
}

func TestSameBytes(t *testing.T) {
	for _, paper := range []Paper{A4, Letter} {
		first := asPDF(t, New(telltest.Awkward(t), Best(telltest.Awkward(t), nil), Options{Paper: paper}))
		second := asPDF(t, New(telltest.Awkward(t), Best(telltest.Awkward(t), nil), Options{Paper: paper}))
		if !bytes.Equal(first, second) {
			t.Errorf("%v: the same list gave other bytes", paper)
		}
	}
}

var mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)

// TestPaper: A4 lies 297 by 210 mm (ISO 216), letter 11 by 8.5 in.
func TestPaper(t *testing.T) {
	r := telltest.Small(t)
	for paper, want := range map[Paper][2]float64{A4: {297 / 25.4 * 72, 210 / 25.4 * 72}, Letter: {11 * 72, 8.5 * 72}} {
		box := mediaBox.FindSubmatch(asPDF(t, New(r, Best(r, nil), Options{Paper: paper})))
		if box == nil {
			t.Fatal("the PDF states no size")
		}
		for i, side := range want {
			if got, err := strconv.ParseFloat(string(box[i+1]), 64); err != nil || math.Abs(got-side) > 0.01 {
				t.Errorf("%v is %s, want %.2f points (%v)", paper, box[i+1], side, err)
			}
		}
	}
	var p Paper
	if err := p.UnmarshalText([]byte("LETTER")); err != nil || p != Letter {
		t.Errorf("LETTER is %v (%v)", p, err)
	}
	if err := p.UnmarshalText([]byte("A5")); err == nil {
		t.Error("A5 is taken")
	}
}

// textOf is the text of a PDF by poppler's pdftotext. On a continuous-integration machine a missing one is a failure.
func textOf(t *testing.T, pdf []byte) string {
	t.Helper()
	program, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is not installed, and CI=true: the text of the PDF cannot be checked")
		}
		t.Skip("pdftotext is not installed: the text of the PDF is checked only where poppler-utils are")
	}
	cmd := exec.Command(program, "-layout", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// squeezed leaves out the spaces and breaks that setting a text adds.
func squeezed(text string) string { return strings.Join(strings.Fields(text), "") }

// TestPDFHoldsEveryText reads the PDF back by another program.
func TestPDFHoldsEveryText(t *testing.T) {
	r := telltest.Small(t)
	l := New(r, Best(r, nil), Options{ShopName: "Lathe & Linen"})
	text := squeezed(textOf(t, asPDF(t, l)))
	want := []string{"Lathe & Linen", "Turn list", "Dust and fingers", "Page 1 of", "A fit on paper is no proof of a bond"}
	for _, j := range l.Joints {
		want = append(want, j.Ferrule, j.Finished[0], j.FinishedRange[0])
		for _, h := range j.Heads {
			want = append(want, h.Part)
		}
		if j.Turned {
			want = append(want, j.Off[0], j.PerSide[0])
		}
	}
	for _, left := range l.Left {
		want = append(want, left.Head)
	}
	for _, part := range want {
		if !strings.Contains(text, squeezed(part)) {
			t.Errorf("%q is not in the PDF", part)
		}
	}
}

// TestManyPieces: a row that is longer than a page goes on with the next, and no piece is lost.
func TestManyPieces(t *testing.T) {
	r := telltest.Small(t)
	line := BestFor(r, 0)
	line.Count = 137
	line.Note = strings.Repeat("a long note ", 300)
	pdf := asPDF(t, New(r, []Line{line}, Options{}))
	text := textOf(t, pdf)
	pages := strings.Count(text, "\f")
	if pages < 5 {
		t.Errorf("%d pages for 137 pieces", pages)
	}
	numbers := map[string]bool{}
	for _, field := range strings.Fields(text) {
		numbers[field] = true
	}
	for i := range 137 {
		if !numbers[strconv.Itoa(i+1)] {
			t.Errorf("piece %d is not there", i+1)
		}
	}
	if got := strings.Count(text, "note"); got != 300 {
		t.Errorf("%d of 300 repetitions of the note are there", got)
	}
}

func TestRuns(t *testing.T) {
	for text, want := range map[string][]run{
		"":             nil,
		"Größe Ø 7":    {{byFont, "Größe Ø 7"}},
		"Люверс Ωmega": {{byFont, "Люверс Ωmega"}},
		"软铁 4号":        {{byDots, "软铁"}, {byFont, " 4"}, {byDots, "号"}},
		"フェルール 호젤":     {{byDots, "フェルール"}, {byFont, " "}, {byDots, "호젤"}},
		"a😀b":          {{byFont, "a‹U+1F600›b"}},
		"𠮷田":           {{byFont, "‹U+20BB7›"}, {byDots, "田"}},
	} {
		got, _ := runs(text)
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(run{})); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}

var codePoint = regexp.MustCompile(`‹U\+([0-9A-F]{4,6})›`)

// TestNoLetterIsLost: from what is set, every text can be read again.
func TestNoLetterIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.ReplaceAll(clean(rapid.String().Draw(t, "text")), "‹U+", "") // not the mark itself
		all, replaced := runs(text)
		var b strings.Builder
		for _, r := range all {
			b.WriteString(r.text)
			if r.by == byDots {
				if bars, width := dots(r.text); width == 0 && len(bars) == 0 {
					t.Fatalf("%q is drawn as nothing", r.text)
				}
			}
		}
		if got := len(codePoint.FindAllString(b.String(), -1)); got != replaced {
			t.Fatalf("%d letters are replaced, and %d said to be", got, replaced)
		}
		back := codePoint.ReplaceAllStringFunc(b.String(), func(code string) string {
			n, err := strconv.ParseInt(codePoint.FindStringSubmatch(code)[1], 16, 32)
			if err != nil {
				t.Fatal(err)
			}
			return string(rune(n))
		})
		if back != text {
			t.Fatalf("%q is read again as %q", text, back)
		}
	})
}

// TestDots counts the dots of letters in the font's own picture of them.
func TestDots(t *testing.T) {
	for _, r := range "软鍛호フ田" {
		rect, mask, at, _, found := bitmapfont.Face.Glyph(fixed.P(0, dotsUp), r)
		if !found {
			t.Fatalf("%c is not in the font", r)
		}
		want := map[image.Point]bool{}
		for y := range rect.Dy() {
			for x := range rect.Dx() {
				if _, _, _, alpha := mask.At(at.X+x, at.Y+y).RGBA(); alpha > 0 {
					want[image.Pt(rect.Min.X+x, dotsUp-rect.Min.Y-y)] = true
				}
			}
		}
		got := map[image.Point]bool{}
		bars, width := dots(string(r))
		for _, b := range bars {
			for i := range b.length {
				got[image.Pt(b.x+i, b.y)] = true
			}
		}
		if diff := cmp.Diff(want, got); diff != "" || width != 12 || len(got) < 10 {
			t.Errorf("%c, %d wide (-want +got):\n%s", r, width, diff)
		}
	}
}

// TestBroken: lines fit and hold all that the text does.
func TestBroken(t *testing.T) {
	p := newPaper(&List{})
	rapid.Check(t, func(t *rapid.T) {
		letter := rapid.SampledFrom([]rune("abcWÄ. -软호フ😀 "))
		text := clean(string(rapid.SliceOfN(letter, 0, 60).Draw(t, "text")))
		room := rapid.Float64Range(14, 80).Draw(t, "room")
		h := hand{size: usual, bold: rapid.Bool().Draw(t, "bold")}
		lines := p.broken(text, h, room)
		if got := squeezed(strings.Join(lines, "")); got != squeezed(text) {
			t.Fatalf("%q became %q", text, lines)
		}
		for _, line := range lines {
			if p.widthOf(line, h) > room+1e-9 && len([]rune(line)) > 1 {
				t.Fatalf("%q is wider than %v mm", line, room)
			}
		}
	})
}

var errFull = errors.New("the disk is full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrors(t *testing.T) {
	r := telltest.Small(t)
	l := New(r, Best(r, nil), Options{})
	for name, err := range map[string]error{"HTML": l.WriteHTML(full{}), "PDF": l.WritePDF(full{}), "JSON": l.WriteJSON(full{})} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s: error %v, want %v", name, err, errFull)
		}
	}
}

func BenchmarkPDF(b *testing.B) {
	r := telltest.Large(b, 200, 60)
	l := New(r, Best(r, nil), Options{})
	for b.Loop() {
		if err := l.WritePDF(&bytes.Buffer{}); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleParseOrder() {
	order, err := ParseOrder("order.csv", []byte("head,quantity,note\nTF-610,2,for the counter\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range order.Wanted {
		fmt.Println(w.Place, w.Head, w.Count, w.Note)
	}
	// Output: order.csv, row 2 TF-610 2 for the counter
}
