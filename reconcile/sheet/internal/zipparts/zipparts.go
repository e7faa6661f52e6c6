// Package zipparts opens the zip archive that a workbook is, and reads every member of it to its end before anything is
// made of any of them.
//
// That first pass is what keeps a damaged file from being read short: the checksum of a member is known only at its
// end. It also bounds the work by the bytes that really come out, since the sizes that an archive declares are the
// sender's word. The limits are wide for sheets of parts and narrow for a zip bomb.
package zipparts

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"unicode/utf16"

	"example.com/seatline/reconcile/sheet"
)

// Limits bound what an archive may unfold to.
type Limits struct {
	// Entries is the number of members.
	Entries int
	// Member and Total are in bytes, unpacked.
	Member, Total int64
	// Ratio is the largest unpacked size over packed size of a member larger than RatioFrom bytes. Sheets of numbers
	// stay below 30; deflate ends at about 1030.
	Ratio, RatioFrom int64
	// outer are the limits that a person may raise, for the words of a message.
	outer sheet.Limits
}

// Default are the limits for files from outside where nothing else is said.
var Default = Within(sheet.Limits{})

// Within returns the limits on an archive of a book that is read within limits.
func Within(limits sheet.Limits) Limits {
	limits = limits.OrDefault()
	return Limits{Entries: 10_000, Member: limits.Unpacked, Total: limits.Unpacked, Ratio: 250, RatioFrom: 32 << 20, outer: limits}
}

const getAgain = "get the file again from its source, or open it in a spreadsheet program, check it and save it anew"

// Archive is the content of an archive whose members were all sound.
type Archive struct {
	file  string
	texts map[string]string // by lower-case name: part names ignore case (ECMA-376-2, 6.2.2.3)
	names map[string]string // the names as they stand in the archive
}

// Open reads a whole archive. The members whose names end in .xml or .rels, or that have no extension, are kept; of the
// others only the names. Errors are of type [*sheet.FileError].
func Open(file string, r io.ReaderAt, size int64, limits Limits) (*Archive, error) {
	if most := 10 * limits.Entries; listed(r, size, most) > most {
		return nil, (&Archive{file: file}).tooBig("", fmt.Sprintf("it has more than %d members; the limit is %d", most, limits.Entries))
	}
	reader, err := zip.NewReader(r, size)
	if err != nil {
		return nil, &sheet.FileError{
			File: file, Reason: sheet.ReasonTruncated, Err: err,
			Problem: "the file is cut off or damaged: its table of contents, which stands at the end, cannot be read", Next: "get the file again from its source",
		}
	}
	a := &Archive{file: file, texts: map[string]string{}, names: map[string]string{}}
	if len(reader.File) > limits.Entries {
		return nil, a.tooBig("", fmt.Sprintf("it has %d members; the limit is %d", len(reader.File), limits.Entries))
	}
	if err := a.overlap(reader.File, size); err != nil {
		return nil, err
	}
	left := limits.Total
	for _, member := range reader.File {
		name := clean(member.Name)
		key := strings.ToLower(name)
		if _, twice := a.names[key]; twice {
			return nil, a.damaged(name, "the archive holds this member twice", nil)
		}
		a.names[key] = name
		read, err := a.read(member, key, limits, left, size)
		if err != nil {
			return nil, err
		}
		left -= read
	}
	return a, nil
}

// listed counts the members that an archive lists, by their signatures and up to most: making something of a million of them takes more memory
// than the limits allow, and what an archive declares may be anything. What cannot be read is found later.
func listed(r io.ReaderAt, size int64, most int) int {
	const signature = "PK\x01\x02"
	chunk := make([]byte, 256<<10)
	count := 0
	for at := int64(0); at < size && count <= most; at += int64(len(chunk) - len(signature) + 1) {
		n, err := r.ReadAt(chunk, at)
		count += bytes.Count(chunk[:n], []byte(signature))
		if err != nil {
			break
		}
	}
	return count
}

// clean gives a member name the form of a part name: forward slashes, none at the start. Some writers put backslashes.
func clean(name string) string {
	return strings.TrimPrefix(strings.ReplaceAll(name, "\\", "/"), "/")
}

