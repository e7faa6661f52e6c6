package decision

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/plan/questions"
)

// WriteQuestionsCSV writes questions as CSV by RFC 4180, with the headings of the sheet, so that it may be filled in and read back as that
// may. Text that a spreadsheet program would take for a formula gets an apostrophe in front (CWE-1236). The error is the
// writer's.
func WriteQuestionsCSV(w io.Writer, list questions.List) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
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
				neutral(q.Supplier), neutral(q.Part), neutral(q.Asks), neutral(q.Says), "", neutral(q.Why), neutral(q.Place.File), neutral(q.Place.Sheet), row,
				q.Place.Cell, q.Kind.String(), strconv.Itoa(q.Settles), strconv.Itoa(q.Helps), strconv.Itoa(q.Carries), q.Key,
			})
		}
	}
	if err := out.WriteAll(records); err != nil {
		return fmt.Errorf("writing the questions as CSV: %w", err)
	}
	return nil
}

// neutral returns text so that no spreadsheet program takes it for a formula, without characters that are no text. The full-width
// signs are there since some programs fold them.
func neutral(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(utf8.RuneError)))
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, " \u00a0"))
	if text != "" && strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) {
		return "'" + text
	}
	return text
}
