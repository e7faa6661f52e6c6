package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/publish/drawing"
)

func svg(t testing.TB, s *drawing.Section, opts drawing.Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := drawing.WriteSVG(&b, s, opts); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

var titled = drawing.Options{Title: `head "7" & ferrule <T-1>`, Answer: "turn: fits after turning down"}

// element is one element of a file, with its text.
type element struct {
	name  string
	attrs map[string]string
	text  string
}

// elements reads the file as XML and fails on anything that is not well formed.
func elements(t testing.TB, file string) []element {
	t.Helper()
	var all []element
	var open []int
	decoder := xml.NewDecoder(strings.NewReader(file))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attrs: map[string]string{}}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(token)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}

func TestFileIsSelfContained(t *testing.T) {
	for _, c := range cases {
		file := svg(t, section(t, c.text), titled)
		all := elements(t, file)
		if all[0].name != "svg" || all[0].attrs["role"] != "img" || all[0].attrs["aria-labelledby"] != "title desc" {
			t.Errorf("%s: root %+v", c.name, all[0])
		}
		if all[1].name != "title" || all[1].text != titled.Title || all[2].name != "desc" || !strings.Contains(all[2].text, "Cross-section") {
			t.Errorf("%s: no title and description: %+v %+v", c.name, all[1], all[2])
		}
		ids := map[string]bool{}
		for _, e := range all {
			for name, value := range e.attrs {
				if name == "href" || strings.Contains(value, "://") && !strings.HasPrefix(value, "http://www.w3.org/2000/svg") {
					t.Errorf("%s: reference %s=%q", c.name, name, value)
				}
			}
			switch e.name {
			case "image", "script", "foreignObject", "use":
				t.Errorf("%s: element %s", c.name, e.name)
			}
			if id := e.attrs["id"]; id != "" {
				if ids[id] {
					t.Errorf("%s: id %s stands twice", c.name, id)
				}
				ids[id] = true
			}
		}
		for _, ref := range regexp.MustCompile(`url\(([^)]*)\)`).FindAllStringSubmatch(file, -1) {
			if !ids[strings.TrimPrefix(ref[1], "#")] {
				t.Errorf("%s: reference to %s, which is not in the file", c.name, ref[1])
			}
		}
		if again := svg(t, section(t, c.text), titled); again != file {
			t.Errorf("%s: the same joint gives another file", c.name)
		}
	}
}

type xy struct{ x, y float64 }

var coordinates = regexp.MustCompile(`[ML](-?[\d.]+) (-?[\d.]+)`)

func points(t testing.TB, e element) []xy {
	t.Helper()
	var all []xy
	for _, m := range coordinates.FindAllStringSubmatch(e.attrs["d"], -1) {
		x, errX := strconv.ParseFloat(m[1], 64)
		y, errY := strconv.ParseFloat(m[2], 64)
		if errX != nil || errY != nil {
			t.Fatal(errX, errY)
		}
		all = append(all, xy{x, y})
	}
	return all
}

func byID(t testing.TB, all []element, id string) []xy {
	t.Helper()
	for _, e := range all {
		if e.attrs["id"] == id {
			return points(t, e)
		}
	}
	t.Fatalf("there is no %q", id)
	return nil
}

type box struct{ left, right, top, bottom float64 }

