package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/explain"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/near"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/settings"
)

// wanted is a part that a person asks for.
type wanted struct {
	part string
	// from is the file or supplier, where several have a part of the number.
	from string
	all  bool
}

func newWhy(s streams) *cobra.Command {
	var f catalogueFlags
	var a answerFlags
	var head, ferrule wanted
	var all bool
	cmd := &cobra.Command{
		Use:   "why --heads FILE... --ferrules FILE... [--tips FILE...] [--measured FILE...] [--shop shop.toml] [--map FILE] --head PART --ferrule PART",
		Short: "explain one pair of a catalogue: what to do, and the cells that it rests on",
		Long: `why explains the verdict on one head and one ferrule of the catalogues in a few lines: what to do, what is uncertain, and
which sizes from which cells it rests on. --how shows how it comes about: every number with the file, sheet and cell or the
setting or default it came from, every formula with its numbers in both units, for which hosels it holds, what would change
it, the cautions, and a cross-section.`,
		Example: `  reconcile why --heads irons.xlsx --ferrules trim.csv --head 7041-I --ferrule T-370-505
  reconcile why --how --heads irons.xlsx --ferrules trim.csv --head 7041-I --ferrule T-370-505
  reconcile why --heads irons.xlsx woods.csv --ferrules trim.csv --head 7041 --head-file woods.csv --ferrule T-370 --drawing pair.svg`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needs(cmd, "heads", "ferrules", "head", "ferrule"); err != nil {
				return err
			}
			head.all, ferrule.all = all, all
			a.shop, a.units, a.json, a.strict = f.shop, f.units, f.json, f.strict
			return s.why(f, &a, head, ferrule)
		},
	}
	f.add(cmd)
	f.addMeasured(cmd)
	f.language.add(cmd)
	a.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&head.part, "head", "", "part number of the head")
	flags.StringVar(&ferrule.part, "ferrule", "", "part number of the ferrule")
	flags.StringVar(&head.from, "head-file", "", "file or supplier of the head, where several have a part of that number")
	flags.StringVar(&ferrule.from, "ferrule-file", "", "file or supplier of the ferrule, where several have a part of that number")
	flags.BoolVar(&all, "all", false, "explain all parts of that number")
	flags.Lookup("json").Usage = "print the explanation as JSON to standard output"
	flags.Lookup("strict").Usage = "exit with status 3 when the pair cannot be decided"
	return cmd
}

func (s streams) why(f catalogueFlags, a *answerFlags, head, ferrule wanted) error {
	shaft, err := a.shaft()
	if err != nil {
		return err
	}
	d, err := s.decide(f)
	if err != nil {
		return err
	}
	result := d.result
	heads, err := find("head", result.Catalogue.Heads, func(h *catalog.Head) *catalog.Item { return &h.Item }, head)
	if err != nil {
		return err
	}
	ferrules, err := find("ferrule", result.Catalogue.Ferrules, func(f *catalog.Ferrule) *catalog.Item { return &f.Item }, ferrule)
	if err != nil {
		return err
	}
	var subjects []explain.Subject
	for _, h := range heads {
		for _, f := range ferrules {
			subject := subjectOf(result, h, f, d.publishing.Settings, a.units)
			subject.Shaft, subject.Language = shaft, d.publishing.Language
			subjects = append(subjects, subject)
		}
	}
	return s.explain(a, subjects, nil, d.inputs)
}

// partError is a part number that no part has, or several.
type partError struct {
	kind, part string
	// near are numbers like it where no part has it; places are those of the parts where several have.
	near, places []string
}

func (e *partError) Error() string {
	if len(e.places) > 0 {
		return errors.Join(e.Unwrap()...).Error()
	}
	text := fmt.Sprintf("there is no %s %q in the sheets", e.kind, e.part)
	if len(e.near) > 0 {
		return text + "; near it are " + strings.Join(e.near, ", ")
	}
	return text + "; reconcile read shows which parts there are"
}

// Unwrap returns a line for each part where several have the number.
func (e *partError) Unwrap() []error {
	if len(e.places) == 0 {
		return nil
	}
	lines := []error{fmt.Errorf("several %ss are called %q", e.kind, e.part)}
	for _, place := range e.places {
		lines = append(lines, errors.New("  "+place))
	}
	return append(lines, fmt.Errorf("name the file or supplier with --%s-file, or ask for all with --all", e.kind))
}

