package data

import (
	"iter"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/fitjson"
	"example.com/seatline/reconcile/publish/csvtext"
)

// header is the first record of fits.csv. Columns of lengths end in their unit.
func (f *fits) header() []byte {
	unit := "_mm"
	if f.opts.Units != fitcalc.Metric {
		unit = "_in"
	}
	b := []byte("head,ferrule,tip,verdict")
	for _, name := range []string{
		"turn_down", "turn_down_most", "oversize", "interference", "grip_length",
	} {
		b = append(append(append(b, ','), name...), unit...)
	}
	b = append(b, ",minutes,reasons,pairs"...)
	if f.opts.Sentences {
		b = append(b, ",why"...)
	}
	return append(b, "\r\n"...)
}

// record makes what follows the tip in a pair's record of fits.csv from the maker's fit.
func (m *fitMaker) record(b []byte) []byte {
	flush, grip := &m.fit.Flush, &m.fit.Grip
	b = append(append(b, ','), m.fit.Verdict.String()...)
	for _, l := range [...]measure.Length{
		flush.TurnDown.Nominal, flush.TurnDown.Most, flush.Oversize.Nominal,
	} {
		b = m.length(b, flush.Known, l)
	}
	b = m.length(b, grip.Known, grip.Interference.Nominal)
	b = m.length(b, grip.Known && grip.KnownLength, grip.Length)
	if b = append(b, ','); m.fit.Work.Known {
		b = fitjson.AppendMinutes(b, m.fit.Work.Minutes)
	}
	return m.endRecord(b, m.fit.Reasons(), 0)
}

// openRecord is record for pairs that are not listed one by one.
func (m *fitMaker) openRecord(b []byte, verdict fitcalc.Verdict, reasons iter.Seq[fitcalc.Reason], pairs int) []byte {
	b = append(append(b, ','), verdict.String()...)
	return m.endRecord(append(b, ",,,,,,"...), reasons, pairs)
}

// endRecord writes the reasons, and of how many pairs the record speaks where it is not about one.
func (m *fitMaker) endRecord(b []byte, reasons iter.Seq[fitcalc.Reason], pairs int) []byte {
	b = append(b, ',')
	begin := len(b)
	var why []string
	for r := range reasons {
		if !fitjson.Told(r.Code) {
			continue
		}
		if len(b) > begin {
			b = append(b, ' ')
		}
		b = append(b, r.Code.String()...)
		if m.opts.Sentences {
			why = append(why, m.opts.Language.Reason(r, m.opts.Units))
		}
	}
	if b = append(b, ','); pairs > 0 {
		b = strconv.AppendInt(b, int64(pairs), 10)
	}
	if m.opts.Sentences {
		b = csvtext.AppendField(append(b, ','), strings.Join(why, "; "))
	}
	return append(b, "\r\n"...)
}

func (m *fitMaker) length(b []byte, known bool, l measure.Length) []byte {
	if b = append(b, ','); known {
		b = m.unit(b, l)
	}
	return b
}
