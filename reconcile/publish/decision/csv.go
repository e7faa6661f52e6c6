package decision

import (
	"fmt"
	"io"
	"strconv"

	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish/csvtext"
)

// WriteQuestionsCSV writes questions as CSV by RFC 4180, with the headings of the sheet, so that it may be filled in and read back as that
// may. Text that a spreadsheet program would take for a formula gets an apostrophe in front (CWE-1236). The error is the
// writer's.
func WriteQuestionsCSV(w io.Writer, list questions.List) error {
	records := [][]string{{
		"Supplier", questions.HeadingPart, "What is asked", "It says now", questions.HeadingAnswer, "Why", "File", "Sheet", "Row", "Cell", "Kind",
		"Settles", "Helps with", "Rest on it", questions.HeadingKey,
	}}
	for _, g := range list.BySupplier() {
		for _, q := range g.Questions {
			row := ""
			if q.Place.Row > 0 {
				row = strconv.Itoa(q.Place.Row)
			}
			records = append(records, []string{
				csvtext.Neutral(q.Supplier), csvtext.Neutral(q.Part), csvtext.Neutral(q.Asks), csvtext.Neutral(q.Says), "", csvtext.Neutral(q.Why), csvtext.Neutral(q.Place.File), csvtext.Neutral(q.Place.Sheet), row,
				q.Place.Cell, q.Kind.String(), strconv.Itoa(q.Settles), strconv.Itoa(q.Helps), strconv.Itoa(q.Carries), q.Key,
			})
		}
	}
	if err := csvtext.NewWriter(w).WriteAll(records); err != nil {
		return fmt.Errorf("writing the questions as CSV: %w", err)
	}
	return nil
}
