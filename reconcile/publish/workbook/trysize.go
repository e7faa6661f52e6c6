package workbook

import (
	"cmp"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/report"
)

// bench is what the sheet for a measured hosel rests on: the windows of ferrules on tips and tops.
type bench struct {
	tips []matrix.Tip
	tops []fitcalc.TopForm
	// ferrules are indexes into the catalogue, and left how many more there are.
	ferrules []int
	left     int
	// windows are by row: ferrules within tops within tips.
	windows [][]fitcalc.Window
	// columns is how many windows the row with the most has.
	columns int
}

// triedTops are the forms of top that can be chosen. A rounded one takes no ferrule and needs no table.
var triedTops = []fitcalc.TopForm{fitcalc.TopFlat, fitcalc.TopCountersunk, fitcalc.TopCounterbored}

// planBench works out the windows, as many as the limits allow: the ferrules of use to most heads first.
func (b *book) planBench() (*bench, error) {
	x := &bench{tips: triedTips(b.result), tops: triedTops}
	all := len(b.result.Catalogue.Ferrules)
	x.ferrules = make([]int, all)
	for i := range x.ferrules {
		x.ferrules[i] = i
	}
	if most := max(0, b.limits.windows/(len(x.tips)*len(x.tops))); all > most {
		slices.SortStableFunc(x.ferrules, func(i, k int) int { return b.account.Fits[k] - b.account.Fits[i] })
		x.ferrules = x.ferrules[:most]
		x.left = all - most
		slices.Sort(x.ferrules)
	}
	return x, x.work(b.result)
}

// triedTips are the tips of the result and the usual sizes that are not among them, by size, each with a name of its own.
func triedTips(r *matrix.Result) []matrix.Tip {
	var tips []matrix.Tip
	size := func(t fitcalc.Tip) measure.Length { return t.Diameter(measure.Length{}).Nominal() }
	names := map[string]int{}
	add := func(name string, tip fitcalc.Tip) {
		name = clean(name)
		if names[name]++; names[name] > 1 {
			name = fmt.Sprintf("%s (%d)", name, names[name])
		}
		tips = append(tips, matrix.Tip{Name: name, Tip: tip})
	}
	for _, t := range r.Tips {
		if t.Tip.Form() != fitcalc.TipUnknown {
			add(t.Name, t.Tip)
		}
	}
	for _, s := range fitcalc.StandardTips() {
		near := func(t matrix.Tip) bool {
			// one that a sheet rounds to a hundredth of a millimetre is the same
			return t.Tip.Form() == s.Form && !measure.Micrometres(10).Less(size(t.Tip).Sub(s.Diameter).Abs())
		}
		if !slices.ContainsFunc(tips, near) {
			add(s.Name, s.Tip(r.Shop))
		}
	}
	slices.SortStableFunc(tips, func(a, b matrix.Tip) int { return size(a.Tip).Compare(size(b.Tip)) })
	return tips
}

// benchHead is a hosel that is measured, to vary as the shop allows for, and of which otherwise only the form of its top is known.
func benchHead(top fitcalc.TopForm, shop *fitcalc.Shop) fitcalc.Head {
	od := measure.PlusMinus(measure.Millimetres(13), shop.HoselODTolerance).WithOrigin(measure.Measured)
	return fitcalc.Head{Top: top, HoselOD: od}
}

// row is where the windows of a ferrule stand, each counted from 0.
func (x *bench) row(tip, top, ferrule int) int {
	return (tip*len(x.tops)+top)*len(x.ferrules) + ferrule
}

// work works out all windows. Ferrules that differ in nothing but name have the same.
func (x *bench) work(r *matrix.Result) error {
	forms := make([]fitcalc.Ferrule, len(x.ferrules))
	for i, ferrule := range x.ferrules {
		forms[i] = r.Catalogue.Ferrules[ferrule].Ferrule
		if forms[i].Validate() != nil { // as the matrix does, and the findings say so
			forms[i] = forms[i].WithoutSizes()
		}
	}
	blocks := len(x.tips) * len(x.tops)
	x.windows = make([][]fitcalc.Window, blocks*len(forms))
	errs := make([]error, blocks)
	var workers sync.WaitGroup
	count := min(runtime.GOMAXPROCS(0), blocks)
	for w := range count {
		workers.Go(func() {
			for block := w; block < blocks; block += count {
				errs[block] = x.workBlock(block, forms, &r.Shop)
			}
		})
	}
	workers.Wait()
	for _, windows := range x.windows {
		x.columns = max(x.columns, len(windows))
	}
	return cmp.Or(errs...)
}

