package open

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/sniff"
	"example.com/seatline/reconcile/sheet/text"
)

// otherNames are the endings of files that people take for sheets and that are refused with what to do about them.
var otherNames = []string{".xlsb", ".fods", ".mht", ".mhtml"}

// IsSheetName reports whether a file may be a sheet by the ending of its name, among others that lie beside it.
func IsSheetName(name string) bool {
	ending := strings.ToLower(path.Ext(name))
	for _, known := range [][]string{workbookNames, openDocumentNames, oldNames, pageNames, textNames, otherNames} {
		if slices.Contains(known, ending) {
			return true
		}
	}
	return false
}

// documents are members by which documents that are kept in a zip archive are known: Office Open XML, OpenDocument and e-books, Numbers.
var documents = []string{"[content_types].xml", "_rels/.rels", "xl/workbook.xml", "xl/workbook.bin", "word/document.xml", "ppt/presentation.xml", "content.xml", "mimetype", "index/document.iwa"}

// IsArchive reports whether a content is a zip archive of files, and no document that is kept in one. What is no archive that can be opened is
// none.
func IsArchive(data []byte) bool {
	if sniff.Bytes(data[:min(len(data), 4096)]).Form != sniff.Zip || tooMany(data) {
		return false
	}
	reader, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return false
	}
	for _, member := range reader.File {
		if slices.Contains(documents, strings.ToLower(strings.ReplaceAll(member.Name, `\`, "/"))) {
			return false
		}
	}
	return true
}

// mostEntries is how many members an archive may list before anything is made of them; each takes some hundred bytes of memory.
const mostEntries = 100_000

// tooMany counts the members that an archive lists, by their signature: what it declares may be anything.
func tooMany(data []byte) bool { return bytes.Count(data, []byte("PK\x01\x02")) > mostEntries }

// Archive is a zip archive of files, each of which is an input of its own: a supplier's lists in one file.
type Archive struct {
	name           string
	limits         sheet.Limits
	members        map[string]*zip.File
	sheets, others []string
	// unpacked are the members that were read, and left is what the others may have, in bytes.
	unpacked map[string]bool
	left     int64
}

// NewArchive opens an archive; name is what findings and errors call it. Names that lead out of it, that are there twice, or that differ in
// capitals alone, and archives within it are refused. Errors are of type [*sheet.FileError].
func NewArchive(name string, data []byte, limits sheet.Limits) (*Archive, error) {
	limits = limits.OrDefault()
	if tooMany(data) {
		return nil, limits.Beyond(name, "", "sheets", "it has too many files")
	}
	reader, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, &sheet.FileError{File: name, Reason: sheet.ReasonTruncated, Err: err, Next: "get the file again from its source",
			Problem: "the archive is cut off or damaged: its table of contents, which stands at the end, cannot be read"}
	}
	a := &Archive{name: name, limits: limits, members: map[string]*zip.File{}, unpacked: map[string]bool{}, left: limits.Unpacked}
	known := map[string]bool{}
	for _, member := range reader.File {
		if err := a.add(member, known); err != nil {
			return nil, err
		}
	}
	if len(a.sheets) == 0 {
		return nil, &sheet.FileError{File: name, Reason: sheet.ReasonUnsupported, Problem: "it is a zip archive without a sheet in it",
			Next: "ask for the data as a workbook (xlsx) or as CSV"}
	}
	return a, nil
}

// add takes in a member.
func (a *Archive) add(member *zip.File, known map[string]bool) error {
	name, inside := memberName(member.Name)
	if !inside {
		return a.refuse(name, sheet.ReasonDamaged, "the name leads out of the archive, as none does that was made in good faith", "unpack it in a folder of its own, look at what it holds, and name the sheets")
	}
	if strings.HasSuffix(name, "/") || member.FileInfo().IsDir() {
		return nil
	}
	key := strings.ToLower(name)
	switch base := path.Base(name); {
	case known[key]:
		return a.refuse(name, sheet.ReasonDamaged, "the archive holds two files of that name, capitals aside", "unpack it in a folder of its own, look which of them counts, and name that")
	case strings.HasPrefix(base, "."), strings.HasPrefix(key, "__macosx/"):
		return nil
	case member.Flags&1 != 0:
		return a.refuse(name, sheet.ReasonEncrypted, "the archive is protected by a password", "unpack it with the password and name the files inside")
	case member.Mode()&fs.ModeType != 0:
		return a.refuse(name, sheet.ReasonUnsupported, "it is a link and no file", "unpack the archive and name the sheets")
	case strings.HasSuffix(key, ".zip"):
		return a.nested(name)
	case !IsSheetName(base):
		a.others = append(a.others, name)
	default:
		a.members[name], a.sheets = member, append(a.sheets, name)
	}
	known[key] = true
	if len(known) > a.limits.Sheets {
		return a.limits.Beyond(a.name, "", "sheets", "it has too many files")
	}
	return nil
}

// memberName is how findings call a member: with strokes of one kind, in UTF-8. Older programs write names in the encoding of their system.
// It says whether the name leads to a place inside the archive.
func memberName(name string) (string, bool) {
	if !utf8.ValidString(name) {
		if decoded, _, _, err := text.Decode([]byte(name)); err == nil {
			name = decoded
		}
		name = strings.ToValidUTF8(name, "\ufffd")
	}
	name = strings.ReplaceAll(name, `\`, "/")
	drive := len(name) > 1 && name[1] == ':'
	inside := !drive && name != "" && !strings.HasPrefix(name, "/") && !slices.Contains(strings.Split(name, "/"), "..")
	if inside && !strings.HasSuffix(name, "/") {
		name = path.Clean(name)
	}
	return name, inside
}

func (a *Archive) refuse(member string, reason sheet.Reason, problem, next string) error {
	return &sheet.FileError{File: a.name, Place: member, Reason: reason, Problem: problem, Next: next}
}

func (a *Archive) nested(member string) error {
	return a.refuse(member, sheet.ReasonUnsupported, "it is an archive within the archive", "unpack that one, and name the sheets or their folder")
}

// Sheets are the members that may be sheets, by the endings of their names, as the archive lists them.
func (a *Archive) Sheets() []string { return a.sheets }

// Others are the other members, but for what systems keep for themselves.
func (a *Archive) Others() []string { return a.others }

// Read returns the content of a member, within the limits: that of a file, and that of everything the archive unfolds to, each member
// counted once. Errors are of type [*sheet.FileError].
func (a *Archive) Read(member string) ([]byte, error) {
	file, found := a.members[member]
	if !found {
		return nil, a.refuse(member, sheet.ReasonUnreadable, "there is no such sheet in the archive", "look which there are with reconcile read "+a.name)
	}
	most, limit := a.limits.File, "file"
	if !a.unpacked[member] && a.left < most {
		most, limit = a.left, "unpacked"
	}
	stream, err := file.Open()
	if err != nil {
		return nil, a.damaged(member, err)
	}
	defer stream.Close()
	var content bytes.Buffer
	read, err := content.ReadFrom(io.LimitReader(stream, most+1))
	switch {
	case read > most:
		return nil, a.limits.Beyond(a.name, member, limit, fmt.Sprintf("it unfolds to more than %d bytes", most))
	case err != nil:
		return nil, a.damaged(member, err)
	}
	if !a.unpacked[member] {
		a.unpacked[member] = true
		a.left -= read
	}
	if IsArchive(content.Bytes()) {
		return nil, a.nested(member)
	}
	return content.Bytes(), nil
}

func (a *Archive) damaged(member string, err error) error {
	problem := "the content cannot be unpacked"
	if errors.Is(err, zip.ErrChecksum) {
		problem = "the checksum is wrong, so some of its content was changed or lost"
	}
	return &sheet.FileError{File: a.name, Place: member, Reason: sheet.ReasonDamaged, Problem: problem, Next: "get the file again from its source", Err: err}
}