// find returns the indexes of the parts of a number: one, or all where all are wanted.
func find[T any](kind string, parts []T, item func(*T) *catalog.Item, w wanted) ([]int, error) {
	var exact, alike []int
	for i := range parts {
		it := item(&parts[i])
		if !isFrom(it, w.from) {
			continue
		}
		switch {
		case it.Part == w.part:
			exact = append(exact, i)
		case near.Plain(it.Part) == near.Plain(w.part):
			alike = append(alike, i)
		}
	}
	found := exact
	if len(found) == 0 {
		found = alike
	}
	if len(found) == 0 {
		var known []string
		for i := range parts {
			known = append(known, phrase.Brief(item(&parts[i]).Part))
		}
		return nil, &partError{kind: kind, part: w.part, near: near.Parts(w.part, known)}
	}
	if len(found) > 1 && !w.all {
		var places []string
		for _, i := range found {
			it := item(&parts[i])
			place := phrase.Brief(it.Part) + ": " + placeOf(it.Source, "").String()
			if it.Supplier != "" {
				place += ", " + phrase.Brief(it.Supplier)
			}
			places = append(places, place)
		}
		return nil, &partError{kind: kind, part: w.part, places: places}
	}
	return found, nil
}

// isFrom reports whether a part is from a file, by its path or its name, or from a supplier.
func isFrom(it *catalog.Item, from string) bool {
	return from == "" || it.Source.File == from || filepath.Base(it.Source.File) == filepath.Base(from) || strings.EqualFold(it.Supplier, from)
}

func placeOf(s catalog.Source, cell string) finding.Place {
	place := finding.Place{File: s.File, Sheet: s.Sheet, Row: s.Row, Cell: cell}
	if cell != "" {
		place.Row = 0
	}
	return place
}

// subjectOf is a pair of the matrix with the provenance of its numbers.
func subjectOf(r *matrix.Result, head, ferrule int, shop settings.Settings, units fitcalc.Units) explain.Subject {
	h, f := &r.Catalogue.Heads[head], &r.Catalogue.Ferrules[ferrule]
	tip := r.Pair(head, ferrule).Tip
	s := explain.Subject{
		Title: fmt.Sprintf("head %s with ferrule %s", phrase.Brief(h.Part), phrase.Brief(f.Part)),
		Joint: joint.Joint{Head: h.Head, Tip: r.Tips[tip].Tip, Ferrule: f.Ferrule},
		Shop:  shop, Units: units,
	}
	// As the matrix does: nothing is taken from a part with sizes that no part can have.
	if err := h.Head.Validate(); err != nil {
		s.Joint.Head = fitcalc.Head{Category: h.Head.Category, Top: h.Head.Top}
		s.Inputs = append(s.Inputs, impossibleInput("head", h.Source, err))
	}
	if err := f.Ferrule.Validate(); err != nil {
		s.Joint.Ferrule = f.Ferrule.WithoutSizes()
		s.Inputs = append(s.Inputs, impossibleInput("ferrule", f.Source, err))
	}
	s.Inputs = append(s.Inputs, cellInputs(r, &s.Joint, joint.OfHead, &h.Item, units)...)
	s.Inputs = append(s.Inputs, tipInput(r, h, head, tip))
	s.Inputs = append(s.Inputs, cellInputs(r, &s.Joint, joint.OfFerrule, &f.Item, units)...)
	return s
}

func impossibleInput(what string, source catalog.Source, err error) explain.Input {
	return explain.Input{Name: what, Value: "sizes not used", Kind: explain.Cell, Place: placeOf(source, "").String(), Size: true, Why: err.Error()}
}

