package joint_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/internal/schematest"
	"example.com/seatline/reconcile/joint"
)

const iron = `{"id":"7-iron","head":{"category":"iron","hosel_od":".500 in ±.003","bore":".373 in","bore_depth":"1.25 in","top":"flat"},` +
	`"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":".508 in ±.002","length":"1/2 in","style":"plain"}}`

func defaults() fitcalc.Shop { return fitcalc.DefaultShop() }

func parse(t *testing.T, text string) joint.Line {
	t.Helper()
	shop := defaults()
	line, err := joint.ParseJSON([]byte(text), &shop)
	if err != nil {
		t.Fatal(err)
	}
	return line
}

func TestParseJSON(t *testing.T) {
	shop := defaults()
	got := parse(t, iron)
	want := joint.Joint{
		Head: fitcalc.Head{
			Category: fitcalc.Iron, Top: fitcalc.TopFlat,
			HoselOD:   measure.PlusMinus(measure.Thou(500), measure.Thou(3)),
			Bore:      measure.Nominal(measure.Thou(373)),
			BoreDepth: measure.Nominal(measure.Thou(1250)),
		},
		Tip: fitcalc.ParallelTip(measure.Nominal(measure.Thou(370))),
		Ferrule: fitcalc.Ferrule{
			Bore: measure.Nominal(measure.Thou(368)), BaseOD: measure.PlusMinus(measure.Thou(508), measure.Thou(2)),
			Length: measure.Nominal(measure.Thou(500)), Style: fitcalc.Plain,
		},
	}
	gotFit, err := fitcalc.Evaluate(got.Joint.Head, got.Joint.Tip, got.Joint.Ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	wantFit, err := fitcalc.Evaluate(want.Head, want.Tip, want.Ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	if got.ID != `"7-iron"` || got.Joint.Head != want.Head || got.Joint.Ferrule != want.Ferrule || gotFit != wantFit {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// Every field is read into its own place: set alone, it makes a joint that differs from that of any other field.
func TestEveryFieldIsRead(t *testing.T) {
	shop := defaults()
	texts := map[string]string{
		"category": "iron", "bore_form": "taper", "top": "flat", "countersink_angle": "60°", "tip": ".370 in parallel",
		"trim": "1 in", "style": "plain", "rings": "2", "material": "ABS",
	}
	seen := map[string]string{}
	for _, f := range joint.Fields() {
		text := texts[f.Key]
		if text == "" {
			text = "9.9 mm"
		}
		var r joint.Reader
		if err := r.Set(&f, text); err != nil {
			t.Errorf("%s: %v", f.Path(), err)
			continue
		}
		j, err := r.Joint(&shop)
		if err != nil {
			t.Errorf("%s: %v", f.Path(), err)
		}
		if f.Key == "trim" {
			continue // means nothing without a tip
		}
		key := fmt.Sprintf("%v", j)
		if other := seen[key]; other != "" {
			t.Errorf("%s and %s make the same joint", f.Path(), other)
		}
		seen[key] = f.Path()
		if d := f.Dim(&j); d != nil && d.Nominal() != measure.Micrometres(9900) {
			t.Errorf("%s: %v", f.Path(), d)
		}
		if f.Of != fitcalc.NoField && joint.PathOf(f.Of) != f.Path() {
			t.Errorf("PathOf(%v) = %q, want %q", f.Of, joint.PathOf(f.Of), f.Path())
		}
		if f.Help == "" {
			t.Errorf("%s has no help", f.Path())
		}
	}
	for _, of := range fitcalc.Fields() {
		if joint.PathOf(of) == "" {
			t.Errorf("%v cannot be said", of)
		}
	}
}

func TestTips(t *testing.T) {
	shop := defaults()
	tests := []struct {
		text string
		at   string // position above the tip end
		want string // diameter there
		form fitcalc.TipForm
	}{
		{".370 in parallel", "1 in", "9.398 mm", fitcalc.TipParallel},
		{".370 in ±.001 parallel", "1 in", "9.398 ±0.0254 mm", fitcalc.TipParallel},
		{"9.4 mm parallel", "1 in", "9.4 mm", fitcalc.TipParallel},
		// Common practice: a taper tip grows from .355 in to .370 in over two inches.
		{".355 in taper", "2 in", "9.398 mm", fitcalc.TipTapered},
		{".355 in taper .015 in/in", "1 in", "9.398 mm", fitcalc.TipTapered},
		{".355 in taper 1:100", "1 in", "9.271 mm", fitcalc.TipTapered},
		{".355 in taper 1:100 to .360 in", "1 in", "9.144 mm", fitcalc.TipTapered},
		{".355 in taper", "10 in", "9.398 mm", fitcalc.TipTapered}, // and is parallel above
		{".355 in taper to .365 in", "10 in", "9.271 mm", fitcalc.TipTapered},
		{".355 in taper .01 in/in to .372 in", "1 in", "9.271 mm", fitcalc.TipTapered},
		{".355 in taper .01 in/in to .372 in", "1.75 in", "9.4488 mm", fitcalc.TipTapered},
		{".395 in taper to 10.2 mm", "10 in", "10.2 mm", fitcalc.TipTapered},
		{"0:.335in, 1in:.350in", "0.5 in", "8.6995 ±0.0254 mm", fitcalc.TipProfiled},
		{"0: 8.5 mm; 20 mm: 8.9 mm; ±0.02 mm", "10 mm", "8.7 ±0.02 mm", fitcalc.TipProfiled},
	}
	for _, tt := range tests {
		tip, err := joint.ParseTip(tt.text, &shop)
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		at, err := measure.ParseLength(tt.at)
		if err != nil {
			t.Fatal(err)
		}
		if got := tip.Diameter(at).String(); got != tt.want || tip.Form() != tt.form {
			t.Errorf("%q at %s: %s %v, want %s %v", tt.text, tt.at, got, tip.Form(), tt.want, tt.form)
		}
	}
	for _, bad := range []string{"", ".370 in", ".370 parallel", ".355 in taper steep", ".355 in taper to", ".355 in taper to the top", ".355 in taper to .350 in", ".395 in taper", ".370 in taper .0075 in/in", "0:.335in, 1in", "1in:.335in", "0:.335in, 0:.340in", "x:1in"} {
		_, err := joint.ParseTip(bad, &shop)
		var tip *joint.TipError
		if !errors.As(err, &tip) {
			t.Errorf("%q: error %v, want a *TipError", bad, err)
		}
	}
}

// The shop says how a taper tip grows where the text does not.
func TestTaperTipOfTheShop(t *testing.T) {
	shop := defaults()
	shop.TipTaper, shop.TipTaperTo = measure.TaperPPB(10_000_000), measure.Thou(368)
	for text, want := range map[string][2]measure.Length{
		".355 in taper":                      {measure.Thou(365), measure.Thou(368)},
		".355 in taper to .372 in":           {measure.Thou(365), measure.Thou(372)},
		".355 in taper .005 in/in":           {measure.Thou(360), measure.Thou(368)},
		".355 in taper .005 in/in to .36 in": {measure.Thou(360), measure.Thou(360)},
	} {
		tip, err := joint.ParseTip(text, &shop)
		if err != nil {
			t.Fatal(err)
		}
		if one, five := tip.Diameter(measure.Inches(1)).Nominal(), tip.Diameter(measure.Inches(5)).Nominal(); one != want[0] || five != want[1] {
			t.Errorf("%q is %v an inch up and %v five", text, one, five)
		}
	}
}

func TestTrimmedTip(t *testing.T) {
	line := parse(t, `{"tip":".355 in taper .0075 in/in","trim":"1 in"}`)
	if got, want := line.Joint.Tip.Diameter(measure.Length{}).Nominal().String(), "9.2075 mm"; got != want {
		t.Errorf("diameter at the trimmed end %s, want %s", got, want)
	}
}

func TestBadJSON(t *testing.T) {
	shop := defaults()
	tests := []struct{ text, path, in string }{
		{`{"head":{"hosel_od":"0.5"}}`, "head.hosel_od", "no unit"},
		{`{"head":{"hosel_od":12.7}}`, "head.hosel_od", "12.7 has no unit"},
		{`{"head":{"hosel_od":true}}`, "head.hosel_od", "no unit"},
		{`{"head":{"hosel_od":[1]}}`, "head.hosel_od", "write readings"},
		{`{"head":{"hosel_od":"-1 mm"}}`, "head.hosel_od", "more than nothing"},
		{`{"head":{"hosel_od":"9 mm","bore":"10 mm"}}`, "head.hosel_od", "larger than the bore"},
		{`{"head":{"hosel_od":"1 in","hosel_od":"2 in"}}`, "head.hosel_od", "twice"},
		{`{"head":{},"head":{}}`, "head", "twice"},
		{`{"id":1,"id":2}`, "id", "twice"},
		{`{"id":[1]}`, "id", "string or a number"},
		{`{"head":{"hosel":"1 in"}}`, "head.hosel", "no such key"},
		{`{"shaft":1}`, "shaft", "no such key"},
		{`{"head":3}`, "head", "must be an object"},
		{`{"head":{"top":"pointed"}}`, "head.top", "none of the words"},
		{`{"head":{"category":{"nominal":"1 in"}}}`, "head.category", "must be a text"},
		{`{"head":{"hosel_od":{"lower":"1 in"}}}`, "head.hosel_od", "nominal"},
		{`{"ferrule":{"rings":-1}}`, "ferrule.rings", "whole number"},
		{`{"ferrule":{"bore":"13 mm","base_od":"12 mm"}}`, "ferrule.base_od", "larger"},
		{`{"tip":".370 in"}`, "tip", "parallel or taper"},
		{`{"tip":".370 in parallel","trim":"-1 in"}`, "tip", "trimmed"},
		{`{"head":{"hosel_od":"1 in"}`, "", "no JSON"},
		{`[]`, "", "object"},
		{`"x"`, "", "object"},
		{"{\"id\":\"\xff\"}", "", "UTF-8"},
	}
	for _, tt := range tests {
		_, err := joint.ParseJSON([]byte(tt.text), &shop)
		var at *joint.Error
		if !errors.As(err, &at) {
			t.Errorf("%s: error %v, want a *joint.Error", tt.text, err)
			continue
		}
		if at.Path != tt.path || !strings.Contains(at.Err.Error(), tt.in) {
			t.Errorf("%s: %q: %v, want %q: …%s…", tt.text, at.Path, at.Err, tt.path, tt.in)
		}
	}
}

// Escapes, white space, nulls and dimension objects are read as JSON says.
func TestUnusualJSON(t *testing.T) {
	plain := parse(t, `{"id":"a","head":{"hosel_od":"12.7 ±0.1 mm"},"tip":".370 in parallel"}`)
	for _, text := range []string{
		" { \"id\" : \"a\" ,\n\t\"head\" : { \"hosel_od\" : \"12.7 \\u00b10.1 mm\" } , \"tip\" : \".370 in parallel\" , \"ferrule\" : null } ",
		`{"i\u0064":"a","head":{"hosel_od":{"nominal":"12.7 mm","lower":"12.6 mm","upper":"12.8 mm"},"bore":null},"tip":".370 in parallel"}`,
	} {
		if got := parse(t, text); got.ID != plain.ID || got.Joint.Head != plain.Joint.Head {
			t.Errorf("%s: %+v, want %+v", text, got, plain)
		}
	}
	if got := parse(t, `{"head":{"hosel_od":{"nominal":"12.7 mm","lower":"12.6 mm","upper":"12.8 mm","shape":"uniform"}}}`); got.Joint.Head.HoselOD.Shape() != measure.Uniform {
		t.Error("the spread of a dimension object is lost")
	}
}

func answer(t *testing.T, in io.Reader, workers int) (string, joint.Count) {
	t.Helper()
	var out bytes.Buffer
	count, err := joint.Answer(in, &out, joint.Options{Shop: defaults(), Workers: workers})
	if err != nil {
		t.Fatal(err)
	}
	return out.String(), count
}

// A bad line gets its answer and does not stop the others; blank lines count as lines.
func TestBadLinesDoNotStopTheOthers(t *testing.T) {
	in := iron + "\n\n{\"id\":2,\"head\":{\"bore\":\"9.5\"}}\n{broken\n" + strings.Replace(iron, "7-iron", "8-iron", 1)
	got, count := answer(t, strings.NewReader(in), 2)
	type line struct {
		Line    int
		ID      any
		Verdict string
		Error   *struct {
			Field, Message string
			Line           int
		}
	}
	var lines []line
	for text := range strings.Lines(got) {
		var l line
		if err := json.Unmarshal([]byte(text), &l); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		lines = append(lines, l)
	}
	if len(lines) != 4 || count != (joint.Count{Answered: 4, Errors: 2}) {
		t.Fatalf("%d lines, %+v:\n%s", len(lines), count, got)
	}
	if l := lines[0]; l.Line != 1 || l.ID != "7-iron" || l.Verdict != "turn" || l.Error != nil {
		t.Errorf("line 1: %+v", l)
	}
	if l := lines[1]; l.Line != 3 || l.ID != 2.0 || l.Error == nil || l.Error.Field != "head.bore" || l.Error.Line != 3 || !strings.Contains(l.Error.Message, "no unit") {
		t.Errorf("line 3: %+v", l)
	}
	if l := lines[2]; l.Line != 4 || l.Error == nil || l.Error.Field != "" {
		t.Errorf("line 4: %+v", l)
	}
	if l := lines[3]; l.Line != 5 || l.ID != "8-iron" || l.Verdict != "turn" {
		t.Errorf("line 5: %+v", l)
	}
}

// One object may stand on several lines; bad beginnings are not mistaken for one.
func TestSingleObject(t *testing.T) {
	one, _ := answer(t, strings.NewReader(iron), 1)
	var pretty bytes.Buffer
	if err := json.Indent(&pretty, []byte(iron), "", "  "); err != nil {
		t.Fatal(err)
	}
	for _, in := range []string{iron + "\n", pretty.String(), pretty.String() + "\n\n"} {
		if got, _ := answer(t, strings.NewReader(in), 1); got != one {
			t.Errorf("%q:\n%s, want\n%s", in, got, one)
		}
	}
	got, count := answer(t, strings.NewReader("{\"id\":1,\n"+iron), 1)
	if count != (joint.Count{Answered: 2, Errors: 1}) || !strings.Contains(got, `"line":2,"id":"7-iron","verdict":"turn"`) {
		t.Errorf("%+v\n%s", count, got)
	}
	for _, empty := range []string{"", "\n", "  \n\n "} {
		if got, count := answer(t, strings.NewReader(empty), 1); got != "" || count.Answered != 0 {
			t.Errorf("%q: %q", empty, got)
		}
	}
}

func TestLongLine(t *testing.T) {
	long := `{"id":"` + strings.Repeat("x", 1<<20) + `"}`
	got, count := answer(t, strings.NewReader(iron+"\n"+long+"\n"+iron+"\n"), 2)
	lines := strings.Split(strings.TrimSpace(got), "\n")
	if len(lines) != 3 || count.Errors != 1 || !strings.Contains(lines[1], "longer than 1 MiB") || !strings.Contains(lines[2], `"line":3`) {
		t.Fatalf("%+v %d lines", count, len(lines))
	}
}

// However the input arrives and however many work on it, the answers are the same and in order.
func TestOrderIsKept(t *testing.T) {
	var in strings.Builder
	for i := range 1000 {
		text := strings.Replace(iron, `"7-iron"`, fmt.Sprint(i), 1)
		if i%7 == 3 {
			text = fmt.Sprintf(`{"id":%d,"tip":3}`, i)
		}
		in.WriteString(text + "\n")
	}
	want, count := answer(t, strings.NewReader(in.String()), 1)
	if count.Answered != 1000 || count.Errors != 143 {
		t.Fatalf("%+v", count)
	}
	for i, text := range slices.Collect(strings.Lines(want)) {
		if !strings.HasPrefix(text, fmt.Sprintf(`{"line":%d,"id":%d,`, i+1, i)) {
			t.Fatalf("line %d: %s", i, text)
		}
	}
	for name, reader := range map[string]io.Reader{
		"at once": strings.NewReader(in.String()),
		"halves":  iotest.HalfReader(strings.NewReader(in.String())),
		"bytes":   iotest.OneByteReader(strings.NewReader(in.String())),
	} {
		if got, _ := answer(t, reader, 4); got != want {
			t.Errorf("%s: other answers", name)
		}
	}
}

// A program may ask line by line, and is answered before it asks on.
func TestAnswersAreNotHeldBack(t *testing.T) {
	questionsOut, questions := io.Pipe()
	answers, answersIn := io.Pipe()
	done := make(chan error, 1)
	go func() {
		_, err := joint.Answer(questionsOut, answersIn, joint.Options{Shop: defaults(), Workers: 2})
		done <- err
	}()
	buf := make([]byte, 1<<16)
	for i := range 3 {
		if _, err := io.WriteString(questions, iron+"\n"); err != nil {
			t.Fatal(err)
		}
		n, err := answers.Read(buf)
		if err != nil || !strings.HasPrefix(string(buf[:n]), fmt.Sprintf(`{"line":%d,`, i+1)) {
			t.Fatalf("answer %d: %q, %v", i, buf[:n], err)
		}
	}
	if err := questions.Close(); err != nil {
		t.Fatal(err)
	}
	if err := <-done; err != nil {
		t.Fatal(err)
	}
}

var errDisk = errors.New("disk is full")

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errDisk }

func TestErrorsOfTheStreams(t *testing.T) {
	many := strings.Repeat(iron+"\n", 5000)
	if _, err := joint.Answer(strings.NewReader(many), failing{}, joint.Options{Shop: defaults()}); !errors.Is(err, errDisk) {
		t.Errorf("writing: %v", err)
	}
	broken := io.MultiReader(strings.NewReader(iron+"\n"), iotest.ErrReader(errDisk))
	if _, err := joint.Answer(broken, io.Discard, joint.Options{Shop: defaults()}); !errors.Is(err, errDisk) {
		t.Errorf("reading: %v", err)
	}
	var setting *fitcalc.SettingError
	if _, err := joint.Answer(strings.NewReader(iron), io.Discard, joint.Options{}); !errors.As(err, &setting) {
		t.Errorf("no shop: %v", err)
	}
}

func TestAnswersMeetTheSchema(t *testing.T) {
	questions, answers := schematest.Compile(t, joint.Schema()), schematest.Compile(t, joint.AnswerSchema())
	for _, text := range []string{
		iron,
		`{}`,
		`{"id":3}`,
		`{"head":{"top":"rounded","hosel_od":"1/2 in"}}`,
		`{"head":{"hosel_od":{"nominal":"12.7 mm","lower":"12.6 mm","upper":"12.8 mm","shape":"uniform"}},"ferrule":{"base_od":"12.9 h9"}}`,
		`{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"30 mm","counterbore":"10.5 mm","counterbore_depth":"3 mm"},"tip":".355 in taper","ferrule":{"bore":".368 in","base_od":".540 in","length":"1 in","step_od":"10.2 mm","step_length":"2 mm","rings":2,"ring_depth":"0.2 mm"}}`,
		`{"head":{"hosel_od":"nothing"}}`,
		`{"head":{"hosel_od":"136 mm"},"ferrule":{"base_od":"5 mm"}}`,
	} {
		got, _ := answer(t, strings.NewReader(text), 1)
		schematest.Check(t, text, questions, []byte(text))
		schematest.Check(t, got, answers, []byte(got))
	}
	if err := questions.Validate(map[string]any{"head": map[string]any{"hosel": "1 in"}}); err == nil {
		t.Error("the schema takes a key that does not exist")
	}
	if err := answers.Validate(map[string]any{"line": 1.0}); err == nil {
		t.Error("the schema takes an answer that says nothing")
	}
}

// The schema of questions has exactly the keys that are read.
func TestSchemaHasEveryKey(t *testing.T) {
	var schema struct {
		Properties map[string]struct {
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(joint.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	var got, want []string
	for key, p := range schema.Properties {
		for inner := range p.Properties {
			got = append(got, key+"."+inner)
		}
		if len(p.Properties) == 0 && key != "id" {
			got = append(got, key)
		}
	}
	for _, f := range joint.Fields() {
		want = append(want, f.Path())
	}
	slices.Sort(got)
	slices.Sort(want)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A size that no golf club has is questioned beside the answer.
func TestDoubtsAreAnswered(t *testing.T) {
	got, _ := answer(t, strings.NewReader(`{"head":{"hosel_od":"136 mm"},"ferrule":{"base_od":"13.6 mm"}}`), 1)
	if want := `"doubts":[{"field":"head.hosel_od","size":"136 mm","likely":"13.6 mm"}]`; !strings.Contains(got, want) {
		t.Errorf("%s lacks %s", got, want)
	}
}

// Numbers are those of the engine, rounded to the last decimal.
func TestNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := measure.Picometres(rapid.Int64Range(-5_000_000_000, 5_000_000_000).Draw(t, "pm"))
		fit := fitcalc.Fit{Bore: fitcalc.BoreFit{Known: true, Clearance: fitcalc.Amount{Nominal: amount, Least: amount, Most: amount}},
			Flush: fitcalc.FlushFit{Known: true, TurnDown: fitcalc.Amount{Nominal: amount}}}
		var got struct {
			Clearance struct{ Nominal json.Number } `json:"bore_clearance_limits_mm"`
			TurnDown  struct{ Nominal json.Number } `json:"turn_down_in"`
		}
		if err := json.Unmarshal(joint.AppendAnswer(nil, 1, "", &fit, nil, nil, nil, fitcalc.Metric), &got); err != nil {
			t.Fatal(err)
		}
		mm, _ := amount.FormatMillimetres(4)
		in, _ := amount.FormatInches(6)
		if want := plain(mm); got.Clearance.Nominal.String() != want {
			t.Errorf("%v: %s mm, want %s", amount, got.Clearance.Nominal, want)
		}
		if want := plain(in); got.TurnDown.Nominal.String() != want {
			t.Errorf("%v: %s in, want %s", amount, got.TurnDown.Nominal, want)
		}
	})
}

func plain(text string) string {
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

func FuzzParseJSON(f *testing.F) {
	for _, seed := range []string{iron, "{}", `{"id":1}`, `{"head":{"hosel_od":{"nominal":"1 in"}}}`, `{"a":[{"b":"\""}]}`, "[]", "{"} {
		f.Add([]byte(seed))
	}
	schema := schematest.Compile(f, joint.AnswerSchema())
	f.Fuzz(func(t *testing.T, text []byte) {
		if bytes.ContainsAny(text, "\n") {
			return
		}
		got, count := answer(t, bytes.NewReader(text), 1)
		if count.Answered == 0 {
			return
		}
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(got))
		if err != nil {
			t.Fatalf("%q answers %q: %v", text, got, err)
		}
		if err := schema.Validate(value); err != nil {
			t.Errorf("%q answers %q: %v", text, got, err)
		}
	})
}

// FuzzLines answers whole files of joints: each line that is not blank has one answer, in order, by one worker and by several.
func FuzzLines(f *testing.F) {
	f.Add([]byte(iron + "\n\n{}\n{broken\n" + iron))
	f.Add([]byte("[\n" + iron + ",\n{}]"))
	f.Add([]byte("\xef\xbb\xbf" + iron + "\r\n\x00\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > 1<<14 {
			return
		}
		one, count := answer(t, bytes.NewReader(text), 1)
		several, _ := answer(t, bytes.NewReader(text), 3)
		if one != several {
			t.Errorf("%q has the answers %q by one worker and %q by three", text, one, several)
		}
		if lines := strings.Count(one, "\n"); lines != count.Answered {
			t.Errorf("%q has %d lines of answers, and %d were counted", text, lines, count.Answered)
		}
	})
}

// questions are joints of real sizes, no two alike.
func questions(n int) []byte {
	var b bytes.Buffer
	for i := range n {
		fmt.Fprintf(&b, `{"id":%d,"head":{"category":"iron","hosel_od":"%d.%02d ±0.08 mm","bore":".373 in","bore_depth":"1.25 in","top":"flat"},`+
			`"tip":".3%d in parallel","ferrule":{"bore":".36%d in ±.001","base_od":".5%02d in ±.002","length":"%d/16 in","style":"plain"}}`+"\n",
			i, 12+i%3, i%100, 70+i%2, 7+i%3, i/3%50, 5+i%11)
	}
	return b.Bytes()
}

// BenchmarkAnswer reports how many joints are read, decided and written in a second.
func BenchmarkAnswer(b *testing.B) {
	const n = 20_000
	in := questions(n)
	b.SetBytes(int64(len(in)))
	b.ReportAllocs()
	for b.Loop() {
		count, err := joint.Answer(bytes.NewReader(in), io.Discard, joint.Options{Shop: defaults()})
		if err != nil || count.Errors > 0 {
			b.Fatal(count, err)
		}
	}
	b.ReportMetric(n*float64(b.N)/b.Elapsed().Seconds(), "joints/s")
}

func BenchmarkParseJSON(b *testing.B) {
	shop := defaults()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := joint.ParseJSON([]byte(iron), &shop); err != nil {
			b.Fatal(err)
		}
	}
}
