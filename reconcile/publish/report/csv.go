package report

import (
	"fmt"
	"io"
	"strconv"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/csvtext"
	"example.com/seatline/reconcile/publish/decimal"
)

// WriteCSV writes a section as CSV by RFC 4180, a line for each row below one of headings. Lengths are in the units, which their headings
// name: base_od becomes base_od_mm. Text that a spreadsheet program would compute gets an apostrophe in front, see [csvtext]. The error is
// the writer's.
func WriteCSV(w io.Writer, s *Section, units fitcalc.Units) error {
	out := csvtext.NewWriter(w)
	record := make([]string, len(s.Columns))
	for i, c := range s.Columns {
		record[i] = c.Heading
		if c.Kind.IsLength() {
			record[i] += "_" + UnitName(units)
		}
	}
	err := out.Write(record)
	for _, row := range s.Rows {
		if err != nil {
			break
		}
		for i, cell := range row {
			record[i] = dataText(cell, s.Columns[i].Kind, units)
		}
		err = out.Write(record)
	}
	if err == nil {
		err = out.Flush()
	}
	if err != nil {
		return fmt.Errorf("writing %s as CSV: %w", s.Name, err)
	}
	return nil
}

// dataText is a cell for other software.
func dataText(cell any, kind Kind, units fitcalc.Units) string {
	switch v := bare(cell).(type) {
	case nil:
		return ""
	case string:
		return csvtext.Neutral(v)
	case finding.Place:
		return csvtext.Neutral(v.String())
	case At:
		return csvtext.Neutral(v.String())
	case Size:
		switch {
		case !v.Known:
			return ""
		case units == fitcalc.Metric:
			return string(decimal.Millimetres(v.Length))
		}
		return string(decimal.Inches(v.Length))
	case float64:
		return dataNumber(v, kind)
	default:
		return fmt.Sprint(v)
	}
}

func dataNumber(x float64, kind Kind) string {
	switch kind {
	case KindMoney, KindMinutes:
		return string(decimal.Of(x, 2))
	case KindHours:
		return string(decimal.Of(x, 3))
	case KindPieces, KindPrice:
		return string(decimal.Of(x, 4))
	case KindShare:
		return string(decimal.Share(x))
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// bare is a cell without what it looks like.
func bare(cell any) any {
	switch v := cell.(type) {
	case Strong:
		return bare(v.Cell)
	case Faint:
		return bare(v.Cell)
	case Begins:
		return bare(v.Cell)
	case Marked:
		return bare(v.Cell)
	case Link:
		return v.Text
	case Judged:
		return v.Text
	case Answer:
		return nil
	}
	return cell
}
