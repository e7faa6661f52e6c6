package catalog

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// Ferrules are listed by the tip that they are for as often as by their bore: in a column of tips, in a column of bores that are the
// names of tips, or in words. What a column of bores gives is decided for all of it, never cell by cell.

// What a supplier's bores of ferrules are, in a mapping file and in shop.toml.
const (
	BoresAreTips  = "tip"  // the names of the tips that the ferrules are for
	BoresAreBores = "bore" // the true bores
)

// IsFerruleBores reports whether a word says what bores of ferrules are.
func IsFerruleBores(word string) bool { return word == BoresAreTips || word == BoresAreBores }

// A column of bores is one of tips where at least leastNames in a hundred of its cells are names of standard tips, and none is what a
// ferrule made for one measures: smaller than it by up to underTip. Common practice is that ferrules are made .002 in under.
const leastNames = 90

var underTip = measure.Thou(6)

// A bore contradicts the tip that its row names where it is larger than that tip anywhere under a ferrule, or smaller than its end by
// more than farUnderTip. Common practice, from memory.
var farUnderTip = measure.Thou(10)

// settleBores decides what the bores of a table of ferrules are, and what is listed in their place.
func (t *unitTable) settleBores() {
	if t.kind != Ferrules {
		return
	}
	said := cmp.Or(t.rules.FerruleBores, t.houseBores)
	bore, tip := t.byRole[Bore], t.byRole[TipTaken]
	switch {
	case bore != nil && bore.profile.filled > 0 && bore.held == "":
		t.settleBoreColumn(bore, said)
	case tip != nil && tip.profile.filled > 0 && said == BoresAreBores:
		t.bores, tip.evidence = BoresAreBores, tip.evidence+"; taken as the true bores"
	case tip != nil && tip.profile.filled > 0 && said == "":
		t.addColumn(finding.Note, "data.tip-name", tip.col, fmt.Sprintf(
			"%s gives the tips that the ferrules are for, and nothing their bores: each is taken to be made for its tip, and so a little smaller", tip.name()),
			t.settle("ferrule_bores"))
	}
}

func (t *unitTable) settleBoreColumn(c *unitColumn, said string) {
	names, holes, others := t.boresOf(c)
	examples := strings.Join(names[:min(len(names), 5)], ", ")
	switch {
	case said == BoresAreBores || said == "" && len(names) == 0:
	case said == BoresAreTips:
		t.bores, c.evidence = BoresAreTips, c.evidence+"; its sizes are the names of tips"
	case len(holes) == 0 && !t.toleranced(c) && 100*others.cells <= (100-leastNames)*others.all:
		t.bores, t.boresJudged, c.evidence = BoresAreTips, true, c.evidence+"; its sizes are the names of tips"
		t.addColumn(finding.Warning, "data.tip-name", c.col, fmt.Sprintf(
			"the sizes that %s gives are the names of tips (%s), which a ferrule of such a bore would not grip: each ferrule is taken to be made for that tip, and so a little smaller; tip or true bore?",
			c.name(), examples), t.settle("ferrule_bores"))
	default:
		beside := "sizes that no tip has"
		switch {
		case len(holes) > 0:
			beside = "true bores such as " + holes[0]
		case t.toleranced(c):
			beside = "a tolerance of their own"
		}
		t.addColumn(finding.Warning, "data.tip-name", c.col, fmt.Sprintf("%s gives names of tips (%s) beside %s; all are taken as true bores: tip or true bore?",
			c.name(), examples, beside), t.settle("ferrule_bores"))
	}
}

// unitOfNames returns the unit in which all numbers of a column are names of tips, whatever a heading or a note says of the other
// sizes: 370 or 370P in thousandths of an inch for a bore, and in a column of tips of ferrules .370 in inches or 9.4 in mm as well.
func (t *unitTable) unitOfNames(c *unitColumn) (string, bool) {
	units := []string{"thou"}
	switch {
	case c.role == TipTaken && t.kind == Ferrules:
		units = []string{"thou", "in", "mm"}
	case c.role != Bore && c.role != TipTaken:
		return "", false
	}
	numbers := c.bare()
	at := slices.IndexFunc(units, func(unit string) bool { return len(numbers) > 0 && namesIn(numbers, unit) == len(numbers) })
	if at < 0 {
		return "", false
	}
	return units[at], true
}

