package catalog

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
)

// head makes a typed head of an entry.
func (e *entry) head() Head {
	t, f := e.table, e.fields
	h := Head{Category: categories[e.category]}
	h.Head = fitcalc.Head{
		Category:    h.Category,
		HoselOD:     f.Dim(HoselOD),
		BoreDepth:   f.Dim(BoreDepth),
		HoselLength: f.Dim(HoselLength),
		NeckTop:     f.Dim(NeckTop),
		Top:         topForms[t.lex.word(topQuestion(f.Text(Top)))],
		Countersink: fitcalc.Countersink{Mouth: f.Dim(CountersinkMouth), Angle: f.Angle(CountersinkAngle), Depth: f.Dim(CountersinkDepth)},
		Counterbore: fitcalc.Counterbore{Diameter: f.Dim(CounterboreOD), Depth: f.Dim(CounterboreDepth)},
		Adapter:     fitcalc.Adapter{TopOD: f.Dim(AdapterOD)},
	}
	if angle, ok := angleWithin(f.Text(Top)); ok && h.Head.Countersink.Angle.IsZero() && h.Head.Top == fitcalc.TopCountersunk {
		h.Head.Countersink.Angle = angle
	}
	e.form(&h)
	e.tips(&h)
	e.bore(&h)
	h.Item = e.item()
	return h
}

// angleWithin finds the included angle of a countersink in the words for it: "countersunk 90°".
func angleWithin(text string) (measure.Angle, bool) {
	before, _, found := strings.Cut(text, "°")
	if !found {
		return measure.Angle{}, false
	}
	start := len(before)
	for start > 0 && (before[start-1] >= '0' && before[start-1] <= '9' || before[start-1] == '.') {
		start--
	}
	angle, err := measure.ParseAngle(before[start:] + "°")
	return angle, err == nil && angle.Degrees() >= 10 && angle.Degrees() < 180
}

// form takes the form of the hosel's top from the recess that is given, where nothing names it.
func (e *entry) form(h *Head) {
	sink := h.Head.Countersink.Mouth.Given() || h.Head.Countersink.Depth.Given() || !h.Head.Countersink.Angle.IsZero()
	bore := h.Head.Counterbore.Diameter.Given()
	if h.Head.Top != fitcalc.TopUnknown || e.fields.Text(Top) != "" {
		return
	}
	switch {
	case bore:
		h.Head.Top = fitcalc.TopCounterbored
		e.assume("top taken as counterbored: the sheet gives the counterbore's size")
	case sink:
		h.Head.Top = fitcalc.TopCountersunk
		e.assume("top taken as countersunk: the sheet gives the countersink's size")
	}
}

// assume names an assumption of the entry, and of its row in the table.
func (e *entry) assume(text string) {
	longer := e.assumed.with(text)
	if longer == e.assumed {
		return
	}
	e.assumed = longer
	row := &e.table.out.Rows[e.row]
	row.Assumptions = longer.texts
	if row.Outcome == Used {
		row.Outcome = Assumed
	}
}

// remark names an assumption of the typed part about what no list of such parts states, so that its row is read as it stands.
func (e *entry) remark(text string) { e.assumed = e.assumed.with(text) }

// tips reads which tips a head takes, as its column for tips says.
func (e *entry) tips(h *Head) { e.readTips(h, TipTaken) }

// readTips reads the tips that a field names.
func (e *entry) readTips(h *Head, role Role) {
	text := e.fields.Text(role)
	if text == "" {
		return
	}
	t := e.table
	unit := ""
	if c := t.byRole[role]; c != nil {
		unit = c.unit
	}
	reading := t.lex.read(text, value.Context{Want: value.WantDiameter, Unit: unit})
	readings := reading.List
	if reading.Kind != value.List {
		readings = []value.Reading{reading}
	}
	form := t.lex.boreForm(text)
	for _, one := range readings {
		size, ok := tipSize(one)
		if !ok {
			continue
		}
		h.TipTaken = append(h.TipTaken, e.tip(h, size, formOf(one.Form, form)))
	}
}

// tip makes a tip of a size. A .355 in tip is a taper tip unless the sheet says that it is parallel.
func (e *entry) tip(h *Head, size measure.Dim, form value.Form) fitcalc.Tip {
	if form == value.FormUnknown {
		form = e.rowForm()
	}
	if form == value.FormUnknown && isTaperSize(size.Nominal()) {
		form = value.FormTaper
		e.assume(e.table.lex.say("tip %s taken as a taper tip: parallel tips of .355 in are not usual", e.tipText()))
	}
	if form == value.FormTaper {
		e.remark("taper of the tip not given: it is the shop's")
		return fitcalc.UsualTaperTip(size)
	}
	return fitcalc.ParallelTip(size)
}

func (e *entry) tipText() string {
	if text := e.fields.Text(TipTaken); text != "" {
		return text
	}
	return e.fields.Text(Bore)
}

// rowForm is what the row says elsewhere of the form of its bore.
func (e *entry) rowForm() value.Form {
	for _, role := range [...]Role{BoreForm, TipTaken, Bore} {
		text := e.fields.Text(role)
		if text == "" {
			continue
		}
		if form := e.table.lex.boreForm(text); form != value.FormUnknown {
			return form
		}
	}
	if c := e.table.byRole[Bore]; c != nil {
		return e.table.lex.boreForm(c.text)
	}
	return value.FormUnknown
}

