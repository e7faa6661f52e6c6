package rows

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// Ferrules are listed by the tip that they are for as often as by their bore: in a column of tips, in a column of bores that are the
// names of tips, or in words. What a column of bores gives is decided for all of it, never cell by cell.

// A bore contradicts the tip that its row names where it is larger than that tip anywhere under a ferrule, or smaller than its end by
// more than farUnderTip. Common practice, from memory.
var farUnderTip = measure.Thou(10)

// knowTip finds the tip that the head of a row takes, or that its ferrule is for, and holds that against the ferrule's bore.
func (r *rowReader) knowTip() {
	switch r.t.Kind {
	case catalog.Ferrules:
	case catalog.Heads:
		if r.findTip() {
			r.checkHeadTip()
		}
		return
	default:
		return
	}
	switch {
	case r.t.Answered(r.line, catalog.Bore):
	case r.t.Bores == catalog.BoresAreTips:
		r.takeBoreAsTip()
	case r.t.Bores == catalog.BoresAreBores:
		r.takeTipAsBore()
	}
	if !r.findTip() {
		r.askTitledTip()
	}
	r.readTip()
	r.checkTip()
}

// takeBoreAsTip moves what stands for the bore to the tip. A bore with limits of its own is one.
func (r *rowReader) takeBoreAsTip() {
	f, given := r.fields.Lookup(catalog.Bore)
	if !given || f.Text == "" || f.Dim.HasLimits() && f.Dim.Origin() == measure.Stated {
		return
	}
	tip := f
	if f.Dim.HasLimits() {
		tip.Dim = measure.Nominal(f.Dim.Nominal())
	}
	f.Dim = measure.Dim{}
	r.fields = r.fields.With(catalog.Bore, f)
	if r.t.BoresJudged {
		assumed := fmt.Sprintf("bore %s taken as the name of the tip that the ferrule is for, and not as its own size", f.Text)
		tip.Assumptions = append(slices.Clip(tip.Assumptions), assumed)
		r.assume(assumed)
	}
	if own, known := r.fields.Lookup(catalog.TipTaken); !known || own.Text == "" {
		r.fields = r.fields.With(catalog.TipTaken, tip)
	}
}

// takeTipAsBore moves what stands for the tip to the bore.
func (r *rowReader) takeTipAsBore() {
	f, given := r.fields.Lookup(catalog.TipTaken)
	if !given || !f.Dim.Given() {
		return
	}
	r.fields = r.fields.Without(catalog.TipTaken).With(catalog.Bore, f)
}

// findTip looks for the tip in the description or remark of the row, in the title above it, and in the titles of the table, where no column gives
// it, and reports whether it found one. Where a bore is known a title only has to agree with it, and nothing is assumed by it; what the row itself
// says is its tip in any case. One that was refused says nothing of the tip.
func (r *rowReader) findTip() bool {
	if r.fields.Text(catalog.TipTaken) != "" {
		return false
	}
	bore := r.fields.Get(catalog.Bore)
	sized := bore.Text != "" || bore.Dim.Given()
	f := r.saidTip(!sized, func(tips []fitcalc.TipSize) bool { return !bore.Dim.Given() || r.t.agrees(tips, bore.Dim) })
	if f.Text == "" {
		return false
	}
	r.fields = r.fields.With(catalog.TipTaken, f)
	if !bore.Dim.Given() {
		r.assume(f.Assumptions...)
	}
	return true
}