// namesIn counts the numbers that are names of tips in a unit.
func namesIn(numbers []float64, unit string) int {
	count := 0
	for _, n := range numbers {
		size, err := measure.FromMillimetres(n * unitMM[unit])
		if _, named := fitcalc.TipNamed(size.RoundTo(measure.Picometres(1000), measure.NearestEven)); err == nil && named {
			count++
		}
	}
	return count
}

// tellTipsFromBores decides by the sizes what a column of ferrules gives whose heading may mean the tip as well as the bore, such as
// "Shaft size": the tip, if nearly all of them are names of tips.
func (t *roleTable) tellTipsFromBores() {
	for _, c := range t.columns {
		either := c.role == Bore && c.second == TipTaken || c.role == TipTaken && c.second == Bore
		if t.kind != Ferrules || !either || c.margin >= leastMargin || t.first(c.second) != nil || len(c.bare()) == 0 {
			continue
		}
		numbers, names := c.bare(), 0
		for _, unit := range c.units() {
			names = max(names, namesIn(numbers, unit))
		}
		role, other, why := Bore, TipTaken, "its sizes are not the names of tips"
		if 100*names >= leastNames*len(numbers) {
			role, other, why = TipTaken, Bore, "its sizes are the names of tips"
		}
		c.role, c.margin, c.evidence, c.runnerUp = role, leastMargin, c.evidence+"; "+why, fmt.Sprintf("%s, but for its sizes", other)
	}
}

// toleranced reports whether the heading of a column or other columns give its sizes a tolerance, as names have none.
func (t *unitTable) toleranced(c *unitColumn) bool {
	return c.tolerance != nil || slices.ContainsFunc(t.columns, func(o *unitColumn) bool {
		return o != c && (o.covers == c.role || o.role == c.role && (o.aspect == least || o.aspect == most))
	})
}

// counted is how many cells of how many.
type counted struct{ cells, all int }

// boresOf sorts the sizes of a column, as the cells show them: those that are the names of tips, those that only a bore has, and how
// many are neither.
func (t *unitTable) boresOf(c *unitColumn) (names, holes []string, others counted) {
	for _, text := range c.profile.texts {
		reading := t.lex.read(text, value.Context{Want: value.WantDiameter, Unit: c.unit, Mark: c.mark, Language: t.language})
		readings := reading.List
		switch reading.Kind {
		case value.Length:
			readings = []value.Reading{reading}
		case value.List:
		default:
			continue
		}
		others.all++
		switch hole, named := sortOf(readings); {
		case hole && !slices.Contains(holes, text):
			holes = append(holes, text)
		case hole:
		case !named:
			others.cells++
		case !slices.Contains(names, text):
			names = append(names, text)
		}
	}
	return names, holes, others
}

// sortOf reports whether sizes can only be those of bores, and whether all are the names of tips.
func sortOf(readings []value.Reading) (hole, named bool) {
	named = len(readings) > 0
	for _, one := range readings {
		size := one.Dim.Nominal()
		_, isName := fitcalc.TipNamed(size)
		named = named && isName
		under := slices.ContainsFunc(tipNames, func(tip measure.Length) bool { return size.Less(tip) && !underTip.Less(tip.Sub(size)) })
		hole = hole || one.Dim.HasLimits() || !isName && under
	}
	return hole, named
}

// knowTip finds the tip that the ferrule of a row is for, and holds it against its bore.
func (r *rowReader) knowTip() {
	if r.t.kind != Ferrules {
		return
	}
	_, answered := r.t.rules.row(r.line).Values[Bore]
	switch {
	case answered:
	case r.t.bores == BoresAreTips:
		r.takeBoreAsTip()
	case r.t.bores == BoresAreBores:
		r.takeTipAsBore()
	}
	r.findTip()
	r.readTip()
	r.checkTip()
}