func (x *bench) workBlock(block int, forms []fitcalc.Ferrule, shop *fitcalc.Shop) error {
	tip, head := x.tips[block/len(x.tops)].Tip, benchHead(x.tops[block%len(x.tops)], shop)
	known := map[fitcalc.Ferrule][]fitcalc.Window{}
	for i, form := range forms {
		windows, done := known[form]
		if !done {
			var err error
			if windows, err = fitcalc.Windows(head, tip, form, *shop); err != nil {
				return err
			}
			known[form] = windows
		}
		x.windows[block*len(forms)+i] = windows
	}
	return nil
}

// fitting is the longest run of windows in which a ferrule fits, rounded inward to steps: whatever hosel lies between the two, both
// included, takes it. It reports false where nothing as wide as a step fits.
func fitting(windows []fitcalc.Window, step measure.Length) (from, to measure.Length, found bool) {
	for i := 0; i < len(windows); {
		end := i
		for end < len(windows) && windows[end].Verdict.Fits() {
			end++
		}
		if end == i {
			i++
			continue
		}
		low := windows[i].HoselOD.Lower().At().RoundTo(step, measure.Up)
		high := low // a run that goes on for ever would be one of ferrules that fit any hosel
		if upper := windows[end-1].HoselOD.Upper(); upper.Bounded() {
			high = upper.At().Sub(measure.Picometres(1)).RoundTo(step, measure.Down)
		}
		if !high.Less(low) && (!found || to.Sub(from).Less(high.Sub(low))) {
			from, to, found = low, high, true
		}
		i = end
	}
	return from, to, found
}

// step is to what the ends of windows are rounded inward for reading.
func (r reader) step() measure.Length {
	if r.units == fitcalc.Metric {
		return measure.Micrometres(1)
	}
	return measure.Picometres(2_540_000) // .0001 in
}

// ofMM makes millimetres the unit, in a formula.
func (r reader) ofMM() string {
	if r.units == fitcalc.Metric {
		return ""
	}
	return "/25.4"
}

// fine is the number format of ends of windows.
func (r reader) fine() string { return r.format() + "0" }

// Cells of the sheet on which a size is tried.
const (
	trialInput   = 5 // hosel OD; the tip and the top stand below it
	trialHeading = 11
)

// Rows and columns of the sheet that works it out. Its first rows hold what was typed.
const (
	workHeading = 4
	workTips    = "L"
	workTops    = "M"
	workRanks   = "N"
	workWords   = "O"
)

// noWindow stands where a row has fewer windows than others: no hosel is as large, in mm.
const noWindow = 1e9

// trial is what stands on the sheet before anybody types.
type trial struct {
	od       measure.Length
	tip, top int
}

// trial is a hosel of the middle size on the tip that most heads take.
func (b *book) trial(x *bench) trial {
	t := trial{od: measure.Micrometres(12_700)}
	var sizes []measure.Length
	heads := map[int32]int{}
	for i := range b.result.Catalogue.Heads {
		if od := b.result.Catalogue.Heads[i].Head.JointOD(); od.Given() {
			sizes = append(sizes, od.Nominal())
		}
		for _, tip := range b.result.HeadTips[i].Tips {
			heads[tip]++
		}
	}
	if len(sizes) > 0 {
		slices.SortFunc(sizes, measure.Length.Compare)
		t.od = sizes[len(sizes)/2].RoundTo(b.reader.step(), measure.NearestEven)
	}
	most := 0
	for tip := range b.result.Tips {
		if n := heads[int32(tip)]; n > most && b.result.Tips[tip].Name != "" {
			at := slices.IndexFunc(x.tips, func(t matrix.Tip) bool { return t.Name == clean(b.result.Tips[tip].Name) })
			if at >= 0 {
				most, t.tip = n, at
			}
		}
	}
	return t
}

// tried is the answer for one ferrule.
type tried struct {
	ferrule  int // counted within the bench
	verdict  fitcalc.Verdict
	from, to measure.Length
	fits     bool
	key      float64
}

