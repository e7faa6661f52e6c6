package data

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
)

// WriteFitsJSONL writes fits.jsonl: one JSON object for each listed pair, in the order of the result. Reasons are in words with
// millimetres first. The error is the writer's.
func WriteFitsJSONL(w io.Writer, r *matrix.Result) error {
	out := bufio.NewWriterSize(w, 1<<16)
	var o object
	for _, p := range r.Pairs {
		o.reset()
		o.pair(r, p)
		if _, err := out.Write(o.line()); err != nil {
			return fmt.Errorf("writing the fits as JSON lines: %w", err)
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the fits as JSON lines: %w", err)
	}
	return nil
}

// pair writes the members of one line of fits.jsonl, in their order.
func (o *object) pair(r *matrix.Result, p matrix.Pair) {
	fit := r.Fit(p)
	head, ferrule := &r.Catalogue.Heads[p.Head], &r.Catalogue.Ferrules[p.Ferrule]
	o.text("head", head.Part)
	o.text("ferrule", ferrule.Part)
	o.given("tip", r.Tips[p.Tip].Name)
	o.text("verdict", fit.Verdict.String())
	o.reasons(&fit)
	o.flush(&fit.Flush)
	o.grip(&fit.Grip, ferrule.Ferrule.Length.Given())
	o.rest(&fit)
	od := hoselOD(&head.Head, &fit)
	o.spread("hosel_od", od.Given(), fitcalc.Amount{Nominal: od.Nominal(), Least: od.Lower(), Most: od.Upper()})
	o.size("base_od_mm", ferrule.Ferrule.BaseOD)
	o.size("ferrule_bore_mm", ferrule.Ferrule.Bore)
	o.size("ferrule_length_mm", ferrule.Ferrule.Length)
	o.strings("assumptions", assumptionCodes(r, p, &fit))
	o.given("head_description", head.Description)
	o.given("head_category", head.Category.String())
	o.given("head_supplier", head.Supplier)
	o.source("head_source", head.Source)
	o.given("ferrule_description", ferrule.Description)
	o.given("ferrule_supplier", ferrule.Supplier)
	o.source("ferrule_source", ferrule.Source)
}

func (o *object) flush(f *fitcalc.FlushFit) {
	o.amount("turn_down_mm", f.Known, f.TurnDown, mm)
	o.amount("turn_down_in", f.Known, f.TurnDown, inch)
	o.amount("turn_down_per_side_mm", f.Known, f.TurnDown.PerSide(), mm)
	o.amount("turn_down_per_side_in", f.Known, f.TurnDown.PerSide(), inch)
	o.spread("oversize", f.Known, f.Oversize)
	o.ratio("undersize_probability", f.Known, f.Undersize)
	o.ratio("visible_undersize_probability", f.Known, f.VisibleUndersize)
	o.ratio("visible_oversize_probability", f.Known, f.VisibleOversize)
}

// grip leaves the length of grip out where that of the ferrule is not given: the seated ferrule has no extent then, and 0 would
// not be true.
func (o *object) grip(g *fitcalc.GripFit, hasLength bool) {
	o.spread("interference", g.Known, g.Interference)
	o.length("grip_length_mm", g.Known && hasLength, g.Length)
	o.ratio("slip_probability", g.Known, g.Slip)
	o.ratio("bore_strain", g.Known, g.Strain)
	o.ratio("split_probability", g.Known, g.Split)
}

// spread writes a size that varies as its nominal value, and beside it the same with its limits.
func (o *object) spread(name string, known bool, a fitcalc.Amount) {
	o.length(name+"_mm", known, a.Nominal)
	o.amount(name+"_limits_mm", known, a, mm)
}

func (o *object) rest(fit *fitcalc.Fit) {
	o.spread("stand_off", fit.Seat.Known, fit.Seat.StandOff)
	o.spread("bore_clearance", fit.Bore.Known, fit.Bore.Clearance)
	o.length("insertion_mm", fit.Bore.KnownInsertion, fit.Bore.Insertion)
	o.length("wall_left_per_side_mm", fit.Work.Known, fit.Work.WallLeft)
	o.number("minutes", fit.Work.Known, func() json.Number { return minutes(fit.Work.Minutes) })
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