// takeBoreAsTip moves what stands for the bore to the tip. A bore with limits of its own is one.
func (r *rowReader) takeBoreAsTip() {
	f, given := r.fields.Lookup(Bore)
	if !given || f.Text == "" || f.Dim.HasLimits() && f.Dim.Origin() == measure.Stated {
		return
	}
	tip, fine := f, r.fields.fine(Bore)
	if f.Dim.HasLimits() {
		tip.Dim = measure.Nominal(f.Dim.Nominal())
	}
	f.Dim = measure.Dim{}
	r.fields = r.fields.With(Bore, f)
	if r.t.boresJudged {
		assumed := fmt.Sprintf("bore %s taken as the name of the tip that the ferrule is for, and not as its own size", f.Text)
		tip.Assumptions = append(slices.Clip(tip.Assumptions), assumed)
		r.assume(assumed)
	}
	if own, known := r.fields.Lookup(TipTaken); !known || own.Text == "" {
		r.fields = r.fields.with(TipTaken, tip, fine)
	}
}

// takeTipAsBore moves what stands for the tip to the bore.
func (r *rowReader) takeTipAsBore() {
	f, given := r.fields.Lookup(TipTaken)
	if !given || !f.Dim.Given() {
		return
	}
	r.fields = r.fields.Without(TipTaken).with(Bore, f, r.fields.fine(TipTaken))
}

// findTip looks for the tip in the description, the title above the row, and the titles of the table, where nothing else gives a bore
// or a tip.
func (r *rowReader) findTip() {
	if r.fields.Text(Bore) != "" || r.fields.dim(Bore).Given() || r.fields.Text(TipTaken) != "" {
		return
	}
	t := r.t
	f := Field{}
	if said := r.fields.Get(Description); said.Text != "" {
		if tips, words := t.lex.tipsIn(said.Text, true); len(tips) > 0 {
			f = Field{Text: words, Cell: said.Cell, Assumptions: []string{fmt.Sprintf("tip %s taken from the description", words)}}
		}
	}
	if tips, words := t.lex.tipsIn(t.section, false); f.Text == "" && len(tips) > 0 {
		f = Field{Text: words, Assumptions: []string{fmt.Sprintf("tip %s taken from the title %q above", words, t.section)}}
	}
	for i := 0; i < len(t.titles) && f.Text == ""; i++ {
		if tips, words := t.lex.tipsIn(t.titles[i], true); len(tips) > 0 {
			f = Field{Text: words, Assumptions: []string{fmt.Sprintf("tip %s taken from the title %q", words, t.titles[i])}}
		}
	}
	if f.Text != "" {
		r.fields = r.fields.With(TipTaken, f)
		r.assume(f.Assumptions...)
	}
}

// readTip reads what stands for the tip. A ferrule for the .355 in taper tip and the .370 in one is one for .370: the taper has grown to
// that where the ferrule ends up. No bore suits any other two.
func (r *rowReader) readTip() {
	f, given := r.fields.Lookup(TipTaken)
	if !given || f.Text == "" && !f.Dim.Given() {
		return
	}
	t := r.t
	tips := t.tipSizes(f)
	switch {
	case len(tips) == 1:
		f.ForTip = tips[0]
		if tips[0].Form == fitcalc.TipTapered && t.lex.boreForm(f.Text) != value.FormTaper {
			r.assume(fmt.Sprintf("tip %s taken as a taper tip: parallel tips of .355 in are not usual", f.Text))
		}
	case len(tips) == 2 && bothSuit(tips[0], tips[1]):
		f.ForTip = widestTip(tips)
		f.Assumptions = append(slices.Clip(f.Assumptions), fmt.Sprintf("tip %s taken as %v: the taper tip has grown to that where the ferrule ends up", f.Text, f.ForTip))
		r.assume(f.Assumptions...)
	case r.fields.dim(Bore).Given():
	default:
		what, settle := fmt.Sprintf("the tip %q cannot be read, and nothing gives the bore", f.Text), t.settle("rows", lineName(r.line), string(Bore))
		if len(tips) > 1 {
			what = fmt.Sprintf("tip %s names tips that no one bore suits; give the bore", f.Text)
		}
		t.add(finding.Warning, "data.missing", r.line, r.colOf(TipTaken), what, settle)
	}
	r.fields = r.fields.with(TipTaken, f, r.fields.fine(TipTaken))
}

// colOf is the column that gives a role, zero where none does.
func (r *rowReader) colOf(role Role) int {
	if c := r.t.byRole[role]; c != nil {
		return c.col
	}
	return 0
}

