// Package text reads text files with separated cells (CSV and its relatives with tabs, semicolons or vertical bars) into
// a sheet.
//
// Such a file says neither in which encoding it is nor by what its cells are separated. Both are found out here, in this
// order: a byte order mark; UTF-16 by the zero bytes of its digits and separators; UTF-8, which other encodings hardly
// ever look like; and otherwise the encoding in which the text is most like a text of its language. The separator is the
// one that cuts the rows into equally many cells. What was chosen, and what else would have fitted nearly as well, stands
// in the notes of the book, so that a person can object.
//
// Quotes follow RFC 4180, with patience for what other programs write: a quotation mark inside a cell that does not
// begin with one is an ordinary sign (3/8"), and one that is never closed is too. Rows keep the length they have. Every
// cell is Text or Blank: what is a number is for the next reader to say.
package text

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/sniff"
	"example.com/seatline/reconcile/sheet/records"
)

// The codes of the notes that this package writes.
const (
	// CodeEncoding says in which encoding the file was read.
	CodeEncoding = "file.encoding"
	// CodeSeparator says by what the cells are separated.
	CodeSeparator = "file.separator"
	// CodeQuotes says where quotation marks were taken as ordinary signs.
	CodeQuotes = "file.quotes"
	// CodeRecords says that the file has names with values, and how rows were made of them.
	CodeRecords = "file.records"
)

// Read is [ReadWithin] the default limits.
func Read(name string, data []byte) (*sheet.Book, error) {
	return ReadWithin(name, data, sheet.Limits{})
}

// ReadWithin reads a whole text file; name is what findings and errors call it. The book has one sheet, without a name. Errors
// are of type [*sheet.FileError].
func ReadWithin(name string, data []byte, limits sheet.Limits) (*sheet.Book, error) {
	meter := sheet.NewMeter(name, limits)
	if int64(len(data)) > meter.Limits.TextFile {
		return nil, meter.Limits.Beyond(name, "", "textfile", fmt.Sprintf("it is a text of %d bytes", len(data)))
	}
	form, err := refuse(name, data)
	if err != nil {
		return nil, err
	}
	decoded, err := decode(data)
	if err != nil {
		return nil, &sheet.FileError{File: name, Reason: sheet.ReasonUnsupported, Problem: err.Error(),
			Next: "open it in a spreadsheet program and save it as an xlsx workbook or as CSV in UTF-8", Err: err}
	}
	if book, err := readRecords(name, decoded, meter); book != nil || err != nil {
		return book, err
	}
	if form == sniff.XML {
		return nil, &sheet.FileError{File: name, Reason: sheet.ReasonUnsupported, Problem: "it is an XML document in which no list of parts was found",
			Next: "ask for the data as a workbook (xlsx) or as CSV"}
	}
	decoded.text, decoded.quoted = unquote(decoded.text)
	body, declared := separatorLine(decoded.text)
	if declared == 0 {
		if book, err := readDrawn(name, decoded, meter); book != nil || err != nil {
			return book, err
		}
	}
	found := separation{separator: declared}
	if declared == 0 {
		found = detect(body)
	}
	table, err := parse(body, found, meter)
	if err != nil {
		return nil, err
	}
	book := &sheet.Book{
		File:   name,
		Format: fmt.Sprintf("text, %s, %s", separatorName(found.separator), decoded.encoding),
		Sheets: []*sheet.Sheet{{Rows: table.rows}},
		Notes:  decoded.notes(),
	}
	book.Notes = append(book.Notes, separatorNote(found, declared != 0))
	if len(table.stray) > 0 {
		book.Notes = append(book.Notes, strayNote(table.stray))
	}
	return book, nil
}