// saidTip returns what the first text says of the tip that names tips which will do; where none does, what the row says of one tip. Strictly,
// the description has to say that it is one; a remark has to in any case.
func (r *rowReader) saidTip(strictly bool, will func([]fitcalc.TipSize) bool) catalog.Field {
	t := r.t
	if said := r.fields.Get(catalog.Bore); said.Dim.Given() {
		if before, inside, found := lexicon.CutBrackets(said.Text); found {
			for _, text := range []string{inside, before} {
				if tips, words := t.Lex.TipsIn(text, false); len(tips) > 0 && will(tips) {
					return catalog.Field{Text: words, Cell: said.Cell}
				}
			}
		}
	}
	var own catalog.Field
	for _, role := range [...]catalog.Role{catalog.Description, catalog.Note} {
		said := r.fields.Get(role)
		if role == catalog.Note && r.speaksElsewhere(said.Text) {
			continue
		}
		tips, words := t.Lex.TipsIn(said.Text, true)
		named := len(tips) == 1
		if len(tips) == 0 && !strictly && role == catalog.Description {
			tips, words = t.Lex.TipsIn(said.Text, false)
		}
		if len(tips) == 0 {
			continue
		}
		f := catalog.Field{Text: words, Cell: said.Cell, Assumptions: []string{fmt.Sprintf("tip %s taken from the %s", words, catalog.RoleName(t.Kind, role))}}
		if will(tips) {
			return f
		}
		if own.Text == "" && named {
			own = f
		}
	}
	if tips, words := t.Lex.TipsIn(t.Section, false); len(tips) > 0 && will(tips) && !t.namesInPassing(t.Section) {
		return catalog.Field{Text: words, Assumptions: []string{fmt.Sprintf("tip %s taken from the title %q above", words, t.Section)}}
	}
	for _, title := range t.Titles {
		if tips, words := t.titledTips(title); len(tips) > 0 && will(tips) {
			return catalog.Field{Text: words, Assumptions: []string{fmt.Sprintf("tip %s taken from the title %q", words, title)}}
		}
	}
	for _, note := range t.TipNotes() {
		if tips, _ := t.Lex.TipsIn(note.Text, true); len(t.TipNotes()) == 1 && len(tips) > 0 && will(tips) && !t.namesInPassing(note.Text) {
			return catalog.Field{Text: note.Tip, Assumptions: []string{fmt.Sprintf("tip %s taken from the %s", note.Tip, layout.Describe(note.Text, note.Cell))}}
		}
	}
	return own
}

// titledTips returns the tips that a title gives to all parts, with the words.
func (t *Table) titledTips(title string) (tips []fitcalc.TipSize, saying string) {
	if t.Kind != catalog.Ferrules {
		return t.Lex.TipsIn(title, true)
	}
	if named := t.Lex.TipsOfFerrules(title); named.Sure {
		return named.Tips, named.Saying
	}
	return nil, ""
}

// namesInPassing reports whether a title of ferrules names tips strictly, but not as theirs.
func (t *Table) namesInPassing(title string) bool {
	strict, _ := t.Lex.TipsIn(title, true)
	return t.Kind == catalog.Ferrules && len(strict) > 0 && !t.Lex.TipsOfFerrules(title).Sure
}

// askTitledTip says which title names tips that may be those of the ferrules below it, where nothing gives those or the bores.
func (r *rowReader) askTitledTip() {
	t := r.t
	if t.ByRole[catalog.Bore] != nil || r.says(catalog.Bore) || r.fields.Text(catalog.TipTaken) != "" || t.ByRole[catalog.TipTaken] != nil {
		return
	}
	for _, title := range slices.Concat([]string{t.Section}, t.TextTitles()) {
		if named := t.Lex.TipsOfFerrules(title); len(named.Tips) > 0 && !named.Sure {
			t.TellEach(layout.ToldKey{What: "titled tip"}, finding.Warning, "data.missing", r.line, 0, func() string {
				return fmt.Sprintf("the title %q names %s, and not surely as the tip of the ferrules below it; it is not taken", title, named.Saying)
			})
			return
		}
	}
}

// speaksElsewhere reports whether a remark names the number of another part: "for .355 tips see CS-230".
func (r *rowReader) speaksElsewhere(remark string) bool {
	for word := range strings.FieldsSeq(remark) {
		if word = strings.Trim(word, ".,;:()"); lexicon.IsItemNumber(word) && word != r.fields.Text(catalog.Part) {
			return true
		}
	}
	return false
}