// tipSizes returns the different tips that a field names.
func (t *rowTable) tipSizes(f Field) []fitcalc.TipSize {
	form := t.lex.boreForm(f.Text)
	if f.Dim.Given() {
		return []fitcalc.TipSize{fitcalc.TipSize{Diameter: f.Dim.Nominal(), Form: tipForms[form]}.Named()}
	}
	unit := ""
	if c := t.byRole[TipTaken]; c != nil {
		unit = c.unit
	}
	reading := t.lex.read(f.Text, value.Context{Want: value.WantDiameter, Unit: unit})
	readings := reading.List
	if reading.Kind == value.List {
		form = value.FormUnknown // each has its own
	} else {
		readings = []value.Reading{reading}
	}
	var tips []fitcalc.TipSize
	for _, one := range readings {
		if size, ok := tipSize(one); ok {
			tips = append(tips, fitcalc.TipSize{Diameter: size.Nominal(), Form: tipForms[formOf(one.Form, form)]}.Named())
		}
	}
	if len(tips) == 0 {
		tips, _ = t.lex.tipsIn(f.Text, false)
	}
	return distinct(tips)
}

// tipForms are the forms of tips by what the grammar of values calls them.
var tipForms = map[value.Form]fitcalc.TipForm{value.FormParallel: fitcalc.TipParallel, value.FormTaper: fitcalc.TipTapered}

func distinct(tips []fitcalc.TipSize) []fitcalc.TipSize {
	var kept []fitcalc.TipSize
	for _, tip := range tips {
		if !slices.Contains(kept, tip) {
			kept = append(kept, tip)
		}
	}
	return kept
}

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

// checkTip reports a bore that contradicts the tip; it is the bore that counts.
func (r *rowReader) checkTip() {
	bore, tip := r.fields.Get(Bore), r.fields.Get(TipTaken).ForTip
	if !bore.Dim.Given() || !tip.Known() {
		return
	}
	size, why := bore.Dim.Nominal(), ""
	switch {
	case largestOf(tip).Less(size):
		why = "is larger than that tip"
	case size.Less(tip.Diameter.Sub(farUnderTip)):
		why = fmt.Sprintf("is smaller than that tip by more than %s", sayMM(mm(farUnderTip)))
	default:
		return
	}
	message := fmt.Sprintf("the ferrule is for %v, and its bore of %s (%s) %s; the bore is used", tip, bore.Text, sayMM(mm(size)), why)
	r.t.add(finding.Warning, "data.conflict", r.line, r.colOf(Bore), message, r.t.settle("rows", lineName(r.line), string(Bore)))
	r.assume(fmt.Sprintf("bore %s used although the tip %v contradicts it", bore.Text, tip))
}

// tipsIn finds the tips that a text names, and the words that do. Strictly read, something beside the size must say that it is one of a
// tip: a word such as "fits" or "for", a form, or the word tip or shaft itself. What is said of one holds for those listed with it.
func (l *lexicon) tipsIn(text string, strictly bool) (tips []fitcalc.TipSize, saying string) {
	if len(text) > longestNote || !strings.ContainsAny(text, ".,") {
		return nil, ""
	}
	var found []mention
	for _, at := range sizeOfTip.FindAllStringIndex(text, -1) {
		size, err := fitcalc.ParseTipSize(strings.Replace(text[at[0]:at[1]], ",", ".", 1))
		if _, standard := fitcalc.TipNamed(size.Diameter); err != nil || !standard || !isWhole(text, at) {
			continue
		}
		before, after := l.fitsBefore(text[:at[0]]), l.aboutTip(text[at[1]:])
		if after.form != fitcalc.TipUnknown {
			size.Form = after.form
		}
		found = append(found, mention{size, at[0] - before, at[1] + after.length, !strictly || before+after.length > 0})
	}
	for i := 1; i < len(found); i++ {
		found[i].said = found[i].said || found[i-1].said && l.links(text[found[i-1].to:found[i].from])
	}
	for i := len(found) - 2; i >= 0; i-- {
		found[i].said = found[i].said || found[i+1].said && l.links(text[found[i].to:found[i+1].from])
	}
	found = slices.DeleteFunc(found, func(m mention) bool { return !m.said })
	if len(found) == 0 {
		return nil, ""
	}
	for _, m := range found {
		tips = append(tips, m.tip)
	}
	return distinct(tips), strings.TrimSpace(text[found[0].from:found[len(found)-1].to])
}

