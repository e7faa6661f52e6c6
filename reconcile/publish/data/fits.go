package data

import (
	"bufio"
	"fmt"
	"io"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/fitjson"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
)

// WriteFitsJSONL writes fits.jsonl: one JSON object for each listed pair, in the order of the result. Reasons are in words with
// millimetres first. The error is the writer's.
func WriteFitsJSONL(w io.Writer, r *matrix.Result) error {
	out := bufio.NewWriterSize(w, 1<<16)
	var line []byte
	for _, p := range r.Pairs {
		line = appendPair(line[:0], r, p)
		if _, err := out.Write(line); err != nil {
			return fmt.Errorf("writing the fits as JSON lines: %w", err)
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the fits as JSON lines: %w", err)
	}
	return nil
}

// appendPair appends one line of fits.jsonl.
func appendPair(line []byte, r *matrix.Result, p matrix.Pair) []byte {
	fit := r.Fit(p)
	head, ferrule := &r.Catalogue.Heads[p.Head], &r.Catalogue.Ferrules[p.Ferrule]
	o := fitjson.Object{B: append(line, '{')}
	o.Text("head", head.Part)
	o.Text("ferrule", ferrule.Part)
	o.Given("tip", r.Tips[p.Tip].Name)
	o.Fit(&fit, fitcalc.Metric)
	od := hoselOD(&head.Head, &fit)
	o.Spread("hosel_od", od.Given(), fitcalc.Amount{Nominal: od.Nominal(), Least: od.Lower(), Most: od.Upper()})
	size(&o, "base_od_mm", ferrule.Ferrule.BaseOD)
	size(&o, "ferrule_bore_mm", ferrule.Ferrule.Bore)
	size(&o, "ferrule_length_mm", ferrule.Ferrule.Length)
	o.Strings("assumptions", slices.Values(assumptionCodes(r, p, &fit)))
	o.Given("head_description", head.Description)
	o.Given("head_category", head.Category.String())
	o.Given("head_supplier", head.Supplier)
	source(&o, "head_source", head.Source)
	o.Given("ferrule_description", ferrule.Description)
	o.Given("ferrule_supplier", ferrule.Supplier)
	source(&o, "ferrule_source", ferrule.Source)
	return append(o.B, "}\n"...)
}

// size writes the nominal size of a dimension, null where it is not given.
func size(o *fitjson.Object, name string, d measure.Dim) { o.Length(name, d.Given(), d.Nominal()) }

func source(o *fitjson.Object, name string, s catalog.Source) {
	o.Key(name)
	o.B = append(o.B, '{')
	o.Text("file", s.File)
	o.Text("sheet", s.Sheet)
	o.Int("row", s.Row)
	if s.Cell != "" {
		o.Text("cell", s.Cell)
	}
	o.B = append(o.B, '}')
}

// hoselOD returns the OD that was used, or where nothing could be compared, the one that would be.
func hoselOD(head *fitcalc.Head, fit *fitcalc.Fit) measure.Dim {
	if fit.Flush.Known {
		return fit.Flush.HoselOD
	}
	return head.JointOD()
}

// assumptionCodes are the codes of a pair's assumptions; what was taken for granted in reading the rows is said in words.
func assumptionCodes(r *matrix.Result, p matrix.Pair, fit *fitcalc.Fit) []string {
	assumptions := tell.Assumptions(r, p, fit)
	codes := make([]string, len(assumptions))
	for i, a := range assumptions {
		codes[i] = a.String()
	}
	return codes
}
