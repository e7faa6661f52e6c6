package stock

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/sizes"
)

// HoselQuestion is the heads of a catalogue as package sizes takes them.
type HoselQuestion struct {
	Hosels []sizes.Hosel
	// Heads is the head of each hosel. Left are the heads that take no ferrule or whose hosel OD or tip is not known.
	Heads, Left []int
}

// Hosels asks which base ODs to have made. Yearly is how many of each head are made in a year; nil counts each once. Costs are in
// minutes at the bench.
//
// The limits of each hosel are those of [fitcalc.Specify] on the head's first tip: the least base OD that keeps the risk of an undersize base,
// the most that the turn limit allows, and the most that ends flush. Turning costs the shop's rate for a turning, and for each millimetre the
// time by the shop's labour model at the largest base divided by what comes off there, for a plain ferrule of half an inch: a straight line
// for a cost that is nearly one.
//
// The error is a [*SettingError].
func Hosels(r *matrix.Result, yearly []float64) (*HoselQuestion, error) {
	if err := checkYearly(yearly, len(r.Catalogue.Heads)); err != nil {
		return nil, err
	}
	q := &HoselQuestion{}
	specs := newSpecifier(r, measure.Length{})
	if err := specs.all(); err != nil {
		return nil, err
	}
	for h := range r.Catalogue.Heads {
		spec := specs.of(h)
		if spec.why != "" {
			q.Left = append(q.Left, h)
			continue
		}
		hosel := spec.hosel
		hosel.Yearly = 1
		if yearly != nil {
			hosel.Yearly = yearly[h]
		}
		q.Hosels, q.Heads = append(q.Hosels, hosel), append(q.Heads, h)
	}
	return q, nil
}

// below is the largest length in a range whose upper end does not belong to it.
func below(i measure.Interval) measure.Length { return i.Upper().At().Sub(measure.Picometres(1)) }

// hoselOD is the OD that a ferrule has to match: that of the adapter's top, where there is one.
func hoselOD(head *fitcalc.Head) measure.Dim {
	if head.Adapter.TopOD.Given() {
		return head.Adapter.TopOD
	}
	return head.HoselOD
}