// mention is a size of a tip within a text, with the words about it; said is set where something says that it is one.
type mention struct {
	tip      fitcalc.TipSize
	from, to int
	said     bool
}

// links reports whether a text only joins what stands before it with what follows.
func (l *lexicon) links(text string) bool {
	text = strings.TrimSpace(text)
	_, or := l.words.Mark(text, "or")
	return or || text == "/" || text == "," || text == "+"
}

// sizeOfTip is what may be the size of a tip within a text: three decimals of an inch, or millimetres with their unit.
var sizeOfTip = regexp.MustCompile(`0?[.,]3\d\d|\d{1,2}[.,]\d{1,3} ?mm`)

// isWhole reports whether a number is no part of a longer one, or of a code.
func isWhole(text string, at []int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
	after, _ := utf8.DecodeRuneInString(text[at[1]:])
	return !(before < utf8.RuneSelf && (unicode.IsLetter(before) || unicode.IsDigit(before))) && !unicode.IsDigit(after)
}

// fitsBefore returns the length of a word such as "fits" at the end of a text.
func (l *lexicon) fitsBefore(text string) int {
	end := len(strings.TrimRight(text, " \u3000:"))
	for start := range text[:end] {
		last, _ := utf8.DecodeLastRuneInString(text[:start])
		if start > 0 && unicode.IsLetter(last) && last < 0x2e80 { // words of East Asian writing have no spaces between them
			continue
		}
		if _, length := l.words.LeadingMark(text[start:end], "fits"); length > 0 && start+length == end {
			return len(text) - start
		}
	}
	return 0
}

// beside is what stands behind a size: how many bytes of it speak of the tip, and which form they name.
type beside struct {
	length int
	form   fitcalc.TipForm
}

// aboutTip reads up to three words behind a size: its unit, a form, the word tip or shaft, or one for "for".
func (l *lexicon) aboutTip(text string) (b beside) {
	at := 0
	for range 3 {
		at = len(text) - len(strings.TrimLeft(text[at:], " \u3000-–\"'″”"))
		word := text[at:]
		if end := strings.IndexFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }); end >= 0 {
			word = word[:end]
		}
		if word == "" || !l.saysTip(word, &b) {
			return b
		}
		at += len(word)
		if b.form != fitcalc.TipUnknown || !l.isInch(word) {
			b.length = at
		}
	}
	return b
}

// saysTip reports whether a word may stand behind the size of a tip, and takes the form that it names.
func (l *lexicon) saysTip(word string, b *beside) bool {
	if form, found := l.ask("bore form", word, l.words.BoreForm); found && form.Score >= understood {
		b.form = formNames[form.Value]
		return true
	}
	if kind, found := l.ask("kind", word, l.words.Kind); found && kind.Value == Tips.String() && kind.Score >= understood {
		return true
	}
	_, isFor := l.words.Mark(word, "fits")
	return isFor || l.isInch(word)
}

var formNames = map[string]fitcalc.TipForm{"parallel": fitcalc.TipParallel, "taper": fitcalc.TipTapered}

func (l *lexicon) isInch(word string) bool {
	unit, found := l.ask("unit", word, l.words.Unit)
	return found && unit.Value == "in"
}

// saidOfBores is what the shop's settings say of a supplier's bores.
func (r *reader) saidOfBores(supplier string) string {
	for _, name := range sortedKeys(r.opts.FerruleBores) {
		if words.Fold(name) == words.Fold(supplier) {
			return r.opts.FerruleBores[name]
		}
	}
	return ""
}

// reportUnmet reports the suppliers of the shop's settings who have none of the ferrules: their names may be written otherwise.
func (r *reader) reportUnmet(c *Catalogue) {
	if len(c.Ferrules) == 0 {
		return
	}
	for _, name := range sortedKeys(r.opts.FerruleBores) {
		if !slices.ContainsFunc(c.Ferrules, func(f Ferrule) bool { return words.Fold(f.Supplier) == words.Fold(name) }) {
			r.findings.Add(finding.Finding{
				Severity: finding.Note, Code: "map.stale",
				Message: fmt.Sprintf("the shop's settings speak of the supplier %q, whose ferrules are not among these", name),
			})
		}
	}
}