// readDrawn reads a text whose columns stand one below the other, with bars or only blanks between them. The book is nil where it is none.
func readDrawn(name string, d decoded, meter *sheet.Meter) (*sheet.Book, error) {
	how := "columns apart by bars"
	rows, rules, ok, err := readFramed(d.text, meter)
	if !ok && err == nil {
		how = "columns apart by blanks"
		rows, rules, ok, err = readAligned(d.text, meter)
	}
	if !ok || err != nil {
		return nil, err
	}
	message := "the text has " + how + ", found by where they stand in most lines"
	if rules > 0 {
		message += fmt.Sprintf("; %d lines of ruling signs were left out", rules)
	}
	return &sheet.Book{
		File:   name,
		Format: fmt.Sprintf("text, %s, %s", how, d.encoding),
		Sheets: []*sheet.Sheet{{Rows: rows}},
		Notes:  append(d.notes(), sheet.Note{Code: CodeSeparator, Message: message}),
	}, nil
}

// readRecords reads a text of names with values. The book is nil where it is none.
func readRecords(name string, d decoded, meter *sheet.Meter) (*sheet.Book, error) {
	found, ok, err := records.In(name, d.text, meter.Limits)
	if !ok || err != nil {
		return nil, err
	}
	message := "the text was read as " + found.How + ": each record is a row, below the names"
	if found.OfLines {
		message = "the text was read as " + found.How + ", which stand side by side"
	}
	book := &sheet.Book{File: name, Format: fmt.Sprintf("text, %s, %s", found.How, d.encoding), Notes: append(d.notes(), sheet.Note{Code: CodeRecords, Message: message})}
	for i, table := range found.Tables {
		one := &sheet.Sheet{}
		if len(found.Tables) > 1 {
			one.Name = fmt.Sprintf("%d %s", i+1, table.Name)
		}
		if err := meter.Sheet(); err != nil {
			return nil, err
		}
		var pool sheet.Pool[string]
		for n, row := range table.Rows {
			cells := cellsOf(row, &pool)
			if err := meter.Row(one.Name, n+1, cells, 1); err != nil {
				return nil, err
			}
			one.Rows = append(one.Rows, cells)
		}
		book.Sheets = append(book.Sheets, one)
	}
	return book, nil
}

// refuse turns down what is no text, and returns the form of what is.
func refuse(name string, data []byte) (sniff.Form, error) {
	found := sniff.Bytes(data)
	if found.Form == sniff.Zip {
		return found.Form, &sheet.FileError{File: name, Reason: sheet.ReasonMisnamed, Problem: "it is no text but a workbook or another zip archive",
			Next: "give it the name ending that it had, such as .xlsx"}
	}
	return found.Form, found.Err(name)
}

func separatorNote(found separation, declared bool) sheet.Note {
	message := "the cells are separated by " + separatorName(found.separator)
	switch {
	case declared:
		message += ", as the first line of the file says"
	case found.spaced:
		message += " with a blank behind them; others stand within numbers"
	case found.separator == 0:
		message = "no separator was found, so each line is one cell"
	case found.other != 0:
		message += "; " + separatorName(found.other) + " would have fitted nearly as well"
	}
	return sheet.Note{Code: CodeSeparator, Message: message}
}

func strayNote(stray []sheet.Ref) sheet.Note {
	message := fmt.Sprintf("the cell %s has a quotation mark that does not follow the rules for quotes; it was kept as it stands", stray[0])
	if len(stray) > 1 {
		message = fmt.Sprintf("%d cells, the first of them %s, have quotation marks that do not follow the rules for quotes; they were kept as they stand", len(stray), stray[0])
	}
	return sheet.Note{Code: CodeQuotes, Ref: stray[0], Message: message}
}

// separatorLine takes off a first line such as "sep=;", by which some programs tell others the separator; no row is
// counted for it.
func separatorLine(text string) (body string, separator byte) {
	end := strings.IndexAny(text, "\r\n")
	if end < 0 {
		end = len(text)
	}
	line := strings.Trim(text[:end], `"`)
	if len(line) != len("sep=;") || !strings.EqualFold(line[:4], "sep=") || line[4] < ' ' && line[4] != '\t' || line[4] >= 0x80 || line[4] == '"' {
		return text, 0
	}
	body = text[end:]
	body = strings.TrimPrefix(strings.TrimPrefix(body, "\r"), "\n")
	return body, line[4]
}