// checkHeadTip reports a bore that contradicts the tip that a text of its row names; it is the bore that counts.
func (r *rowReader) checkHeadTip() {
	bore, tip := r.fields.Get(catalog.Bore), r.fields.Get(catalog.TipTaken)
	tips := r.t.tipSizes(tip)
	if !bore.Dim.Given() || len(tips) != 1 || r.t.agrees(tips, bore.Dim) {
		return
	}
	r.t.Add(finding.Warning, "data.conflict", r.line, r.colOf(catalog.Bore), noneFor(tips[0], r.fields)+"; look at both", r.t.Settle("rows", r.t.LineName(r.line), string(catalog.Bore)))
	r.assume(tip.Assumptions...)
}

// farOverTip is how much wider than its tip the bore of a head is at most, with room for glue, and underTip how much narrower the name of a tip is that
// is rounded to a tenth of a millimetre: 8.5 for .335 in. Common practice, from memory.
var farOverTip, underTip = measure.Thou(14), measure.Micrometres(20)

// agrees reports whether a bore is such as one for a tip: a little under it in a ferrule, and over it in a head.
func (t *Table) agrees(tips []fitcalc.TipSize, bore measure.Dim) bool {
	if len(tips) != 1 || !bore.Given() {
		return false
	}
	size, tip := bore.Nominal(), tips[0]
	if t.Kind == catalog.Heads {
		return !size.Less(tip.Diameter.Sub(underTip)) && !tip.Diameter.Add(farOverTip).Less(size)
	}
	return !largestOf(tip).Less(size) && !size.Less(tip.Diameter.Sub(farUnderTip))
}

// readTip reads what stands for the tip. A ferrule for the .355 in taper tip and the .370 in one is one for .370: the taper has grown to
// that where the ferrule ends up. No bore suits any other two.
func (r *rowReader) readTip() {
	f, given := r.fields.Lookup(catalog.TipTaken)
	if !given || f.Text == "" && !f.Dim.Given() {
		return
	}
	t := r.t
	tips := t.tipSizes(f)
	switch {
	case len(tips) == 1:
		f.ForTip = tips[0]
		if tips[0].Form == fitcalc.TipTapered && t.Lex.BoreForm(f.Text) != value.FormTaper && !r.fields.Dim(catalog.Bore).Given() {
			r.assume(fmt.Sprintf("tip %s taken as a taper tip: parallel tips of .355 in are not usual", f.Text))
		}
	case len(tips) == 2 && bothSuit(tips[0], tips[1]):
		f.ForTip = widestTip(tips)
		f.Assumptions = append(slices.Clip(f.Assumptions), fmt.Sprintf("tip %s taken as %v: the taper tip has grown to that where the ferrule ends up", f.Text, f.ForTip))
		r.assume(f.Assumptions...)
	case r.fields.Dim(catalog.Bore).Given():
	default:
		what, settle := fmt.Sprintf("the tip %q cannot be read, and nothing gives the bore", f.Text), t.Settle("rows", t.LineName(r.line), string(catalog.Bore))
		if len(tips) > 1 {
			what = fmt.Sprintf("tip %s names tips that no one bore suits; give the bore", f.Text)
		}
		t.Add(finding.Warning, "data.missing", r.line, r.colOf(catalog.TipTaken), what, settle)
	}
	r.fields = r.fields.With(catalog.TipTaken, f)
}

// colOf is the column that gives a role, zero where none does.
func (r *rowReader) colOf(role catalog.Role) int {
	if c := r.t.ByRole[role]; c != nil {
		return c.Col
	}
	return 0
}