// read reads one member to its end and returns how many bytes it had; left is how many it may have, size that of the whole
// archive.
func (a *Archive) read(member *zip.File, key string, limits Limits, left, size int64) (int64, error) {
	name := a.names[key]
	if member.Flags&1 != 0 {
		return 0, &sheet.FileError{File: a.file, Place: name, Reason: sheet.ReasonEncrypted,
			Problem: "the archive is protected by a password", Next: "unpack it with the password and use the file inside"}
	}
	stream, err := member.Open()
	if err != nil {
		return 0, a.damaged(name, "the member cannot be opened", err)
	}
	defer stream.Close()

	limit := min(limits.Member, left)
	packed := int64(min(member.CompressedSize64, uint64(size))) // what it declares may be anything
	if packed < limit/limits.Ratio {
		limit = min(limit, max(limits.RatioFrom, packed*limits.Ratio))
	}
	var text strings.Builder
	var out io.Writer = io.Discard
	if keep(key) {
		out = &text
		// The declared size saves copying, but only as far as the packed bytes make it likely.
		text.Grow(int(min(int64(min(member.UncompressedSize64, uint64(limit))), 32*packed)))
	}
	read, err := io.Copy(out, io.LimitReader(stream, limit+1))
	switch {
	case read > limit:
		what := fmt.Sprintf("it unfolds to more than %d MB from %d kB", limit>>20, packed>>10)
		if limit == left {
			return 0, limits.outer.Beyond(a.file, name, "unpacked", what)
		}
		return 0, a.tooBig(name, what)
	case errors.Is(err, zip.ErrChecksum):
		return 0, a.damaged(name, "the checksum is wrong, so some of its content was changed or lost", err)
	case errors.Is(err, io.ErrUnexpectedEOF):
		return 0, &sheet.FileError{File: a.file, Place: name, Reason: sheet.ReasonTruncated, Err: err,
			Problem: "the content ends too early", Next: getAgain}
	case err != nil:
		return 0, a.damaged(name, "the content cannot be unpacked", err)
	}
	if keep(key) {
		a.texts[key] = text.String()
	}
	return read, nil
}

// overlap refuses an archive whose members share bytes: a few of them may stand for any number.
func (a *Archive) overlap(members []*zip.File, size int64) error {
	type span struct {
		from, to int64
		name     string
	}
	var spans []span
	for _, member := range members {
		from, err := member.DataOffset()
		if err != nil {
			return a.damaged(clean(member.Name), "the member cannot be found in the archive", err)
		}
		spans = append(spans, span{from, from + int64(min(member.CompressedSize64, uint64(size))), clean(member.Name)})
	}
	slices.SortStableFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for i := 1; i < len(spans); i++ {
		if spans[i].from < spans[i-1].to {
			return a.damaged(spans[i].name, "the member overlaps with "+spans[i-1].name, nil)
		}
	}
	return nil
}

// keep reports whether a member is text that a reader may ask for.
func keep(key string) bool {
	ext := path.Ext(key)
	return ext == ".xml" || ext == ".rels" || ext == "" && !strings.HasSuffix(key, "/")
}

// Has reports whether the archive has a member of that name.
func (a *Archive) Has(name string) bool {
	_, found := a.names[strings.ToLower(name)]
	return found
}

// Text returns the content of a text member as UTF-8; found is false where there is none.
func (a *Archive) Text(name string) (text string, found bool) {
	text, found = a.texts[strings.ToLower(name)]
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") {
		text = fromUTF16(text)
	}
	return text, found
}

// Drop forgets the content of a member, so that its memory can be used again.
func (a *Archive) Drop(name string) { delete(a.texts, strings.ToLower(name)) }

// fromUTF16 converts a part in UTF-16 with its byte order mark, the other encoding that parts may have
// (ECMA-376-2, 8.1.4), and takes the encoding out of its XML declaration.
func fromUTF16(text string) string {
	big := text[0] == 0xfe
	units := make([]uint16, 0, len(text)/2)
	for i := 2; i+1 < len(text); i += 2 {
		low, high := uint16(text[i]), uint16(text[i+1])
		if big {
			low, high = high, low
		}
		units = append(units, low|high<<8)
	}
	decoded := string(utf16.Decode(units))
	if end := strings.Index(decoded, "?>"); strings.HasPrefix(decoded, "<?xml") && end > 0 {
		decoded = decoded[end+2:]
	}
	return decoded
}

func (a *Archive) damaged(place, problem string, err error) error {
	return &sheet.FileError{File: a.file, Place: place, Reason: sheet.ReasonDamaged, Problem: problem, Next: getAgain, Err: err}
}

func (a *Archive) tooBig(place, problem string) error {
	return &sheet.FileError{File: a.file, Place: place, Reason: sheet.ReasonTooBig, Problem: problem,
		Next: "save only the sheets that are needed in a new workbook"}
}