// answers are those to a trial in the order of the sheet: by verdict, then by how far base and hosel differ.
func (b *book) answers(x *bench, t trial) []tried {
	var all []tried
	for i, ferrule := range x.ferrules {
		windows := x.windows[x.row(t.tip, t.top, i)]
		at := slices.IndexFunc(windows, func(w fitcalc.Window) bool { return w.HoselOD.Contains(t.od) })
		if at < 0 {
			continue // the windows follow each other from the smallest OD without a gap
		}
		a := tried{ferrule: i, verdict: windows[at].Verdict}
		a.from, a.to, a.fits = fitting(windows, b.reader.step())
		a.key = float64(slices.Index(fitcalc.Verdicts(), a.verdict)+1) * 1e6
		if base := b.result.Catalogue.Ferrules[ferrule].Ferrule.BaseOD; base.Given() {
			off := base.Middle().Sub(t.od).Abs().RoundTo(measure.Micrometres(1), measure.NearestEven)
			a.key += min(90_000, off.Millimetres()*1000)
		} else {
			a.key += 90_000
		}
		a.key += float64(i+1) / 1e5
		all = append(all, a)
	}
	return all
}

// inOrderOf returns the indexes of answers by their keys.
func inOrderOf(all []tried) []int {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, k int) int { return cmp.Compare(all[i].key, all[k].key) })
	return order
}

// formula is a cell that is worked out, with what it comes to for programs that work nothing out.
func (p *page) formula(text string, comesTo any, l look) excelize.Cell {
	cell := p.as(comesTo, l)
	cell.Formula = text
	return cell
}

// sizeSheet is where a reader types what the calipers say.
func (b *book) sizeSheet(x *bench) {
	l := layout{
		widths:     []float64{16, 26, 9, 13, 9, 13, 9, 12, 11, 11, 9, 9, 9, 34},
		freezeRows: trialHeading, freezeColumns: 1, repeatFrom: trialHeading, printColumns: 13, tab: fillTurn,
	}
	p := b.page(sheetSize, l)
	p.putRow(excelize.RowOpts{Height: 24}, p.as("Try a size: what fits a hosel that was measured", title))
	if len(x.ferrules) == 0 {
		p.put(p.as("There are no ferrules to try.", prose))
		p.done()
		return
	}
	tolerance := b.result.Shop.HoselODTolerance
	p.put(p.as(fmt.Sprintf("Type the outside diameter at the very top of the hosel, and choose unit, tip and top. The hosel is taken to vary by ±%s.%s",
		p.opts.Units.Show(tolerance), leftOut(x.left)), note))
	p.put(p.as("The bore is taken to clear the tip and to be as deep as usual. Collars and steps need the sizes of their recess: where they matter the answer is ask. "+
		"A rounded top takes no ferrule.", note))
	t := b.trial(x)
	p.skip(1)
	p.trialInputs(x, t)
	p.trialTable(x, t)
	p.done()
}

// leftOut says how many ferrules the table has no room for, as a sentence more.
func leftOut(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" The %s of use to the fewest heads are left out: the table would be too large.", phrase.Count(n, "ferrule"))
}

var (
	input      = look{bold: true, size: 11, fill: fillAsk, under: true, over: true}
	inputLabel = look{bold: true, down: "center"}
)

