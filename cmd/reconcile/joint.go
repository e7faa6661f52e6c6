package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
	"example.com/seatline/reconcile/explain"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/drawing"
	"example.com/seatline/reconcile/samples"
)

// answerFlags are the flags of the commands that explain a joint.
type answerFlags struct {
	calipers            caliperFlags
	shop, drawing       string
	units               fitcalc.Units
	language            languageFlags // of joint; why has that of catalogueFlags
	plain, json, strict bool
	how                 bool // the whole derivation
	material            string
	inside              measure.Length
	friction            float64
}

func (f *answerFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.drawing, "drawing", "", "also write the cross-section to this file, as SVG")
	flags.BoolVar(&f.how, "how", false, "show how the answer comes about, with every formula and the cautions")
	flags.BoolVar(&f.plain, "plain", false, "write ASCII only; taken for granted where the locale is not UTF-8")
	flags.StringVar(&f.material, "shaft-material", "", "what the shaft is made of, such as steel or CFRP, for the press fit")
	flags.TextVar(&f.inside, "shaft-inside", measure.Length{}, "inside diameter of the shaft, for the press fit")
	flags.Lookup("shaft-inside").DefValue = ""
	flags.Float64Var(&f.friction, "friction", 0, "coefficient of friction between ferrule and shaft, for the push-on force")
	flags.Lookup("friction").DefValue = "0" // none is known, and none is shown
}

// addOwn adds the flags that commands with catalogues have from catalogueFlags.
func (f *answerFlags) addOwn(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.shop, "shop", "", "the shop's limits, a TOML file")
	flags.TextVar(&f.units, "units", fitcalc.Metric, "mm, in or frac: how the reader prefers lengths")
	flags.BoolVar(&f.json, "json", false, "print the answer as JSON; without a joint in the flags, answer those on standard input")
	flags.BoolVar(&f.strict, "strict", false, "exit with status 3 when a joint cannot be read or decided")
}

func (f *answerFlags) shaft() (explain.Shaft, error) {
	if f.friction < 0 || f.inside.Sign() < 0 {
		return explain.Shaft{}, usagef("--friction and --shaft-inside cannot be less than nothing")
	}
	if f.material != "" {
		if _, err := press.MaterialByName(f.material); err != nil {
			return explain.Shaft{}, usagef("--shaft-material: %w", err)
		}
	}
	return explain.Shaft{Material: f.material, Inside: f.inside, Friction: f.friction}, nil
}

