package rows

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// Typer makes typed parts of entries. Several may do so at once, each of other entries: a typer has a lexicon of its own, and what it keeps it
// does not share.
type Typer struct {
	lex *lexicon.Lexicon
	// tips are what lists of one tip are cut from.
	tips []fitcalc.Tip
	// longer are the lists of assumptions with one more that were made already.
	longer map[moreAssumed]*assumptions
}

// moreAssumed is a list of assumptions and one more.
type moreAssumed struct {
	list *assumptions
	more string
}

// NewTyper returns a typer that asks a lexicon.
func NewTyper(lex *lexicon.Lexicon) *Typer {
	return &Typer{lex: lex, longer: map[moreAssumed]*assumptions{}}
}

// typing is an entry of which a typed part is being made.
type typing struct {
	*Entry
	by *Typer
}

// Head makes a typed head of an entry, in the place of one that is zero: heads are large, and lists of them long.
func (y *Typer) Head(entry *Entry, h *catalog.Head) {
	e, f := typing{entry, y}, entry.Fields
	h.Category = categories[e.Category]
	h.Head = fitcalc.Head{
		Category:    h.Category,
		HoselOD:     f.Dim(catalog.HoselOD),
		BoreDepth:   f.Dim(catalog.BoreDepth),
		HoselLength: f.Dim(catalog.HoselLength),
		NeckTop:     f.Dim(catalog.NeckTop),
		Top:         topForms[y.lex.Word(lexicon.TopQuestion(f.Text(catalog.Top)))],
		Countersink: fitcalc.Countersink{Mouth: f.Dim(catalog.CountersinkMouth), Angle: f.Angle(catalog.CountersinkAngle), Depth: f.Dim(catalog.CountersinkDepth)},
		Counterbore: fitcalc.Counterbore{Diameter: f.Dim(catalog.CounterboreOD), Depth: f.Dim(catalog.CounterboreDepth)},
		Adapter:     fitcalc.Adapter{TopOD: f.Dim(catalog.AdapterOD)},
	}
	if angle, ok := angleWithin(f.Text(catalog.Top)); ok && h.Head.Countersink.Angle.IsZero() && h.Head.Top == fitcalc.TopCountersunk {
		h.Head.Countersink.Angle = angle
	}
	e.form(h)
	e.tips(h)
	e.bore(h)
	h.Item = e.item()
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
func (e typing) form(h *catalog.Head) {
	sink := h.Head.Countersink.Mouth.Given() || h.Head.Countersink.Depth.Given() || !h.Head.Countersink.Angle.IsZero() ||
		e.isOpen(catalog.CountersinkMouth, catalog.CountersinkDepth, catalog.CountersinkAngle) // open is not absent
	bore := h.Head.Counterbore.Diameter.Given() || e.isOpen(catalog.CounterboreOD, catalog.CounterboreDepth)
	if h.Head.Top != fitcalc.TopUnknown || e.Fields.Text(catalog.Top) != "" {
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
func (e typing) assume(text string) { e.take(e.by.with(e.assumed, text)) }

// remark names an assumption of the typed part about what no list of such parts states, so that its row is read as it stands.
func (e typing) remark(text string) { e.assumed = e.by.with(e.assumed, text) }

// with returns a list of assumptions with one more, the same where it has that already.
func (y *Typer) with(list *assumptions, text string) *assumptions {
	key := moreAssumed{list, text}
	longer := y.longer[key]
	if longer == nil {
		longer = list.alone(text)
		if len(y.longer) < mostNext {
			y.longer[key] = longer
		}
	}
	return longer
}

// Assume names an assumption of the entry, and of its row in the table.
func (e *Entry) Assume(text string) {
	if e.assumed == nil {
		e.assumed = &assumptions{}
	}
	e.take(e.assumed.with(text))
}

// take gives the entry, and its row in the table, a longer list of assumptions.
func (e *Entry) take(longer *assumptions) {
	if longer == e.assumed {
		return
	}
	e.assumed = longer
	row := &e.Table.Out.Rows[e.Row]
	row.Assumptions = longer.texts
	if row.Outcome == catalog.Used {
		row.Outcome = catalog.Assumed
	}
}

// tips reads which tips a head takes, as its column for tips says.
func (e typing) tips(h *catalog.Head) { e.readTips(h, catalog.TipTaken) }

// readTips reads the tips that a field names.
func (e typing) readTips(h *catalog.Head, role catalog.Role) {
	text := e.Fields.Text(role)
	if text == "" || e.isOpen(role) {
		return
	}
	unit := ""
	if c := e.Table.ByRole[role]; c != nil {
		unit = c.Unit
	} else if named, _ := e.by.lex.TipsIn(text, false); len(named) > 0 { // words of a title or description
		for _, tip := range named {
			h.TipTaken = append(h.TipTaken, e.tip(measure.Nominal(tip.Named().Diameter), formsOfTips[tip.Form]))
		}
		return
	}
	reading := e.by.lex.Read(text, value.Context{Want: value.WantDiameter, Unit: unit})
	readings := reading.List
	if reading.Kind != value.List {
		readings = []value.Reading{reading}
	}
	form := e.by.lex.BoreForm(text)
	for _, one := range readings {
		size, ok := cells.TipSize(one)
		if !ok {
			continue
		}
		h.TipTaken = append(h.TipTaken, e.tip(size, cells.FormOf(one.Form, form)))
	}
}

// tip makes a tip of a size. A .355 in tip is a taper tip unless the sheet says that it is parallel.
func (e typing) tip(size measure.Dim, form value.Form) fitcalc.Tip {
	if form == value.FormUnknown {
		form = e.rowForm()
	}
	if form == value.FormUnknown && traits.IsTaperSize(size.Nominal()) {
		form = value.FormTaper
		e.assume(e.by.lex.Say("tip %s taken as a taper tip: parallel tips of .355 in are not usual", e.tipText()))
	}
	if form == value.FormTaper {
		e.remark("taper of the tip not given: it is the shop's")
		return fitcalc.UsualTaperTip(size)
	}
	return fitcalc.ParallelTip(size)
}

// oneTip makes a list of one tip.
func (y *Typer) oneTip(tip fitcalc.Tip) []fitcalc.Tip {
	const room = 256
	if len(y.tips) == cap(y.tips) {
		y.tips = make([]fitcalc.Tip, 0, room)
	}
	y.tips = append(y.tips, tip)
	at := len(y.tips)
	return y.tips[at-1 : at : at]
}

func (e typing) tipText() string {
	if text := e.Fields.Text(catalog.TipTaken); text != "" {
		return text
	}
	return e.Fields.Text(catalog.Bore)
}

// rowForm is what the row says elsewhere of the form of its bore.
func (e typing) rowForm() value.Form {
	for _, role := range [...]catalog.Role{catalog.BoreForm, catalog.TipTaken, catalog.Bore} {
		text := e.Fields.Text(role)
		if text == "" {
			continue
		}
		if form := e.by.lex.BoreForm(text); form != value.FormUnknown {
			return form
		}
	}
	if c := e.Table.ByRole[catalog.Bore]; c != nil {
		return e.by.lex.BoreForm(c.Text)
	}
	return value.FormUnknown
}

// bore decides whether the bore of a head is the size of the hole or the name of the tip that it is made for: a bore of
// exactly .370 in would not take a .370 in tip. A bore with limits of its own is a hole.
func (e typing) bore(h *catalog.Head) {
	f := catalog.Field{Text: e.Fields.Text(catalog.Bore), Dim: e.Fields.Dim(catalog.Bore)}
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
	if !named || e.Table.givesHoles {
		h.Head.Bore = f.Dim
		return
	}
	h.BoreIsDesignation = true
	e.assume(e.by.lex.Say("bore %s taken as the name of the tip and not the size of the hole", f.Text))
	if len(h.TipTaken) == 0 {
		h.TipTaken = e.by.oneTip(e.tip(measure.Nominal(name), value.FormUnknown))
	}
}

// boreList takes a bore that names several tips as their names.
func (e typing) boreList(h *catalog.Head) {
	text := e.Fields.Text(catalog.Bore)
	if text == "" || e.Held() || e.isOpen(catalog.Bore) {
		return
	}
	c := e.Table.ByRole[catalog.Bore]
	if c == nil {
		return
	}
	reading := e.by.lex.Read(text, value.Context{Want: value.WantDiameter, Unit: c.Unit, Mark: c.Mark})
	if reading.Kind != value.List || !cells.AllTips(reading.List) {
		return
	}
	h.BoreIsDesignation = true
	e.assume(fmt.Sprintf("bore %s taken as the names of the tips and not as sizes of the hole", text))
	if len(h.TipTaken) == 0 {
		e.readTips(h, catalog.Bore)
	}
}

// tipName returns the tip that a bore is called after: the same size, or in mm the same at the digits shown.
func (e typing) tipName(f catalog.Field) (measure.Length, bool) {
	if f.Dim.HasLimits() && f.Dim.Origin() == measure.Stated {
		return measure.Length{}, false
	}
	size := f.Dim.Nominal()
	slack := measure.Length{}
	if written := cells.NumberOf(f.Text); written > 1 && traits.MM(size)/written < 5 && traits.MM(size)/written > 0.1 {
		slack = e.Fields.Get(catalog.Bore).Fine
		if !measure.Thou(4).Less(slack) {
			slack = measure.Min(slack, measure.Micrometres(50))
		}
	}
	for _, name := range traits.TipNames {
		if !slack.Less(size.Sub(name).Abs()) {
			return name, true
		}
	}
	return measure.Length{}, false
}

// Ferrule makes a typed ferrule of an entry.
func (y *Typer) Ferrule(e *Entry) catalog.Ferrule {
	f := e.Fields
	made := catalog.Ferrule{Colour: f.Text(catalog.Colour), Pack: int(f.Number(catalog.Pack))}
	made.Ferrule = fitcalc.Ferrule{
		Bore: f.Dim(catalog.Bore), ForTip: f.Get(catalog.TipTaken).ForTip, BaseOD: f.Dim(catalog.BaseOD), TopOD: f.Dim(catalog.TopOD), Length: f.Dim(catalog.Length),
		Style:    styles[y.lex.Word(lexicon.StyleQuestion(f.Text(catalog.Style)))],
		Collar:   fitcalc.Spigot{OD: f.Dim(catalog.CollarOD), Length: f.Dim(catalog.CollarLength)},
		Step:     fitcalc.Spigot{OD: f.Dim(catalog.StepOD), Length: f.Dim(catalog.StepLength)},
		Rings:    int(max(0, f.Number(catalog.Rings))),
		Material: materials[y.lex.Word(lexicon.MaterialQuestion(f.Text(catalog.Material)))],
	}
	if style := f.Text(catalog.Style); made.Ferrule.Style == fitcalc.StyleUnknown && (style == "" || y.lex.BoreForm(style) != value.FormUnknown) {
		switch taken := made.Ferrule.TakenStyle(); {
		case taken == fitcalc.Stepped, e.isOpen(catalog.StepOD, catalog.StepLength): // open is not absent: a step that cannot be read is one
			made.Ferrule.Style = fitcalc.Stepped
		case taken == fitcalc.Collared, e.isOpen(catalog.CollarOD, catalog.CollarLength):
			made.Ferrule.Style = fitcalc.Collared
		default:
			made.Ferrule.Style = styles[y.lex.Word(lexicon.StyleQuestion(f.Text(catalog.Description)))]
		}
	}
	made.Item = e.item()
	return made
}

// TipItem makes a typed tip of an entry.
func (y *Typer) TipItem(entry *Entry) catalog.Tip {
	e, f := typing{entry, y}, entry.Fields
	made := catalog.Tip{}
	size := f.Dim(catalog.TipOD)
	form := y.lex.BoreForm(f.Text(catalog.TipForm))
	rate, stated := y.lex.TaperOf(f.Text(catalog.Taper))
	for _, text := range []string{f.Text(catalog.TipOD), f.Text(catalog.Taper), f.Text(catalog.Description)} {
		if form == value.FormUnknown && text != "" {
			form = y.lex.BoreForm(text)
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
	case traits.IsTaperSize(size.Nominal()):
		e.assume(fmt.Sprintf("tip %s taken as a taper tip: parallel tips of .355 in are not usual", f.Text(catalog.TipOD)))
		made.Tip = fitcalc.UsualTaperTip(size)
	default:
		e.assume(fmt.Sprintf("tip %s taken as parallel: the sheet does not say", f.Text(catalog.TipOD)))
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