// trialInputs writes the cells to type in and the lists to choose from.
func (p *page) trialInputs(x *bench, t trial) {
	unit := p.reader.name()
	od := input
	od.across = "left"
	p.putRow(excelize.RowOpts{Height: 18}, p.as("Hosel OD", inputLabel), p.as(p.reader.value(t.od), od), p.as(unit, input.centred()),
		p.formula(fmt.Sprintf(`IF(%s="","Type a number greater than 0 for the hosel OD, and choose mm or in, a tip and a top.","")`, typedOD()), "", look{bold: true, down: "center"}))
	p.putRow(excelize.RowOpts{Height: 18}, p.as("Tip", inputLabel), p.as(x.tips[t.tip].Name, input))
	p.putRow(excelize.RowOpts{Height: 18}, p.as("Top of the hosel", inputLabel), p.as(x.tops[t.top].String(), input))
	p.put(p.as("That is", note), p.formula(`IF(`+typedOD()+`="","",`+typedOD()+`)`, t.od.Millimetres(), look{color: faint, format: `0.000 "mm"`, across: "left"}),
		p.as("", note), p.formula(`IF(`+typedOD()+`="","",`+typedOD()+`/25.4)`, t.od.Inches(), look{color: faint, format: `#.0000 "in"`, across: "left"}))
	counts := make([]string, 0, len(fitcalc.Verdicts()))
	comes := make([]string, 0, len(fitcalc.Verdicts()))
	answers := p.answers(x, t)
	for _, v := range fitcalc.Verdicts() {
		n := 0
		for _, a := range answers {
			if a.verdict == v {
				n++
			}
		}
		counts = append(counts, fmt.Sprintf(`%s&COUNTIF(%s,"%s")`, inFormula(p.word(v)+" "), workRange("G", len(x.ferrules)), v))
		comes = append(comes, fmt.Sprintf("%s %d", p.word(v), n))
	}
	p.put(p.as("Answers", note), p.formula(strings.Join(counts, `&" · "&`), strings.Join(comes, " · "), note))
	p.skip(1)
	p.validate("B", trialInput, func(v *excelize.DataValidation) error {
		v.SetError(excelize.DataValidationErrorStyleStop, "Hosel OD", "Type the diameter as a number greater than 0, without a unit.")
		return v.SetRange(0, 10_000, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
	})
	p.validate("C", trialInput, func(v *excelize.DataValidation) error { return v.SetDropList([]string{"mm", "in"}) })
	// Lists on other sheets go by a name: programs before Office 2010 take no other way.
	for i, list := range []struct {
		name, column string
		count        int
	}{{"tips_to_try", workTips, len(x.tips)}, {"tops_to_try", workTops, len(x.tops)}} {
		p.do(func() error {
			return p.file.SetDefinedName(&excelize.DefinedName{
				Name: list.name, RefersTo: workRange(list.column, list.count),
			})
		})
		p.validate("B", trialInput+1+i, func(v *excelize.DataValidation) error {
			v.SetSqrefDropList(list.name)
			return nil
		})
	}
}

func (p *page) validate(column string, row int, set func(*excelize.DataValidation) error) {
	p.do(func() error {
		v := excelize.NewDataValidation(false)
		v.Sqref = fmt.Sprintf("%s%d", column, row)
		if err := set(v); err != nil {
			return err
		}
		return p.file.AddDataValidation(p.name, v)
	})
}

// inFormula is a text as a formula has it.
func inFormula(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }

func typedOD() string    { return quoted(sheetWorking) + "!$B$1" }
func typedBlock() string { return quoted(sheetWorking) + "!$B$2" }

// workRange is a column of the working sheet, of as many rows.
func workRange(column string, count int) string {
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(sheetWorking), column, workHeading+1, column, workHeading+count)
}

// trialTable lists the ferrules, those that ask least first.
func (p *page) trialTable(x *bench, t trial) {
	first, second := reader{p.opts.Units}, reader{fitcalc.Imperial}
	if first.name() == "in" {
		second = reader{fitcalc.Metric}
	}
	in := func(heading string, r reader, width float64) report.Column {
		return report.Count(heading+", "+r.name(), width)
	}
	list := []report.Column{
		report.Text("Ferrule", 16), report.Text("Ferrule is", 26), report.Verdict("Verdict", 9), in("Turn-down on the diameter", first, 13), in("per side", first, 9),
		in("Turn-down on the diameter", second, 13), in("per side", second, 9), in("Oversize on the diameter", first, 12), in("Fits hosels from", first, 11), in("to", first, 11),
		in("Base OD", first, 9), in("Bore", first, 9), in("Length", first, 9), report.Source("Ferrule from", 34),
	}
	headings := make([]any, len(list))
	for i, c := range list {
		headings[i] = p.as(c.Heading, headingLook(c.Kind))
	}
	p.putRow(excelize.RowOpts{Height: heightFor(3) + 4}, headings...)
	answers := p.answers(x, t)
	for n, at := range inOrderOf(answers) {
		p.trialRow(x, t, n, answers[at], first, second)
	}
	p.verdictFills(fmt.Sprintf("C%d:C%d", trialHeading+1, trialHeading+len(x.ferrules)))
}

