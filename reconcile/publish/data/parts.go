package data

import (
	"bufio"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/fitjson"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
)

// WriteHeadsJSONL writes heads.jsonl: one JSON object for each head, with everything that its pairs have in common. The error is the
// writer's.
func WriteHeadsJSONL(w io.Writer, r *matrix.Result) error {
	p := newParts(r)
	return p.write(w, len(r.Catalogue.Heads), p.head)
}

// WriteFerrulesJSONL is WriteHeadsJSONL for ferrules.
func WriteFerrulesJSONL(w io.Writer, r *matrix.Result) error {
	p := newParts(r)
	return p.write(w, len(r.Catalogue.Ferrules), p.ferrule)
}

// parts is what the lines of all parts have in common.
type parts struct {
	result *matrix.Result
	// findings are those of each row of a source.
	findings map[finding.Place][]*finding.Finding
	fields   []joint.Field
}

func newParts(r *matrix.Result) *parts {
	p := &parts{result: r, findings: map[finding.Place][]*finding.Finding{}, fields: joint.Fields()}
	for i, all := 0, tell.Findings(r); i < len(all); i++ {
		f := &all[i]
		if row := rowOf(f.Place); row > 0 {
			at := finding.Place{File: f.Place.File, Sheet: f.Place.Sheet, Row: row}
			p.findings[at] = append(p.findings[at], f)
		}
	}
	return p
}