// tipSizes returns the different tips that a field names.
func (t *Table) tipSizes(f catalog.Field) []fitcalc.TipSize {
	form := t.Lex.BoreForm(f.Text)
	if f.Dim.Given() {
		return []fitcalc.TipSize{fitcalc.TipSize{Diameter: f.Dim.Nominal(), Form: tipForms[form]}.Named()}
	}
	unit := ""
	if c := t.ByRole[catalog.TipTaken]; c != nil {
		unit = c.Unit
	}
	text := strings.ReplaceAll(f.Text, "+", "/") // tips have no limits: .335+.350 are two
	reading := t.Lex.Read(text, value.Context{Want: value.WantDiameter, Unit: unit})
	readings := reading.List
	if reading.Kind == value.List {
		form = value.FormUnknown // each has its own
	} else {
		readings = []value.Reading{reading}
	}
	var tips []fitcalc.TipSize
	for _, one := range readings {
		if size, ok := cells.TipSize(one); ok {
			tips = append(tips, fitcalc.TipSize{Diameter: size.Nominal(), Form: tipForms[cells.FormOf(one.Form, form)]}.Named())
		}
	}
	if len(tips) == 0 {
		tips, _ = t.Lex.TipsIn(f.Text, false)
	}
	return lexicon.Distinct(tips)
}

// tipForms are the forms of tips by what the grammar of values calls them.
var tipForms = map[value.Form]fitcalc.TipForm{value.FormParallel: fitcalc.TipParallel, value.FormTaper: fitcalc.TipTapered}

// formsOfTips are what the grammar of values calls the forms of tips.
var formsOfTips = map[fitcalc.TipForm]value.Form{fitcalc.TipParallel: value.FormParallel, fitcalc.TipTapered: value.FormTaper}

func widestTip(tips []fitcalc.TipSize) fitcalc.TipSize {
	return slices.MaxFunc(tips, func(a, b fitcalc.TipSize) int { return a.Diameter.Compare(b.Diameter) })
}

// bothSuit reports whether one of two tips is a taper tip that grows to the other, parallel one.
func bothSuit(a, b fitcalc.TipSize) bool {
	if b.Form == fitcalc.TipTapered {
		a, b = b, a
	}
	return a.Form == fitcalc.TipTapered && b.Form == fitcalc.TipParallel && largestOf(a) == b.Diameter
}

// largestOf is the largest diameter that a tip has under a ferrule.
func largestOf(s fitcalc.TipSize) measure.Length {
	if s.Form == fitcalc.TipTapered {
		tip := fitcalc.UsualTaperTip(measure.Nominal(s.Diameter))
		return measure.Max(s.Diameter, tip.TaperTo())
	}
	return s.Diameter
}

// checkTip reports a bore that contradicts the tip, at both where a column gives the tip; it is the bore that counts.
func (r *rowReader) checkTip() {
	bore, tip := r.fields.Get(catalog.Bore), r.fields.Get(catalog.TipTaken).ForTip
	if !bore.Dim.Given() || !tip.Known() {
		return
	}
	size, why := bore.Dim.Nominal(), ""
	switch {
	case largestOf(tip).Less(size):
		why = "is larger than that tip"
	case size.Less(tip.Diameter.Sub(farUnderTip)):
		why = fmt.Sprintf("is smaller than that tip by more than %s", traits.SayMM(traits.MM(farUnderTip)))
	default:
		return
	}
	message := fmt.Sprintf("the ferrule is for %v, and its bore of %s (%s) %s; the bore is used", tip, bore.Text, traits.SayMM(traits.MM(size)), why)
	for _, role := range [...]catalog.Role{catalog.Bore, catalog.TipTaken} {
		if col := r.colOf(role); role == catalog.Bore || col > 0 {
			r.t.Add(finding.Warning, "data.conflict", r.line, col, message, r.t.Settle("rows", r.t.LineName(r.line), string(role)))
		}
	}
	r.assume(fmt.Sprintf("bore %s used although the tip %v contradicts it", bore.Text, tip))
}