// trialRow is the n-th ferrule of the list.
func (p *page) trialRow(x *bench, t trial, n int, a tried, first, second reader) {
	at := fmt.Sprintf("%s!$I$%d", quoted(sheetWorking), workHeading+1+n)
	// A cell without anything in it would come to 0.
	unlessEmpty := func(cell, by string) string {
		return fmt.Sprintf(`IF(%s="","",IF(%s="","",%s%s))`, at, cell, cell, by)
	}
	workCell := func(column string) string {
		return fmt.Sprintf("INDEX(%s,%s)", workRange(column, len(x.ferrules)), at)
	}
	pick := func(column string) string { return unlessEmpty(workCell(column), "") }
	inUnit := func(column string, r reader) string { return unlessEmpty(workCell(column), r.ofMM()) }
	window := func(column string) string {
		return unlessEmpty(fmt.Sprintf("INDEX(%s,%s+%s)", windowRange(column, column, len(x.windows)), typedBlock(), at), "")
	}
	ferrule := &p.result.Catalogue.Ferrules[x.ferrules[a.ferrule]]
	base, bore := ferrule.Ferrule.BaseOD, p.result.Bore(x.ferrules[a.ferrule])
	row := trialHeading + 1 + n
	baseCell := workCell("C")
	code := workCell("G")
	off := fmt.Sprintf(`IF(%s="","",IF(OR(%s="turn",%s="prep",%s="measure"),MAX(0,ROUND(%s-%s,9))%%s,IF(%s="flush",0,"")))`, at, code, code, code, baseCell, typedOD(), code)
	verdicts := len(fitcalc.Verdicts())
	word := fmt.Sprintf(`IF(%s="","",INDEX(%s,MATCH(%s,%s,0)))`, at, workRange(workWords, verdicts), code, workRange(workRanks, verdicts))
	over := fmt.Sprintf(`IF(%s="","",IF(%s="","",ROUND(%s-%s,9)%s))`, at, baseCell, baseCell, typedOD(), first.ofMM())
	scaled := func(cell, by string) string { return fmt.Sprintf(`IF(%s="","",%s%s)`, cell, cell, by) }
	inFirst, inSecond := address(4, row), address(6, row)
	down := measure.Length{}
	if a.verdict.Fits() && a.verdict != fitcalc.Flush {
		down = measure.Max(measure.Length{}, base.Middle().Sub(t.od))
	}
	amount := func(r reader, half int64) any {
		if !a.verdict.Fits() {
			return ""
		}
		return r.value(down) / float64(half)
	}
	number := func(r reader, known bool, l measure.Length) any {
		if !known {
			return ""
		}
		return r.value(l)
	}
	format := func(r reader, more string) look { return strong.light().number(r.format() + more) }
	p.put(
		p.formula(pick("A"), ferrule.Part, strong), p.formula(pick("B"), ferrule.Description, plain),
		p.formula(word, p.word(a.verdict), plain.centred()),
		p.formula(fmt.Sprintf(off, first.ofMM()), amount(first, 1), format(first, "")), p.formula(scaled(inFirst, "/2"), amount(first, 2), format(first, "0")),
		p.formula(fmt.Sprintf(off, second.ofMM()), amount(second, 1), format(second, "")), p.formula(scaled(inSecond, "/2"), amount(second, 2), format(second, "0")),
		p.formula(over, number(first, base.Given(), base.Middle().Sub(t.od)), format(first, "")),
		p.formula(window("D"), number(first, a.fits, a.from), plain.number(first.fine())),
		p.formula(window("E"), number(first, a.fits, a.to), plain.number(first.fine())),
		p.formula(inUnit("C", first), number(first, base.Given(), base.Middle()), format(first, "")),
		p.formula(inUnit("D", first), number(first, bore.Given(), bore.Nominal()), format(first, "")),
		p.formula(inUnit("E", first), number(first, ferrule.Ferrule.Length.Given(), ferrule.Ferrule.Length.Nominal()), format(first, "")),
		p.formula(pick("F"), p.placeName(report.FromFerrule(ferrule)), plain),
	)
}

// verdictFills colours verdicts as the other sheets do, whatever they come to.
func (p *page) verdictFills(area string) {
	var rules []excelize.ConditionalFormatOptions
	for _, v := range fitcalc.Verdicts() {
		l := verdictLook(v)
		p.do(func() error {
			style, err := p.file.NewConditionalStyle(&excelize.Style{
				Font: &excelize.Font{Color: l.color, Bold: l.bold},
				Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{l.fill}},
			})
			rules = append(rules, excelize.ConditionalFormatOptions{
				Type: "cell", Criteria: "==", Value: inFormula(p.word(v)), Format: &style,
			})
			return err
		})
	}
	p.do(func() error { return p.file.SetConditionalFormat(p.name, area, rules) })
}

