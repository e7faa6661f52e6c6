package catalog

import (
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// FileNotes are what is worth knowing about how a file was read.
func FileNotes(b *sheet.Book) finding.List {
	var notes finding.List
	for _, note := range b.Notes {
		notes.Add(finding.Finding{Severity: noteSeverity(note.Code), Code: note.Code, Place: notePlace(b.File, note), Message: note.Message})
	}
	return notes
}

func noteSeverity(code string) finding.Severity {
	switch {
	case strings.HasSuffix(code, "encoding"), strings.HasSuffix(code, "format"), strings.HasSuffix(code, "separator"), strings.HasSuffix(code, "records"):
		return finding.Note
	}
	return finding.Warning
}

func notePlace(file string, note sheet.Note) finding.Place {
	place := finding.Place{File: file, Sheet: note.Sheet}
	if note.Ref != (sheet.Ref{}) {
		place.Row, place.Cell = note.Ref.Row, note.Ref.String()
	}
	return place
}