func boxOf(lists ...[]xy) box {
	b := box{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	for _, list := range lists {
		for _, p := range list {
			b = box{min(b.left, p.x), max(b.right, p.x), min(b.top, p.y), max(b.bottom, p.y)}
		}
	}
	return b
}

func scaleOf(t testing.TB, file, before string) float64 {
	t.Helper()
	m := regexp.MustCompile(before + `(\d+):1`).FindStringSubmatch(file)
	if m == nil {
		t.Fatal("the scale is not stated")
	}
	scale, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return scale
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 0.002 { // the file holds thousandths of a mm of paper
		t.Errorf("%s is %.3f mm on paper, want %.3f", what, got, want)
	}
}

// Positions in the file are the lengths of the joint times the scale that the file states.
func TestScale(t *testing.T) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			shop := fitcalc.DefaultShop()
			line, err := joint.ParseJSON([]byte(c.text), &shop)
			if err != nil {
				t.Fatal(err)
			}
			j := line.Joint
			fit, err := fitcalc.Evaluate(j.Head, j.Tip, j.Ferrule, shop)
			if err != nil {
				t.Fatal(err)
			}
			file := svg(t, section(t, c.text), titled)
			all := elements(t, file)
			scale := scaleOf(t, file, "view ")
			mm := func(l measure.Length) float64 { return l.Millimetres() }
			hosel, base := mm(j.Head.HoselOD.Nominal()), mm(j.Ferrule.BaseOD.Nominal())

			hoselBox := boxOf(byID(t, all, "hosel-right"), byID(t, all, "hosel-left"))
			near(t, "hosel OD", hoselBox.right-hoselBox.left, hosel*scale)
			ferrule := boxOf(byID(t, all, "ferrule-right"), byID(t, all, "ferrule-left"))
			turned := base
			if fit.Verdict != fitcalc.Flush {
				turned = min(base, hosel)
			}
			near(t, "ferrule after turning", ferrule.right-ferrule.left, turned*scale)
			spigot := 0.0
			if j.Ferrule.Style != fitcalc.Plain {
				spigot = max(mm(j.Ferrule.Collar.Length.Nominal()), mm(j.Ferrule.Step.Length.Nominal()))
			}
			near(t, "ferrule with collar or step", ferrule.bottom-ferrule.top, (mm(j.Ferrule.Length.Nominal())+spigot)*scale)
			// The hosel's top and the base, apart by what the ferrule stands off.
			near(t, "stand-off", hoselBox.top-(ferrule.bottom-spigot*scale), mm(fit.Seat.StandOff.Nominal)*scale)
			if turned < base {
				off := boxOf(byID(t, all, "turned-right"), byID(t, all, "turned-left"))
				near(t, "base as supplied", off.right-off.left, base*scale)
				right := boxOf(byID(t, all, "turned-right"))
				near(t, "turned off per side", right.right-right.left, mm(fit.Flush.TurnDown.Nominal)/2*scale)
			}
			detail(t, file, all, mm(fit.Flush.Oversize.Nominal), mm(fit.Grip.Interference.Nominal))
		})
	}
}

// detail compares the two details with the step and the grip.
func detail(t *testing.T, file string, all []element, oversize, interference float64) {
	t.Helper()
	inside := false
	var dimension []xy
	for _, e := range all {
		if e.name == "g" {
			inside = e.attrs["id"] == "step"
		}
		if inside && e.attrs["class"] == "arrow" {
			dimension = append(dimension, points(t, e)[0]) // the arrow's point
		}
		if e.name == "text" && e.text == "B" {
			inside = false
		}
	}
	scale := scaleOf(t, file, `\(`)
	if oversize != 0 {
		b := boxOf(dimension[:2])
		near(t, "step per side", b.right-b.left, math.Abs(oversize)/2*scale)
	}
	if interference > 0 {
		second := regexp.MustCompile(`\((\d+):1\)`).FindAllStringSubmatch(file, -1)[1][1]
		scale, err := strconv.ParseFloat(second, 64)
		if err != nil {
			t.Fatal(err)
		}
		// Along a tip that is not parallel the detail shows a place a little below the tightest.
		b := boxOf(byID(t, all, "overlap"))
		if got, want := b.right-b.left, interference/2*scale; got > want+0.3 || got < want*0.75 {
			t.Errorf("interference per side is %.3f mm on paper, want about %.3f", got, want)
		}
	}
}

// The bore's bottom is as deep as stated where the view is not broken off, and the shaft stands on it.
func TestBore(t *testing.T) {
	file := svg(t, section(t, cases[len(cases)-1].text), titled)
	all := elements(t, file)
	scale := scaleOf(t, file, "view ")
	hosel, shaft := boxOf(byID(t, all, "hosel-right")), boxOf(byID(t, all, "shaft"))
	near(t, "bore depth", shaft.bottom-hosel.top, 8*scale)
	near(t, "shaft", shaft.right-shaft.left, 9.4*scale)
	mouth := math.Inf(1)
	for _, p := range byID(t, all, "hosel-right") {
		if math.Abs(p.y-hosel.top) < 0.001 {
			mouth = min(mouth, p.x)
		}
	}
	near(t, "countersink mouth", mouth-(shaft.left+shaft.right)/2, 11.0/2*scale)
}