// workingSheet is where the answers are worked out and sorted. It is hidden: nobody needs to look at it.
func (b *book) workingSheet(x *bench) {
	if len(x.ferrules) == 0 {
		return
	}
	p := b.page(sheetWorking, layout{widths: []float64{18, 26, 12, 12, 12, 34, 10, 16, 10, 4, 4, 20, 16, 10, 10}, tab: faint, unprinted: true})
	t := b.trial(x)
	size := func(cell string) string { return quoted(sheetSize) + "!" + cell }
	od, unit := size(fmt.Sprintf("$B$%d", trialInput)), size(fmt.Sprintf("$C$%d", trialInput))
	block := fmt.Sprintf(`(MATCH(%s,%s,0)-1)*%d+(MATCH(%s,%s,0)-1)*%d`,
		size(fmt.Sprintf("$B$%d", trialInput+1)), workRange(workTips, len(x.tips)), len(x.tops)*len(x.ferrules),
		size(fmt.Sprintf("$B$%d", trialInput+2)), workRange(workTops, len(x.tops)), len(x.ferrules))
	p.put(p.as("Hosel OD, mm", plain), p.formula(
		fmt.Sprintf(`IF(ISNUMBER(%s),IF(AND(%s>0,ISNUMBER($B$2)),IF(%s="in",ROUND(%s*25.4,9),IF(%s="mm",ROUND(%s,9),"")),""),"")`, od, od, unit, od, unit, od),
		t.od.Millimetres(), plain))
	p.put(p.as("Rows of “"+sheetWindows+"” before these", plain), p.formula(block, x.row(t.tip, t.top, 0), plain))
	p.put(p.as("This sheet works out “"+sheetSize+"”.", note))
	var headings []any
	for _, h := range []string{"Ferrule", "Ferrule is", "Base OD, mm", "Bore, mm", "Length, mm", "Ferrule from", "Verdict", "Sorted by", "Place", "", "", "Tips", "Tops", "Order", "Words"} {
		headings = append(headings, p.as(h, heading))
	}
	p.put(headings...)
	answers := p.answers(x, t)
	order := inOrderOf(answers)
	for i := range max(len(x.ferrules), len(x.tips), len(fitcalc.Verdicts())) {
		p.put(append(p.workingRow(x, i, answers, order), p.workingLists(x, i)...)...)
	}
	p.done()
	p.do(func() error { return p.file.SetSheetVisible(sheetWorking, false) })
}

// workingRow works out the answer for one ferrule, and which stands at its place in the list.
func (p *page) workingRow(x *bench, i int, answers []tried, order []int) []any {
	if i >= len(x.ferrules) {
		return make([]any, 9)
	}
	ferrule := &p.result.Catalogue.Ferrules[x.ferrules[i]]
	mm := func(d measure.Dim) any {
		if !d.Given() {
			return p.as("", plain)
		}
		return p.as(d.Nominal().Millimetres(), plain)
	}
	row := workHeading + 1 + i
	froms, verdicts := x.windowColumns()
	// Half a picometre more than was typed: the ends are whole picometres, so that nothing hangs on the last digit of a double.
	found := fmt.Sprintf(`IF($B$1="","",INDEX(%s,$B$2+%d,MATCH($B$1+0.0000000005,INDEX(%s,$B$2+%d,0),1)))`,
		windowRange(verdicts[0], verdicts[1], len(x.windows)), i+1, windowRange(froms[0], froms[1], len(x.windows)), i+1)
	key := fmt.Sprintf(`IF(G%d="","",MATCH(G%d,%s,0)*1000000+IF(C%d="",90000,MIN(90000,ROUND(ABS(C%d-$B$1)*1000,0)))+%d/100000)`,
		row, row, workRange(workRanks, len(fitcalc.Verdicts())), row, row, i+1)
	keys := workRange("H", len(x.ferrules))
	place := fmt.Sprintf(`IF($B$1="","",MATCH(SMALL(%s,%d),%s,0))`, keys, i+1, keys)
	return []any{
		p.as(ferrule.Part, plain), p.as(ferrule.Description, plain), mm(ferrule.Ferrule.BaseOD), mm(p.result.Bore(x.ferrules[i])), mm(ferrule.Ferrule.Length),
		p.as(p.placeName(report.FromFerrule(ferrule)), plain),
		p.formula(found, answers[i].verdict.String(), plain), p.formula(key, answers[i].key, plain), p.formula(place, order[i]+1, plain),
	}
}