// rowOf is the row of a place, of a cell the number at its end.
func rowOf(at finding.Place) int {
	if at.Row > 0 {
		return at.Row
	}
	row, err := strconv.Atoi(strings.TrimLeft(at.Cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
	if err != nil {
		return 0
	}
	return row
}

func (p *parts) write(w io.Writer, n int, line func([]byte, int) []byte) error {
	out := bufio.NewWriterSize(w, 1<<16)
	var b []byte
	for i := range n {
		b = line(b[:0], i)
		if _, err := out.Write(b); err != nil {
			return fmt.Errorf("writing the parts as JSON lines: %w", err)
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the parts as JSON lines: %w", err)
	}
	return nil
}

// head appends a line of heads.jsonl.
func (p *parts) head(b []byte, i int) []byte {
	r, shop := p.result, &p.result.Shop
	h := &r.Catalogue.Heads[i]
	o := fitjson.Object{B: append(b, '{')}
	p.about(&o, "head", &h.Item, r.HeadGeometry(i))
	o.Given("category", h.Category.String())
	tips := &r.HeadTips[i]
	o.Strings("tips", func(yield func(string) bool) {
		for _, tip := range tips.Tips {
			if name := r.Tips[tip].Name; name != "" && !yield(name) {
				return
			}
		}
	})
	o.Text("tips_from", tips.Why)
	j := joint.Joint{Head: h.Head}
	withTolerance(&j.Head.HoselOD, shop.HoselODTolerance)
	withTolerance(&j.Head.Adapter.TopOD, shop.HoselODTolerance)
	withTolerance(&j.Head.Bore, shop.BoreTolerance)
	withTolerance(&j.Head.Adapter.Bore, shop.BoreTolerance)
	p.sizes(&o, &j, joint.OfHead)
	if angle := h.Head.Countersink.Angle; angle != (measure.Angle{}) {
		o.Key("countersink_angle_deg")
		o.B = strconv.AppendFloat(o.B, angle.Degrees(), 'f', -1, 64)
	}
	word(&o, "top", h.Head.Top.String())
	word(&o, "bore_form", h.Head.BoreForm.String())
	o.Text("standing", r.Standing(i).String())
	o.Int("fits", r.HeadFits(i))
	p.came(&o, &h.Item, p.assumptions(r.HeadAssumed(i), ofHead.learned(h.Head.HoselOD, h.Head.Adapter.TopOD, h.Head.Bore), &h.Item, tips.Assumed))
	return append(o.B, "}\n"...)
}

// ferrule appends a line of ferrules.jsonl.
func (p *parts) ferrule(b []byte, i int) []byte {
	r, shop := p.result, &p.result.Shop
	f := &r.Catalogue.Ferrules[i]
	o := fitjson.Object{B: append(b, '{')}
	p.about(&o, "ferrule", &f.Item, r.FerruleGeometry(i))
	word(&o, "colour", f.Colour)
	j := joint.Joint{Ferrule: f.Ferrule}
	withTolerance(&j.Ferrule.Bore, shop.FerruleBoreTolerance)
	withTolerance(&j.Ferrule.BaseOD, shop.FerruleODTolerance)
	p.sizes(&o, &j, joint.OfFerrule)
	word(&o, "for_tip", f.Ferrule.ForTip.String())
	if f.Ferrule.Rings > 0 {
		o.Int("rings", f.Ferrule.Rings)
	}
	word(&o, "style", f.Ferrule.Style.String())
	word(&o, "material", f.Ferrule.Material.String())
	o.Int("fits", r.FerruleFits(i))
	p.came(&o, &f.Item, p.assumptions(r.FerruleAssumed(i), ofFerrule.learned(f.Ferrule.BaseOD, f.Ferrule.Bore), &f.Item, false))
	return append(o.B, "}\n"...)
}

// about writes what a part is called, and which geometry it has: parts of one number fit alike.
func (p *parts) about(o *fitjson.Object, kind string, item *catalog.Item, geometry int) {
	o.Text(kind, item.Part)
	o.Int("geometry", geometry)
	o.Given("description", item.Description)
	o.Given("supplier", item.Supplier)
}

// word writes a word, and nothing where there is none.
func word(o *fitjson.Object, key, text string) {
	if text != "" {
		o.Text(key, text)
	}
}

// withTolerance gives a size without limits the shop's, as deciding does.
func withTolerance(d *measure.Dim, tolerance measure.Length) { *d = d.OrPlusMinus(tolerance) }

func (p *parts) sizes(o *fitjson.Object, j *joint.Joint, of joint.Part) {
	for i := range p.fields {
		if f := &p.fields[i]; f.Part == of {
			if d := f.Dim(j); d != nil {
				o.Size(f.Key, *d)
			}
		}
	}
}

// came writes where a part comes from, what was taken for granted, and what was found at its row.
func (p *parts) came(o *fitjson.Object, item *catalog.Item, assumed []string) {
	o.Strings("assumptions", slices.Values(assumed))
	o.Key("source")
	o.B = append(o.B, '{')
	o.Text("file", item.Source.File)
	o.Text("sheet", item.Source.Sheet)
	o.Int("row", item.Source.Row)
	word(o, "cell", item.Source.Cell)
	o.B = append(o.B, '}')
	o.Key("cells")
	o.B = append(o.B, '{')
	fields := maps.Collect(item.Fields.All())
	for _, role := range slices.Sorted(maps.Keys(fields)) {
		word(o, string(role), fields[role].Cell)
	}
	o.B = append(o.B, '}')
	o.Key("findings")
	o.B = append(o.B, '[')
	for _, f := range p.findings[finding.Place{File: item.Source.File, Sheet: item.Source.Sheet, Row: item.Source.Row}] {
		o.Element()
		o.Text("severity", f.Severity.String())
		o.Text("code", f.Code)
		word(o, "cell", f.Place.Cell)
		o.Text("message", f.Message)
		o.B = append(o.B, '}')
	}
	o.B = append(o.B, ']')
}

// side says whether an assumption of package fitcalc is about the head or its tip, or about the ferrule.
type side func(fitcalc.Assumption) bool

// learned is the side of a part that has these sizes: a tolerance learned from readings is of whichever part has it.
func (s side) learned(sizes ...measure.Dim) side {
	return func(a fitcalc.Assumption) bool {
		if a == fitcalc.AssumedLearnedTolerance {
			return slices.ContainsFunc(sizes, func(d measure.Dim) bool { return d.Origin() == measure.Learned })
		}
		return s(a)
	}
}

var ofFerrule side = func(a fitcalc.Assumption) bool {
	switch a {
	case fitcalc.AssumedBaseODTolerance, fitcalc.AssumedFerruleBoreTolerance, fitcalc.AssumedBoreOfTip, fitcalc.AssumedPlain, fitcalc.AssumedTurnedLength:
		return true
	}
	return false
}

var ofHead side = func(a fitcalc.Assumption) bool { return !ofFerrule(a) }

// assumptions are the codes of what the listed pairs of a part take for granted of it; what was taken for granted in reading its row is
// said in words.
func (p *parts) assumptions(all fitcalc.AssumptionSet, own side, item *catalog.Item, tip bool) []string {
	var codes []string
	for a := range all.All() {
		if own(a) {
			codes = append(codes, a.Code())
		}
	}
	if tip {
		codes = append(codes, tell.TipOfBore)
	}
	return append(codes, item.Assumptions...)
}