// A ferrule that is known by its tip is drawn like one of which the bore is stated.
func TestFerruleByTip(t *testing.T) {
	j := joint.Joint{
		Head: fitcalc.Head{HoselOD: measure.Nominal(measure.Thou(500)), BoreDepth: measure.Nominal(measure.Inches(1)), Top: fitcalc.TopFlat},
		Tip:  fitcalc.ParallelTip(measure.Nominal(measure.Thou(370))),
		Ferrule: fitcalc.Ferrule{
			ForTip: fitcalc.TipSize{Diameter: measure.Thou(370)}, BaseOD: measure.Nominal(measure.Thou(512)), Length: measure.Nominal(measure.Thou(500)),
		},
	}
	stated := j
	stated.Ferrule.ForTip, stated.Ferrule.Bore = fitcalc.TipSize{}, measure.Nominal(measure.Thou(368))
	var drawn []string
	for _, one := range []joint.Joint{j, stated} {
		fit, err := fitcalc.Evaluate(one.Head, one.Tip, one.Ferrule, fitcalc.DefaultShop())
		if err != nil {
			t.Fatal(err)
		}
		s, err := drawing.Of(one, fit, fitcalc.DefaultShop())
		if err != nil {
			t.Fatal(err)
		}
		drawn = append(drawn, svg(t, s, titled))
	}
	if drawn[0] != drawn[1] {
		t.Error("the drawings differ")
	}
}

// A taper tip is parallel from where its cone ends: 2 in above its end at .0075 in/in, half an inch above the hosel here.
func TestEndOfTheCone(t *testing.T) {
	file := svg(t, section(t, `{"head":{"hosel_od":".535 in","bore":".358 in","bore_depth":"1.5 in","bore_form":"taper","top":"flat"},`+
		`"tip":".355 in taper .0075 in/in","ferrule":{"bore":".368 in","base_od":".545 in","length":"1 in","style":"plain"}}`), titled)
	all := elements(t, file)
	scale := scaleOf(t, file, "view ")
	hosel, shaft := boxOf(byID(t, all, "hosel-right")), boxOf(byID(t, all, "shaft"))
	near(t, "shaft", shaft.right-shaft.left, 9.398*scale)
	lowest := math.Inf(-1) // paper runs downward
	for _, p := range byID(t, all, "shaft") {
		if shaft.right-p.x < 0.001 {
			lowest = max(lowest, p.y)
		}
	}
	near(t, "end of the cone above the hosel", hosel.top-lowest, 12.7*scale)
}

