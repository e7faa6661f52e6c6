// Package sniff tells what a file is from its first bytes, never from its name: people rename files, and a page saved
// from a web shop as "list.xls" is common. For what cannot be read it knows what to tell the person who has the file.
package sniff

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"

	"example.com/seatline/reconcile/sheet"
)

// Form is what a file turned out to be.
type Form uint8

const (
	// Text is anything that is not recognised as something else; whether it really is text is for the text reader
	// to find out.
	Text Form = iota
	// Empty is a file without a byte.
	Empty
	// Zip is a zip archive: a workbook, an OpenDocument file or something else in one.
	Zip
	// Compound is a file in the compound file binary format. Bytes never returns it for a whole file, but the head of
	// such a file does not tell what it holds.
	Compound
	// Encrypted is an OOXML document behind a password.
	Encrypted
	// Page is a web page.
	Page
	// Excel97 is a workbook of Excel 97 to 2003, in a compound file.
	Excel97
	// XML is an XML document of no form that is known.
	XML
	// Other is a known form that nothing here reads.
	Other
)

// Result is a form and, for files that are not read, why not.
type Result struct {
	Form Form
	// Reason, Problem and Next are as in [sheet.FileError]; they are set for every form but Text, Zip and XML.
	Reason        sheet.Reason
	Problem, Next string
}

// Err returns the refusal of a file of this form, nil for Text, Zip and XML.
func (r Result) Err(file string) error {
	if r.Form == Text || r.Form == Zip || r.Form == XML {
		return nil
	}
	return &sheet.FileError{File: file, Reason: r.Reason, Problem: r.Problem, Next: r.Next}
}

const (
	saveAsWorkbook = "open it in a spreadsheet program and save it as an xlsx workbook or as CSV"
	askForSheet    = "ask for the data as a workbook (xlsx) or as CSV"
)

// magics are the signatures of forms that people mistake for sheets, as their format descriptions give them.
var magics = []struct {
	magic         string
	problem, next string
}{
	{"%PDF-", "it is a PDF, which holds no cells", askForSheet},
	{"\x89PNG\r\n\x1a\n", "it is a picture (PNG)", askForSheet},
	{"\xff\xd8\xff", "it is a picture (JPEG)", askForSheet},
	{"GIF87a", "it is a picture (GIF)", askForSheet},
	{"GIF89a", "it is a picture (GIF)", askForSheet},
	{"BM", "it is a picture (BMP)", askForSheet},
	{"II*\x00", "it is a picture (TIFF)", askForSheet},
	{"MM\x00*", "it is a picture (TIFF)", askForSheet},
	{"{\\rtf", "it is a rich text document", "open it in a word processor, copy the table into a spreadsheet program and save it as an xlsx workbook"},
	{"\x1f\x8b", "it is a gzip archive", "unpack it first"},
	{"7z\xbc\xaf\x27\x1c", "it is a 7z archive", "unpack it first"},
	{"Rar!\x1a\x07", "it is a RAR archive", "unpack it first"},
	{"SQLite format 3\x00", "it is an SQLite database", "export the table as CSV"},
	{"\x7fELF", "it is a program", askForSheet},
	{"MZ", "it is a program", askForSheet},
	// BIFF2 to BIFF4 worksheets stand in the file without a container (MS-XLS and the older BIFF descriptions).
	{"\x09\x00\x04\x00", "it is a workbook in a very old Excel format", saveAsWorkbook},
	{"\x09\x02\x06\x00", "it is a workbook in a very old Excel format", saveAsWorkbook},
	{"\x09\x04\x06\x00", "it is a workbook in a very old Excel format", saveAsWorkbook},
}

// compound is the signature of the compound file binary format (MS-CFB, 2.2).
const compound = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"

// CompoundLimit is how much of a compound file is searched for its directory, in bytes.
const CompoundLimit = 64 << 20

// Head tells what a file is from its first few thousand bytes; a compound file remains [Compound].
func Head(data []byte) Result {
	if strings.HasPrefix(string(data[:min(len(data), len(compound))]), compound) {
		return Result{Form: Compound}
	}
	return Bytes(data)
}