// cellInputs follows what the sheet says of a part to its cells.
func cellInputs(r *matrix.Result, j *joint.Joint, part joint.Part, item *catalog.Item, units fitcalc.Units) []explain.Input {
	var inputs []explain.Input
	for _, f := range joint.Fields() {
		if f.Part != part {
			continue
		}
		field, there := item.Fields.Lookup(roleOf(&f))
		d := f.Dim(j)
		given := d != nil && d.Given()
		if !there && !given {
			continue
		}
		in := explain.Input{Name: nameOf(&f), Value: phrase.Brief(field.Text), Kind: explain.Cell, Place: placeOf(item.Source, field.Cell).String(), Size: d != nil || f.Of == fitcalc.FieldForTip}
		var why []string
		switch {
		case given && field.Measured != nil:
			inputs = append(inputs, measuredInput(in, *d, item, &field, units))
			continue
		case given:
			in.Value = explain.ShowDim(*d, units)
			why = append(quoted(field.Text), limitsFrom(*d)...)
		case f.Of == fitcalc.FieldForTip && j.Ferrule.ForTip.Known():
			in.Value, why = j.Ferrule.ForTip.String(), quoted(field.Text)
		case d != nil:
			in.Value, why = "not used", append(quoted(field.Text), findingsAt(r, placeOf(item.Source, field.Cell))...)
		case in.Value == "":
			continue
		}
		in.Why = strings.Join(append(why, field.Assumptions...), "; ")
		inputs = append(inputs, in)
	}
	for _, text := range item.Assumptions {
		inputs = append(inputs, explain.Input{Name: "in reading the row", Value: phrase.Brief(text), Kind: explain.Assumption, Place: placeOf(item.Source, "").String()})
	}
	return inputs
}

// roleOf is the column of a sheet that gives a field of a joint.
func roleOf(f *joint.Field) catalog.Role {
	if f.Of == fitcalc.FieldForTip {
		return catalog.Role(f.Of.Column())
	}
	return catalog.Role(f.Key)
}

// measuredInput follows a size to its readings, and to what the sheet states in their place.
func measuredInput(in explain.Input, d measure.Dim, item *catalog.Item, field *catalog.Field, units fitcalc.Units) explain.Input {
	m := field.Measured
	in.Kind, in.Value, in.Place = explain.Measured, explain.ShowDim(d, units), m.Places[0].String()
	if more := len(m.Places) - 1; more > 0 {
		in.Place += fmt.Sprintf(" and %d more", more)
	}
	var readings []string
	for _, r := range m.Readings {
		readings = append(readings, r.String())
	}
	in.Why = strings.Join(readings, ", ") + "; " + samples.Sentence(m.Size, units)
	if m.Stated.Given() {
		in.Why += fmt.Sprintf("; the sheet states %s (%s)", explain.ShowDim(m.Stated, units), placeOf(item.Source, field.Cell))
	}
	return in
}

// findingsAt returns what the reader found at a cell.
func findingsAt(r *matrix.Result, at finding.Place) []string {
	var messages []string
	for _, f := range tell.Findings(r) {
		here := func(p finding.Place) bool { return p.File == at.File && p.Sheet == at.Sheet && p.Cell == at.Cell }
		if at.Cell != "" && slices.ContainsFunc(f.Places(), here) {
			messages = append(messages, phrase.Brief(f.Message))
		}
	}
	slices.Sort(messages)
	return slices.Compact(messages)
}

// quoted is a text as the sheet has it, and nothing where it has none.
func quoted(text string) []string {
	if text == "" {
		return nil
	}
	return []string{"“" + phrase.Brief(text) + "”"}
}

// limitsFrom says where limits come from that do not stand beside the size.
func limitsFrom(d measure.Dim) []string {
	if !d.HasLimits() {
		return nil
	}
	switch d.Origin() {
	case measure.General:
		return []string{"limits by the sheet's general tolerance"}
	case measure.Class:
		return []string{"limits by its tolerance class"}
	case measure.Measured:
		return []string{"limits from readings"}
	case measure.Learned:
		return []string{"limits learned from readings of the supplier's other parts"}
	}
	return nil
}

// tipInput follows the tip to the shop's own sheet of tips, to the head's sheet, or to the bore it was taken from.
func tipInput(r *matrix.Result, h *catalog.Head, head int, tip int32) explain.Input {
	tips := &r.HeadTips[head]
	in := explain.Input{Name: fitcalc.FieldTip.String(), Value: r.Tips[tip].Name, Kind: explain.Cell, Why: tips.Why}
	if in.Value == "" {
		in.Value = "not known"
	}
	role := catalog.TipTaken
	if tips.Assumed {
		in.Kind, role = explain.Assumption, catalog.Bore
	}
	in.Size = in.Kind == explain.Cell && r.Tips[tip].Name != ""
	in.Place = placeOf(h.Source, h.Fields.Cell(role)).String()
	for i := range r.Catalogue.Tips {
		t := &r.Catalogue.Tips[i]
		if strings.TrimSpace(t.Part+" "+matrix.TipName(t.Named())) == r.Tips[tip].Name {
			in.Why += "; its size is that of " + placeOf(t.Source, t.Fields.Cell(catalog.TipOD)).String()
		}
	}
	return in
}