// Whatever joint can be evaluated can be drawn: the file is well formed, and every place in it is a number near the paper.
func TestAnyJoint(t *testing.T) {
	number := regexp.MustCompile(`^-?[\d.]+$`)
	shop := fitcalc.DefaultShop()
	size := func(t *rapid.T, name string, least, most int64) measure.Dim {
		if least > 0 && most > 0 && rapid.IntRange(0, 2).Draw(t, name+" given") == 0 && name != "hosel" && name != "base" && name != "ferrule bore" && name != "length" {
			return measure.Dim{}
		}
		return measure.Nominal(measure.Micrometres(rapid.Int64Range(least, most).Draw(t, name)))
	}
	rapid.Check(t, func(rt *rapid.T) {
		j := joint.Joint{
			Head: fitcalc.Head{
				HoselOD: size(rt, "hosel", 9000, 16000), Bore: size(rt, "bore", 8600, 9700), BoreDepth: size(rt, "depth", 2000, 40000),
				Top: fitcalc.TopForm(rapid.IntRange(0, 4).Draw(rt, "top")), BoreForm: fitcalc.BoreForm(rapid.IntRange(0, 2).Draw(rt, "bore form")),
				Countersink: fitcalc.Countersink{Mouth: size(rt, "mouth", 8900, 11300), Depth: size(rt, "sink", 1, 12000)},
				Counterbore: fitcalc.Counterbore{Diameter: size(rt, "counterbore", 8900, 11000), Depth: size(rt, "counterbore depth", 1, 12000)},
			},
			Tip: fitcalc.ParallelTip(measure.Nominal(measure.Micrometres(rapid.Int64Range(8400, 9700).Draw(rt, "tip")))),
			Ferrule: fitcalc.Ferrule{
				Bore: size(rt, "ferrule bore", 8500, 9800), BaseOD: size(rt, "base", 9000, 16000), TopOD: size(rt, "top OD", 9900, 18000), Length: size(rt, "length", 1, 60000),
				Collar: fitcalc.Spigot{OD: size(rt, "collar", 9900, 11000), Length: size(rt, "collar length", 1, 8000)}, RingDepth: size(rt, "ring", 1, 5000),
			},
		}
		if rapid.Bool().Draw(rt, "taper") {
			j.Tip = fitcalc.TaperTip(measure.Nominal(measure.Micrometres(9017)), shop.TipTaper)
		}
		if j.Validate() != nil {
			return
		}
		fit, err := fitcalc.Evaluate(j.Head, j.Tip, j.Ferrule, shop)
		if err != nil {
			rt.Fatal(err)
		}
		s, err := drawing.Of(j, fit, shop)
		if err != nil {
			rt.Fatal(err)
		}
		for _, e := range elements(t, svg(t, s, titled)) {
			for _, name := range []string{"x", "y", "cx", "cy", "r", "width", "height"} {
				if v := strings.TrimSuffix(e.attrs[name], "mm"); v != "" && !number.MatchString(v) {
					rt.Errorf("%s %s=%q", e.name, name, v)
				}
			}
			if strings.ContainsAny(e.attrs["d"], "NI") {
				rt.Errorf("path %s", e.attrs["d"])
			}
		}
		drawing.Lines(s, fitcalc.Metric, false)
	})
}

// sizeOf is the font size of a text by its class.
var sizeOf = map[string]float64{"title": 5, "answer": 4, "note": 2.9}

// Letters of the usual sans-serif fonts are 0.5 em wide in the mean.
func textBox(t testing.TB, e element) box {
	t.Helper()
	x, errX := strconv.ParseFloat(e.attrs["x"], 64)
	y, errY := strconv.ParseFloat(e.attrs["y"], 64)
	if errX != nil || errY != nil {
		t.Fatal(errX, errY)
	}
	size := 3.4
	if s, known := sizeOf[e.attrs["class"]]; known {
		size = s
	}
	width := 0.5 * size * float64(utf8.RuneCountInString(e.text))
	left := x
	switch e.attrs["class"] {
	case "mid", "letter":
		left = x - width/2
	case "end":
		left = x - width
	}
	if e.attrs["transform"] != "" { // turned about x, y to read from the right; always centred
		return box{x - 0.75*size, x, y - width/2, y + width/2}
	}
	return box{left, left + width, y - 0.75*size, y}
}

func (b box) over(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

func TestTextsAreClearOfEachOther(t *testing.T) {
	for _, c := range cases {
		for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial, fitcalc.Fractions} {
			all := elements(t, svg(t, section(t, c.text), drawing.Options{Title: "head 7 with ferrule 9", Answer: "turn: fits after turning down", Units: units}))
			height, err := strconv.ParseFloat(strings.TrimSuffix(all[0].attrs["height"], "mm"), 64)
			if err != nil {
				t.Fatal(err)
			}
			var texts []element
			for _, e := range all {
				if e.name == "text" {
					texts = append(texts, e)
				}
			}
			for i, a := range texts {
				b := textBox(t, a)
				if b.left < 0 || b.right > 297 || b.top < 0 || b.bottom > height {
					t.Errorf("%s in %v: %q leaves the paper", c.name, units, a.text)
				}
				for _, other := range texts[:i] {
					if b.over(textBox(t, other)) {
						t.Errorf("%s in %v: %q is over %q", c.name, units, a.text, other.text)
					}
				}
			}
		}
	}
}

