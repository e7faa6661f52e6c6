package open_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/ziptest"
	"example.com/seatline/reconcile/sheet/open"
)

func workbookBytes(t *testing.T) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetSheetRow("Sheet1", "A1", &[]any{"part", 13.6}); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func openDocumentBytes(t *testing.T) []byte {
	t.Helper()
	return ziptest.Pack(t, "content.xml", `<o:document-content xmlns:o="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:t="urn:oasis:names:tc:opendocument:xmlns:table:1.0"`+
		` xmlns:x="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><o:body><o:spreadsheet><t:table t:name="S"><t:table-row>`+
		`<t:table-cell o:value-type="string"><x:p>part</x:p></t:table-cell></t:table-row></t:table></o:spreadsheet></o:body></o:document-content>`)
}

// noteCodes returns the codes of the notes of a book.
func noteCodes(book *sheet.Book) []string {
	var codes []string
	for _, note := range book.Notes {
		codes = append(codes, note.Code)
	}
	return codes
}

func TestBytes(t *testing.T) {
	xlsx, ods := workbookBytes(t), openDocumentBytes(t)
	for _, test := range []struct {
		name   string
		data   []byte
		format string
		notes  []string
	}{
		{"irons.xlsx", xlsx, "xlsx workbook", nil},
		{"irons.XLSX", xlsx, "xlsx workbook", nil},
		{"irons", xlsx, "xlsx workbook", nil},
		{"irons.csv", xlsx, "xlsx workbook", []string{open.CodeName}},
		{"irons.ods", ods, "OpenDocument spreadsheet", nil},
		{"irons.xlsx", ods, "OpenDocument spreadsheet", []string{open.CodeName}},
		{"irons.csv", []byte("part,13.6\n"), "text, commas, UTF-8", []string{"file.encoding", "file.separator"}},
		{"irons.html", []byte("<table><tr><td>part<td>13.6</table>"), "web page, UTF-8", []string{"file.encoding"}},
		{"irons.xls", []byte("<html><table><tr><td>part<td>13.6</table>"), "web page, UTF-8", []string{"file.encoding", open.CodeName}},
		{"irons.xlsx", []byte("part;13,6\n"), "text, semicolons, UTF-8", []string{"file.encoding", "file.separator", open.CodeName}},
	} {
		book, err := open.Bytes(test.name, test.data)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if book.Format != test.format || book.File != test.name {
			t.Errorf("%s: the book is %q, %q", test.name, book.File, book.Format)
		}
		if got := book.Sheets[0].Rows[0][0].Raw; got != "part" {
			t.Errorf("%s: A1 is %q", test.name, got)
		}
		if diff := cmp.Diff(test.notes, noteCodes(book)); diff != "" {
			t.Errorf("%s: notes (-want +got)\n%s", test.name, diff)
		}
	}
}

func TestRefusals(t *testing.T) {
	dir := t.TempDir()
	empty := filepath.Join(dir, "empty.csv")
	if err := os.WriteFile(empty, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]sheet.Reason{
		filepath.Join(dir, "missing.csv"): sheet.ReasonUnreadable,
		dir:                               sheet.ReasonUnreadable,
		empty:                             sheet.ReasonEmpty,
	} {
		_, err := open.File(path)
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != want || refusal.File != path || refusal.Next == "" {
			t.Errorf("%s: %v, want the reason %v", path, err, want)
		}
	}
	_, err := open.File(filepath.Join(dir, "missing.csv"))
	if !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%v does not wrap its cause", err)
	}
}

func TestFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "irons.xlsx")
	if err := os.WriteFile(path, workbookBytes(t), 0o600); err != nil {
		t.Fatal(err)
	}
	book, err := open.File(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := book.Sheets[0].Cell(sheet.Ref{Row: 1, Col: 2}); got != (sheet.Cell{Kind: sheet.Number, Raw: "13.6", Shown: "13.6"}) {
		t.Errorf("B1 is %+v", got)
	}
}