func newJoint(s streams) *cobra.Command {
	var f answerFlags
	fields := joint.Fields()
	texts := make([]string, len(fields))
	cmd := &cobra.Command{
		Use:   "joint --hosel-od SIZE --tip TIP --ferrule-bore SIZE --base-od SIZE ...",
		Short: "decide one joint: what to turn to, what to do first, what is uncertain",
		Long: `joint decides one head, tip and ferrule and says in a few lines what to do. --how shows how it comes about: every formula
with its numbers in both units, for which hosels it holds, what would change it, the cautions, and a cross-section. On a
terminal and without sizes it asks for them, one at a time.

A size may have limits: ".500 in ±.003", "13.6 +0/-0.1 mm", "12 h9". A number without a unit is taken for inches below 2 and
for millimetres above 5, that of a small feature, such as the length of a collar, for the unit in which there are such; in doubt
--units decides, and what was taken is said. What is not given is not guessed at; the answer says where it is needed. A
ferrule of which only the tip it is for is known has the bore of one made for that tip.

A size may be readings of the very piece on the bench, two or more: "13.58, 13.62, 13.60 mm" or "13,58; 13,62 mm". Their mean
with its uncertainty and that of the calipers then takes the place of the tolerance that is allowed for otherwise.

With --json and no size in the flags, joints are read from standard input, a JSON object or one on each line, and
each is answered on a line. A line that cannot be read is answered with an error and does not stop the others.`,
		Example: `  reconcile joint
  reconcile joint --hosel-od 13.6 --tip .370 --ferrule-bore .368 --base-od 13.9
  reconcile joint --how --hosel-od ".500 in ±.003" --bore ".373 in" --bore-depth "1.25 in" --top flat --tip ".370 in parallel" \
    --ferrule-bore ".368 in" --base-od ".508 in" --length "1/2 in" --drawing joint.svg
  reconcile joint --hosel-od "13.6 mm" --tip ".370 in parallel" --ferrule-tip .370 --base-od "13.7 mm" --length "25 mm"
  reconcile joint --hosel-od "13.58, 13.62, 13.60 mm" --tip ".370 in parallel" --ferrule-bore ".368 in" --base-od "13.9 mm"
  echo '{"head":{"hosel_od":"12.7 mm"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"12.9 mm"}}' | reconcile joint --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return usagef("which size is %q? Write it behind its flag, such as --hosel-od %[1]s; reconcile joint alone asks for them", args[0])
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := f.calipers.check(); err != nil {
				return err
			}
			given := false
			for i := range fields {
				given = given || cmd.Flags().Changed(flagOf(&fields[i]))
			}
			unit := ""
			if cmd.Flags().Changed("units") {
				unit = joint.DoubtBy(f.units)
			}
			switch {
			case given:
				return s.joint(&f, fields, texts, unit)
			case !f.json && s.asks():
				return s.askJoint(&f, unit)
			case f.json && f.drawing == "":
				return s.joints(&f)
			case f.json:
				return usagef("--drawing draws one joint; give its sizes in flags")
			}
			return usagef("joint needs sizes, such as --hosel-od 13.6 --tip .370 --ferrule-bore .368 --base-od 13.9; on a terminal it asks for them, and --json reads joints from standard input")
		},
	}
	for i := range fields {
		cmd.Flags().StringVar(&texts[i], flagOf(&fields[i]), "", fields[i].Help)
	}
	f.addOwn(cmd)
	f.calipers.add(cmd)
	f.language.add(cmd)
	f.add(cmd)
	return cmd
}

// flagOf returns the flag of a field. Head and ferrule both have a bore, and tips.
func flagOf(f *joint.Field) string {
	name := f.Key
	switch {
	case f.Of == fitcalc.FieldForTip:
		name = "ferrule_tip"
	case f.Part == joint.OfFerrule && slices.ContainsFunc(fitcalc.FieldsOf(fitcalc.OfHead), func(of fitcalc.Field) bool { return of.Key() == name }):
		name = f.Of.Code() // which is its own
	}
	return strings.ReplaceAll(name, "_", "-")
}

// joints answers joints on standard input.
func (s streams) joints(f *answerFlags) error {
	shop, err := loadSettings(f.shop)
	if err != nil {
		return err
	}
	language, _, err := f.language.read()
	if err != nil {
		return err
	}
	count, err := joint.Answer(s.in, s.out, joint.Options{Shop: shop.Shop, Units: f.units, Language: language, Calipers: f.calipers.caliper()})
	if err != nil {
		return err
	}
	if count.Errors > 0 {
		s.say("%d of %d joints could not be read; their answers say why", count.Errors, count.Answered)
	}
	if f.strict && count.Errors+count.Undecided > 0 {
		return errStrict
	}
	return nil
}

// joint explains the joint of the flags.
func (s streams) joint(f *answerFlags, fields []joint.Field, texts []string, doubt string) error {
	subject, took, inputs, err := f.subject(fields, texts, doubt)
	if err != nil {
		return err
	}
	return s.explain(f, []explain.Subject{subject}, took, inputs)
}

// subject is the joint that texts say, with what was taken for granted in reading them, and the files that were read for it.
func (f *answerFlags) subject(fields []joint.Field, texts []string, doubt string) (subject explain.Subject, took, inputs []string, err error) {
	shop, err := loadSettings(f.shop)
	if err != nil {
		return subject, nil, nil, err
	}
	shaft, err := f.shaft()
	if err != nil {
		return subject, nil, nil, err
	}
	reader := joint.Reader{Calipers: f.calipers.caliper()}
	for i := range fields {
		if texts[i] == "" {
			continue
		}
		full, taken := fields[i].WithUnit(texts[i], doubt)
		if taken != "" {
			took = append(took, nameOf(&fields[i])+" "+taken)
		}
		if fields[i].NeedsUnit(texts[i], doubt) {
			return subject, nil, nil, &usageError{&flagValueError{flagOf(&fields[i]), fmt.Errorf("%q may be millimetres or inches here: write mm or in behind it, or give --units", strings.TrimSpace(texts[i]))}}
		}
		if err := reader.Set(&fields[i], full); err != nil {
			return subject, nil, nil, &usageError{inFlag(err)}
		}
	}
	j, err := reader.Joint(&shop.Shop)
	if err != nil {
		var tip *joint.TipError
		if errors.As(err, &tip) {
			return subject, nil, nil, &usageError{inFlag(err)}
		}
		return subject, nil, nil, inFlag(err)
	}
	language, words, err := f.language.read()
	if err != nil {
		return subject, nil, nil, err
	}
	subject = explain.Subject{Joint: j, Shaft: shaft, Shop: shop, Units: f.units, Language: language}
	for i := range fields {
		if texts[i] != "" {
			subject.Inputs = append(subject.Inputs, givenInput(&fields[i], &j, texts[i], f.units))
		}
	}
	inputs = words
	if f.shop != "" {
		inputs = append(inputs, f.shop)
	}
	return subject, took, inputs, nil
}

// flagValueError is what a flag, or the question that stands for it, was given and cannot be read.
type flagValueError struct {
	flag string
	err  error
}

func (e *flagValueError) Error() string { return fmt.Sprintf("--%s: %v", e.flag, e.err) }
func (e *flagValueError) Unwrap() error { return e.err }

// inFlag names the flag in place of the field.
func inFlag(err error) error {
	var at *joint.Error
	if !errors.As(err, &at) {
		return err
	}
	for _, f := range joint.Fields() {
		if f.Path() == at.Path {
			return &flagValueError{flagOf(&f), at.Err}
		}
	}
	return err
}

func givenInput(f *joint.Field, j *joint.Joint, text string, units fitcalc.Units) explain.Input {
	in := explain.Input{Name: nameOf(f), Value: text, Kind: explain.Given, Place: "--" + flagOf(f)}
	if d := f.Dim(j); d != nil {
		in.Value, in.Why = explain.ShowDim(*d, units), "“"+text+"”"
	}
	for _, m := range j.Measured {
		if m.Field == f.Of {
			in.Kind, in.Why = explain.Measured, "“"+text+"”; "+samples.Sentence(m.Size, units)
		}
	}
	return in
}

// nameOf is what a person calls a field; a form is called by its key, as those are that the engine has no field for.
func nameOf(f *joint.Field) string {
	if f.Of != fitcalc.NoField && f.Of.Kind() != fitcalc.KindForm {
		return f.Of.String()
	}
	return strings.ReplaceAll(f.Key, "_", " ")
}

// explain prints the answers, and writes the drawing of the first.
func (s streams) explain(f *answerFlags, subjects []explain.Subject, took, inputs []string) error {
	undecided := false
	var documents []explain.Document
	for i := range subjects {
		e, err := explain.Of(subjects[i])
		if err != nil {
			return err
		}
		undecided = undecided || e.Fit.Verdict == fitcalc.Ask
		if f.json {
			var texts []string
			for _, c := range cautionsFor(e) {
				texts = append(texts, c[1])
			}
			documents = append(documents, explain.JSON(e, texts))
		} else if err := s.writeAnswer(f, &subjects[i], e, took, i > 0); err != nil {
			return err
		}
		if f.drawing != "" {
			if err := s.writeDrawing(numbered(f.drawing, i), &subjects[i], e, inputs); err != nil {
				return err
			}
		}
	}
	if f.json {
		if err := writeDocuments(s.out, documents); err != nil {
			return err
		}
	}
	if f.strict && undecided {
		return errStrict
	}
	return nil
}

// numbered keeps the drawings of several joints apart: joint.svg, joint-2.svg.
func numbered(path string, i int) string {
	if i == 0 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ext), i+1, ext)
}

func writeDocuments(w io.Writer, documents []explain.Document) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	for i := range documents {
		if err := encoder.Encode(documents[i]); err != nil {
			return err
		}
	}
	return nil
}

// writeAnswer writes the answer for a person, in a few lines or with how it comes about.
func (s streams) writeAnswer(f *answerFlags, subject *explain.Subject, e *explain.Explanation, took []string, another bool) error {
	if f.how {
		return s.writeExplanation(f, subject, e, another)
	}
	out := &strings.Builder{}
	if another {
		fmt.Fprintln(out)
	}
	if err := explain.WriteShort(out, e, took); err != nil {
		return err
	}
	fmt.Fprintln(out, "--how shows how, with the cautions; --drawing joint.svg draws it.")
	text := out.String()
	if f.plain || !utf8Locale(os.Getenv) {
		text = inASCII(text)
	}
	_, err := io.WriteString(s.out, text)
	return err
}

// writeExplanation writes for a person; another one before it is parted by a line.
func (s streams) writeExplanation(f *answerFlags, subject *explain.Subject, e *explain.Explanation, another bool) error {
	plain := f.plain || !utf8Locale(os.Getenv)
	var picture []string
	section, err := drawing.Of(subject.Joint, e.Fit, subject.Shop.Shop)
	var missing *drawing.MissingError
	switch {
	case errors.As(err, &missing):
		picture = []string{"the joint " + missing.Error()}
	case err != nil:
		return err
	default:
		picture = drawing.Lines(section, f.units, plain)
	}
	out := &strings.Builder{}
	if another {
		fmt.Fprintf(out, "\n%s\n\n", strings.Repeat("─", 60))
	}
	if err := explain.WriteText(out, e, explain.TextOptions{Cautions: cautionsFor(e), Drawing: picture}); err != nil {
		return err
	}
	text := out.String()
	if plain {
		text = inASCII(text)
	}
	_, err = io.WriteString(s.out, text)
	return err
}

// utf8Locale reports whether the locale's characters are UTF-8: by the first of the variables that POSIX looks at.
func utf8Locale(getenv func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if value := getenv(name); value != "" {
			value = strings.ToUpper(value)
			return strings.Contains(value, "UTF-8") || strings.Contains(value, "UTF8")
		}
	}
	return false
}

var asciiOf = strings.NewReplacer(
	"−", "-", "–", "-", "—", "-", "×", "x", "±", "+/-", "°", " deg", "Ø", "dia ", "π", "pi", "δ", "delta", "ν", "nu", "µ", "mu", "α", "alpha",
	"∫", "integral of ", "Δ", "d", "²", "2", "³", "3", "•", "*", "“", `"`, "”", `"`, "’", "'", "─", "-", "→", "->", "½", "1/2",
)

// inASCII writes text in ASCII; letters without a spelling there become a question mark.
func inASCII(text string) string {
	return strings.Map(func(r rune) rune {
		if r > '~' {
			return '?'
		}
		return r
	}, asciiOf.Replace(text))
}

// cautionsFor are the cautions that apply: those of turning only where something is turned or cut.
func cautionsFor(e *explain.Explanation) [][2]string {
	var cautions [][2]string
	for _, c := range e.Language.Cautions() {
		bench := c.Of == fitcalc.CautionDust || c.Of == fitcalc.CautionSolvent
		if bench && !e.Turning {
			continue
		}
		cautions = append(cautions, [2]string{c.Title, c.Text})
	}
	if e.Heat {
		cautions = append(cautions, [2]string{"Warming", press.HeatCaution})
	}
	return cautions
}

func (s streams) writeDrawing(path string, subject *explain.Subject, e *explain.Explanation, inputs []string) error {
	section, err := drawing.Of(subject.Joint, e.Fit, subject.Shop.Shop)
	if err != nil {
		return fmt.Errorf("no drawing: the joint %w", err)
	}
	_, err = s.writeAll(filepath.Dir(path), []publish.Output{{Name: filepath.Base(path), Write: func(w io.Writer) error {
		return drawing.WriteSVG(w, section, drawing.Options{
			Title: subject.Title, Answer: e.Language.Verdict(e.Fit.Verdict) + ": " + e.Meaning, Units: subject.Units,
		})
	}}}, inputs)
	return err
}