// bore decides whether the bore of a head is the size of the hole or the name of the tip that it is made for: a bore of
// exactly .370 in would not take a .370 in tip. A bore with limits of its own is a hole.
func (e *entry) bore(h *Head) {
	f := Field{Text: e.fields.Text(Bore), Dim: e.fields.Dim(Bore)}
	switch e.rowForm() {
	case value.FormParallel:
		h.Head.BoreForm = fitcalc.BoreParallel
	case value.FormTaper:
		h.Head.BoreForm = fitcalc.BoreTapered
	}
	if !f.Dim.Given() {
		e.boreList(h)
		return
	}
	name, named := e.tipName(f)
	if !named || e.table.givesHoles() {
		h.Head.Bore = f.Dim
		return
	}
	h.BoreIsDesignation = true
	e.assume(e.table.lex.say("bore %s taken as the name of the tip and not the size of the hole", f.Text))
	if len(h.TipTaken) == 0 {
		h.TipTaken = []fitcalc.Tip{e.tip(h, measure.Nominal(name), value.FormUnknown)}
	}
}

// boreList takes a bore that names several tips as their names.
func (e *entry) boreList(h *Head) {
	text := e.fields.Text(Bore)
	if text == "" || e.held() {
		return
	}
	c := e.table.byRole[Bore]
	if c == nil {
		return
	}
	reading := e.table.lex.read(text, value.Context{Want: value.WantDiameter, Unit: c.unit, Mark: c.mark})
	if reading.Kind != value.List || !allTips(reading.List) {
		return
	}
	h.BoreIsDesignation = true
	e.assume(fmt.Sprintf("bore %s taken as the names of the tips and not as sizes of the hole", text))
	if len(h.TipTaken) == 0 {
		e.readTips(h, Bore)
	}
}

// tipName returns the tip that a bore is called after: the same size, or in mm the same at the digits shown.
func (e *entry) tipName(f Field) (measure.Length, bool) {
	if f.Dim.HasLimits() && f.Dim.Origin() == measure.Stated {
		return measure.Length{}, false
	}
	size := f.Dim.Nominal()
	slack := measure.Length{}
	if written := numberOf(f.Text); written > 1 && mm(size)/written < 5 && mm(size)/written > 0.1 {
		slack = e.fields.Get(Bore).Fine
		if !measure.Thou(4).Less(slack) {
			slack = measure.Min(slack, measure.Micrometres(50))
		}
	}
	for _, name := range tipNames {
		if !slack.Less(size.Sub(name).Abs()) {
			return name, true
		}
	}
	return measure.Length{}, false
}

// ferrule makes a typed ferrule of an entry.
func (e *entry) ferrule() Ferrule {
	t, f := e.table, e.fields
	made := Ferrule{Colour: f.Text(Colour), Pack: int(f.Number(Pack))}
	made.Ferrule = fitcalc.Ferrule{
		Bore: f.Dim(Bore), ForTip: f.Get(TipTaken).ForTip, BaseOD: f.Dim(BaseOD), TopOD: f.Dim(TopOD), Length: f.Dim(Length),
		Style:    styles[t.lex.word(styleQuestion(f.Text(Style)))],
		Collar:   fitcalc.Spigot{OD: f.Dim(CollarOD), Length: f.Dim(CollarLength)},
		Step:     fitcalc.Spigot{OD: f.Dim(StepOD), Length: f.Dim(StepLength)},
		Rings:    int(max(0, f.Number(Rings))),
		Material: materials[t.lex.word(materialQuestion(f.Text(Material)))],
	}
	if made.Ferrule.Style == fitcalc.StyleUnknown && f.Text(Style) == "" {
		if taken := made.Ferrule.TakenStyle(); taken != fitcalc.Plain {
			made.Ferrule.Style = taken
		} else {
			made.Ferrule.Style = styles[t.lex.word(styleQuestion(f.Text(Description)))]
		}
	}
	made.Item = e.item()
	return made
}

// tipItem makes a typed tip of an entry.
func (e *entry) tipItem() Tip {
	t, f := e.table, e.fields
	made := Tip{}
	size := f.Dim(TipOD)
	form := t.lex.boreForm(f.Text(TipForm))
	rate, stated := t.lex.taperOf(f.Text(Taper))
	for _, text := range []string{f.Text(TipOD), f.Text(Taper), f.Text(Description)} {
		if form == value.FormUnknown && text != "" {
			form = t.lex.boreForm(text)
		}
	}
	switch {
	case !size.Given():
	case stated && rate.PPB() > 0:
		made.Tip = fitcalc.TaperTip(size, rate)
	case stated && form != value.FormTaper, form == value.FormParallel:
		made.Tip = fitcalc.ParallelTip(size)
	case form == value.FormTaper:
		e.assume("taper of the tip not given: it is the shop's")
		made.Tip = fitcalc.UsualTaperTip(size)
	case isTaperSize(size.Nominal()):
		e.assume(fmt.Sprintf("tip %s taken as a taper tip: parallel tips of .355 in are not usual", f.Text(TipOD)))
		made.Tip = fitcalc.UsualTaperTip(size)
	default:
		e.assume(fmt.Sprintf("tip %s taken as parallel: the sheet does not say", f.Text(TipOD)))
		made.Tip = fitcalc.ParallelTip(size)
	}
	made.Item = e.item()
	return made
}

var topForms = map[string]fitcalc.TopForm{
	"flat": fitcalc.TopFlat, "rounded": fitcalc.TopRounded, "countersunk": fitcalc.TopCountersunk, "counterbored": fitcalc.TopCounterbored,
}

var styles = map[string]fitcalc.Style{"plain": fitcalc.Plain, "collared": fitcalc.Collared, "stepped": fitcalc.Stepped}

var materials = map[string]fitcalc.Material{
	"cellulose_acetate": fitcalc.CelluloseAcetate, "cellulose_acetate_butyrate": fitcalc.CelluloseAcetateButyrate, "abs": fitcalc.ABS,
	"nylon": fitcalc.Nylon, "acetal": fitcalc.Acetal, "other": fitcalc.OtherMaterial,
}