// Bytes tells what a whole file is.
func Bytes(data []byte) Result {
	if len(data) == 0 {
		return Result{Empty, sheet.ReasonEmpty, "the file is empty", "get it again from its source"}
	}
	if allZero(data) {
		return Result{Empty, sheet.ReasonDamaged, "the file holds nothing but zero bytes, as after a broken copy", "get it again from its source"}
	}
	head := string(data[:min(len(data), 4096)])
	switch {
	case strings.HasPrefix(head, "PK\x03\x04"), strings.HasPrefix(head, "PK\x05\x06"):
		return Result{Form: Zip}
	case strings.HasPrefix(head, compound):
		return compoundFile(data[:min(len(data), CompoundLimit)])
	}
	for _, m := range magics {
		// Two-letter signatures also begin ordinary texts; those have no zero byte near the start.
		if strings.HasPrefix(head, m.magic) && (len(m.magic) > 2 || m.magic[0] < ' ' || strings.Contains(head, "\x00")) {
			return Result{Other, sheet.ReasonUnsupported, m.problem, m.next}
		}
	}
	return markup(head)
}

func allZero(data []byte) bool {
	for _, b := range data {
		if b != 0 {
			return false
		}
	}
	return true
}

// markup recognises pages and XML documents, which some systems hand out under the name of a workbook.
func markup(head string) Result {
	text := strings.ToLower(strings.TrimLeft(strings.TrimPrefix(asciiHead(head), "\ufeff"), " \t\r\n"))
	page := Result{Page, sheet.ReasonMisnamed, "it is a web page, also if its name says otherwise", "give it a name that ends in .html"}
	switch {
	case strings.HasPrefix(text, "<!doctype html"), strings.HasPrefix(text, "<html"), strings.HasPrefix(text, "<table"),
		strings.HasPrefix(text, "<head>"), strings.HasPrefix(text, "<meta"), strings.HasPrefix(text, "<style"),
		len(text) > 1 && text[0] == '<' && text[1] >= 'a' && text[1] <= 'z' && strings.Contains(text, "<table"):
		return page
	case strings.HasPrefix(text, "mime-version:"):
		return Result{Other, sheet.ReasonUnsupported, "it is a web archive (MHTML)", saveAsWorkbook}
	case !strings.HasPrefix(text, "<?xml") && !strings.HasPrefix(text, "<!--"):
		return Result{Form: Text}
	case strings.Contains(text, "urn:schemas-microsoft-com:office:spreadsheet"), strings.Contains(text, "mso-application"):
		return Result{Other, sheet.ReasonUnsupported, "it is an XML spreadsheet of 2003", saveAsWorkbook}
	case strings.Contains(text, "office:document"):
		return Result{Other, sheet.ReasonUnsupported, "it is a flat OpenDocument file", saveAsWorkbook}
	case strings.Contains(text, "<html"), strings.Contains(text, "<!doctype html"):
		return page
	case strings.HasPrefix(text, "<?xml"):
		return Result{Form: XML}
	}
	return Result{Form: Text}
}

// asciiHead drops the zero bytes of UTF-16, so that markup is recognised in it too.
func asciiHead(head string) string {
	if strings.HasPrefix(head, "\xff\xfe") || strings.HasPrefix(head, "\xfe\xff") {
		return strings.ReplaceAll(head[2:], "\x00", "")
	}
	return head
}

// compoundFile looks for the streams that tell what a compound file holds. Directory entries are 128 bytes, aligned
// to 128, begin with the name in UTF-16 and give its length in bytes with the final zero at offset 64 (MS-CFB, 2.6.1).
func compoundFile(data []byte) Result {
	has := func(name string) bool {
		var encoded []byte
		for _, unit := range utf16.Encode([]rune(name)) {
			encoded = binary.LittleEndian.AppendUint16(encoded, unit)
		}
		for at := 0; at+128 <= len(data); at += 128 {
			if bytes.HasPrefix(data[at:], encoded) && int(binary.LittleEndian.Uint16(data[at+64:])) == len(encoded)+2 {
				return true
			}
		}
		return false
	}
	switch {
	case has("EncryptedPackage"):
		return Result{Encrypted, sheet.ReasonEncrypted, "the workbook is protected by a password",
			"open it with the password, save it without one, and use that copy"}
	case has("Workbook"):
		return Result{Excel97, sheet.ReasonMisnamed, "it is a workbook in the old xls format", "give it a name that ends in .xls"}
	case has("Book"):
		return Result{Other, sheet.ReasonUnsupported, "it is a workbook in the old xls format", saveAsWorkbook}
	case has("WordDocument"):
		return Result{Other, sheet.ReasonUnsupported, "it is a Word document", askForSheet}
	case has("__properties_version1.0"):
		return Result{Other, sheet.ReasonUnsupported, "it is a saved e-mail", "save the attachment itself"}
	}
	return Result{Other, sheet.ReasonUnsupported, "it is an old Office file without a workbook in it, or a damaged one", saveAsWorkbook}
}