func TestGolden(t *testing.T) {
	for _, c := range cases {
		s := section(t, c.text)
		golden.Check(t, c.name+".svg", svg(t, s, drawing.Options{Title: c.name, Answer: "a test"}))
		golden.Check(t, c.name+".txt", strings.Join(drawing.Lines(s, fitcalc.Metric, false), "\n")+"\n")
	}
	golden.Check(t, "plain.txt", strings.Join(drawing.Lines(section(t, cases[2].text), fitcalc.Imperial, true), "\n")+"\n")
}

func TestLines(t *testing.T) {
	for _, c := range cases {
		s := section(t, c.text)
		plain, lines := drawing.Lines(s, fitcalc.Metric, true), drawing.Lines(s, fitcalc.Metric, false)
		if len(plain) != len(lines) || len(lines) > 40 {
			t.Errorf("%s: %d lines, plain %d", c.name, len(lines), len(plain))
		}
		for i, line := range plain {
			if strings.ContainsFunc(line, func(r rune) bool { return r > '~' }) {
				t.Errorf("%s: %q is not ASCII", c.name, line)
			}
			if n := utf8.RuneCountInString(lines[i]); n != len(line) || n > 100 {
				t.Errorf("%s: line %d has %d characters, plain %d", c.name, i, n, len(line))
			}
		}
	}
}

// The picture in characters has the proportions of the joint: as many columns as the hosel is wide, by what the last line says.
func TestLinesToScale(t *testing.T) {
	lines := drawing.Lines(section(t, cases[1].text), fitcalc.Metric, true)
	m := regexp.MustCompile(`one column is ([\d.]+) mm`).FindStringSubmatch(lines[len(lines)-1])
	if m == nil {
		t.Fatal("no scale")
	}
	column, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines {
		first, last := strings.Index(line, "/"), strings.LastIndex(line[:min(46, len(line))], "/")
		if first < 0 || first > 46 || strings.Contains(line, "hosel") {
			continue
		}
		if got := float64(last-first+1) * column; math.Abs(got-12.2) > 2*column {
			t.Errorf("the hosel is %.2f mm wide, want 12.2: %s", got, line)
		}
	}
}

func TestMissing(t *testing.T) {
	shop := fitcalc.DefaultShop()
	_, err := drawing.Of(joint.Joint{}, fitcalc.Fit{}, shop)
	var missing *drawing.MissingError
	if !errors.As(err, &missing) {
		t.Fatalf("error %v, want a *MissingError", err)
	}
	want := []fitcalc.Field{fitcalc.FieldHoselOD, fitcalc.FieldTip, fitcalc.FieldFerruleBore, fitcalc.FieldBaseOD, fitcalc.FieldLength}
	if diff := cmp.Diff(want, missing.Fields); diff != "" {
		t.Error(diff)
	}
}

type failing struct{}

var errDisk = errors.New("disk is full")

func (failing) Write([]byte) (int, error) { return 0, errDisk }

func TestWriteError(t *testing.T) {
	if err := drawing.WriteSVG(failing{}, section(t, cases[0].text), titled); !errors.Is(err, errDisk) {
		t.Errorf("error %v", err)
	}
}

// TestDrawnAsDecided: a ferrule of unknown style with one size of a step is decided as stepped, and is not drawn with its collar.
func TestDrawnAsDecided(t *testing.T) {
	const text = `{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"32 mm","countersink_mouth":"11 mm","countersink_angle":"60°"},` +
		`"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"13.75 mm","length":"13 mm",%s"collar_od":"10.2 mm","collar_length":".5 mm"}}`
	for step, collar := range map[string]bool{"": true, `"step_length":"2 mm",`: false, `"step_od":"10.2 mm",`: false} {
		file := svg(t, section(t, fmt.Sprintf(text, step)), titled)
		if got := strings.Contains(file, "collar Ø"); got != collar {
			t.Errorf("with %q a collar is drawn: %v, want %v", step, got, collar)
		}
	}
}