// workingLists are the lists to choose from.
func (p *page) workingLists(x *bench, i int) []any {
	cells := []any{nil, nil, nil, nil, nil, nil}
	if i < len(x.tips) {
		cells[2] = p.as(x.tips[i].Name, plain)
	}
	if i < len(x.tops) {
		cells[3] = p.as(x.tops[i].String(), plain)
	}
	if verdicts := fitcalc.Verdicts(); i < len(verdicts) {
		cells[4], cells[5] = p.as(verdicts[i].String(), plain), p.as(p.word(verdicts[i]), plain)
	}
	return cells
}

// windowFixed is how many columns of the table of windows stand before the windows themselves.
const windowFixed = 5

// windowColumns are the first and last columns of the beginnings of windows, and of their verdicts.
func (x *bench) windowColumns() (froms, verdicts [2]string) {
	return [2]string{columnName(windowFixed + 1), columnName(windowFixed + x.columns)},
		[2]string{columnName(windowFixed + x.columns + 1), columnName(windowFixed + 2*x.columns)}
}

const windowHeading = 5

// windowRange is a range of columns of the table of windows, over all its rows.
func windowRange(from, to string, rows int) string {
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(sheetWindows), from, windowHeading+1, to, windowHeading+rows)
}

// windowsSheet is the table that a size is looked up in.
func (b *book) windowsSheet(x *bench) {
	t := report.Section{
		Name: sheetWindows, Title: "For which hosels each ferrule fits", LookUp: true,
		Notes: []string{
			"“" + sheetSize + "” looks sizes up here. An answer holds from its beginning, in mm, to just under the next one.",
			fmt.Sprintf("From and to, in %s, are the least and the largest hosel OD that the ferrule fits, rounded inward to %s: every size between them fits.",
				b.reader.long(), b.reader.stepName()),
			"Sizes are nominal hosel ODs; the hosel varies by ±" + b.opts.Units.Show(b.result.Shop.HoselODTolerance) + " about them.",
		},
		Columns: []report.Column{
			report.Text("Tip", 16), report.Text("Top", 13), report.Text("Ferrule", 14).Bold(), report.Fine("Fits hosels from", 11), report.Fine("to", 11),
		},
		Frozen: 3, Tone: report.Aside, Empty: "There are no ferrules.",
	}
	for i := range x.columns {
		t.Columns = append(t.Columns, report.Count(fmt.Sprintf("%d begins at, mm", i+1), 14))
	}
	for i := range x.columns {
		t.Columns = append(t.Columns, report.Verdict(fmt.Sprintf("answer %d", i+1), 9))
	}
	p := b.open(t.Name, &t, columns{shown: windowFixed, whole: true})
	for i, windows := range x.windows {
		block := i / len(x.ferrules)
		ferrule := &b.result.Catalogue.Ferrules[x.ferrules[i%len(x.ferrules)]]
		from, to, fits := fitting(windows, b.reader.step())
		cells := p.cells([]any{
			x.tips[block/len(x.tops)].Name, x.tops[block%len(x.tops)].String(), ferrule.Part, report.Size{Known: fits, Length: from}, report.Size{Known: fits, Length: to},
		})
		for c := range x.columns {
			begins := p.as(noWindow, plain.number(`[>=1000000]"";0.000`))
			if c < len(windows) {
				begins.Value = windows[c].HoselOD.Lower().At().Millimetres()
			}
			cells = append(cells, begins)
		}
		for c := range x.columns {
			if c < len(windows) {
				cells = append(cells, p.as(windows[c].Verdict.String(), verdictLook(windows[c].Verdict)))
			} else {
				cells = append(cells, p.as("", plain))
			}
		}
		p.put(cells...)
	}
	p.close()
	if len(x.windows) > b.limits.rows { // nobody reads that many
		p.do(func() error { return p.file.SetSheetVisible(sheetWindows, false) })
	}
}

func (r reader) stepName() string {
	if r.units == fitcalc.Metric {
		return "0.001 mm"
	}
	return ".0001 in"
}
