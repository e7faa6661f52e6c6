package text

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/unicode"

	"example.com/seatline/reconcile/catalog/words/data"
	"example.com/seatline/reconcile/sheet"
)

// decoded is a text in UTF-8 and what it was made from.
type decoded struct {
	text     string
	encoding string
	// other is an encoding that fits nearly as well, empty where there is none.
	other string
	// how says by what the encoding was recognised.
	how string
	// lost is how many characters could not be decoded; U+FFFD stands for each.
	lost int
	// quoted is set where signs of quotation were taken off lines.
	quoted bool
}

// notes returns the notes about the encoding.
func (d decoded) notes() []sheet.Note {
	message := fmt.Sprintf("the text was read as %s (%s)", d.encoding, d.how)
	if d.other != "" {
		message += "; " + d.other + " would have fitted nearly as well"
	}
	if d.lost > 0 {
		message += fmt.Sprintf("; %d places could not be decoded and show the sign \ufffd", d.lost)
	}
	if d.quoted {
		message += "; the signs > before quoted lines were left out"
	}
	return []sheet.Note{{Code: CodeEncoding, Message: message}}
}

// candidate is an encoding that is tried where nothing in the file tells.
type candidate struct {
	name     string
	encoding encoding.Encoding
	script   script
	// letters are those beyond ASCII that the languages sent in it have, or the most frequent ones; words are headings in them.
	letters map[rune]bool
	words   []string
	// languages is how many languages are sent in it.
	languages int
}

// candidates are the encodings that the languages name, those of most languages first. Most files tell theirs without them.
var candidates = sync.OnceValues(func() ([]*candidate, error) {
	files, err := data.Files()
	if err != nil {
		return nil, err
	}
	var all []*candidate
	for _, file := range files {
		for _, name := range file.Strings(data.Encoding, "names") {
			at := slices.IndexFunc(all, func(c *candidate) bool { return c.name == name })
			if at < 0 {
				known, err := htmlindex.Get(strings.ReplaceAll(name, " ", ""))
				if err != nil {
					return nil, fmt.Errorf("%s: %q: %w", file.Name, name, err)
				}
				at, all = len(all), append(all, &candidate{name: name, encoding: known, letters: map[rune]bool{}})
			}
			if err := all[at].learn(file); err != nil {
				return nil, err
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *candidate) int { return b.languages - a.languages })
	return all, nil
})

// learn adds what a language says of its texts.
func (c *candidate) learn(file data.File) error {
	script, known := scripts[file.String(data.Encoding, "script")]
	if !known {
		return fmt.Errorf("%s: %q is no script", file.Name, file.String(data.Encoding, "script"))
	}
	c.script = script
	c.languages++
	for _, r := range file.String(data.Encoding, "letters") {
		c.letters[r] = true
	}
	c.words = append(c.words, file.Strings(data.Encoding, "words")...)
	return nil
}

var errBinary = errors.New("it holds bytes that no text has, so it is not a text file")

// Decode finds the encoding of a text and decodes it. The notes say which was chosen, and why; encoding is its name.
func Decode(data []byte) (text string, notes []sheet.Note, encoding string, err error) {
	d, err := decode(data)
	if err != nil {
		return "", nil, "", err
	}
	return d.text, d.notes(), d.encoding, nil
}

// decode finds the encoding of a file and decodes it.
func decode(data []byte) (decoded, error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe\x00\x00")), bytes.HasPrefix(data, []byte("\x00\x00\xfe\xff")):
		return decoded{}, errors.New("its text is in UTF-32, which is not read here")
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		return fromUTF8(data[3:], "its byte order mark says so")
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return fromUTF16(data[2:], unicode.LittleEndian, "its byte order mark says so")
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return fromUTF16(data[2:], unicode.BigEndian, "its byte order mark says so")
	}
	if order, ok := utf16Order(data); ok {
		return fromUTF16(data, order, "every other byte of its digits and separators is zero")
	}
	data = bytes.TrimRight(data, "\x1a") // the end mark of old systems
	if isBinary(data) {
		return decoded{}, errBinary
	}
	if ascii(data) {
		return decoded{text: string(data), encoding: "UTF-8", how: "it has only ASCII characters, which most encodings share"}, nil
	}
	if utf8.Valid(data) {
		return fromUTF8(data, "all its bytes fit")
	}
	return guess(data)
}

func fromUTF8(data []byte, how string) (decoded, error) {
	if isBinary(data) {
		return decoded{}, errBinary
	}
	d := decoded{encoding: "UTF-8", how: how}
	d.text, d.lost = validUTF8(data)
	return d, nil
}

// validUTF8 replaces each byte that is not UTF-8 by U+FFFD and counts them.
func validUTF8(data []byte) (text string, lost int) {
	if utf8.Valid(data) {
		return string(data), 0
	}
	var out strings.Builder
	out.Grow(len(data))
	for len(data) > 0 {
		r, size := utf8.DecodeRune(data)
		if r == utf8.RuneError && size == 1 {
			lost++
		}
		out.WriteRune(r)
		data = data[size:]
	}
	return out.String(), lost
}

func fromUTF16(data []byte, order unicode.Endianness, how string) (decoded, error) {
	name := "UTF-16 (little-endian)"
	if order == unicode.BigEndian {
		name = "UTF-16 (big-endian)"
	}
	text, err := unicode.UTF16(order, unicode.IgnoreBOM).NewDecoder().Bytes(data)
	if err != nil {
		return decoded{}, fmt.Errorf("its text is cut off or damaged (%w)", err)
	}
	if isBinary(text) {
		return decoded{}, errBinary
	}
	return decoded{text: string(text), encoding: name, how: how, lost: strings.Count(string(text), "\ufffd")}, nil
}

// utf16Order recognises UTF-16 without a byte order mark: line ends, digits and separators have a zero byte, and all of
// them on the same side.
func utf16Order(data []byte) (unicode.Endianness, bool) {
	if len(data) < 4 || len(data)%2 != 0 {
		return unicode.LittleEndian, false
	}
	var zeros [2]int
	sample := data[:min(len(data), 64<<10)]
	for i, b := range sample {
		if b == 0 {
			zeros[i%2]++
		}
	}
	enough, few := max(1, len(sample)/20), len(sample)/400
	switch {
	case zeros[1] > enough && zeros[0] <= few:
		return unicode.LittleEndian, true
	case zeros[0] > enough && zeros[1] <= few:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
}

// isBinary reports whether data has bytes that are in no text: zeros, or more than a stray control character.
func isBinary(data []byte) bool {
	controls := 0
	for _, b := range data {
		if b == 0 {
			return true
		}
		if b < ' ' && (b < '\t' || b > '\r') || b == 0x7f {
			controls++
		}
	}
	return controls > 8 && controls > len(data)/500
}

func ascii(data []byte) bool {
	for _, b := range data {
		if b >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// thinSample is the size of the telling lines, in bytes, below which the choice of an encoding rests on little.
const thinSample = 40

// sampleSize bounds how much text is weighed to find the encoding, in bytes.
const sampleSize = 128 << 10

// guess takes the encoding in which the text reads most like a text.
func guess(content []byte) (decoded, error) {
	sample := telling(content)
	all, err := candidates()
	if err != nil {
		return decoded{}, err
	}
	var ranked []rankedCandidate
	for _, c := range all {
		text, err := c.encoding.NewDecoder().Bytes(sample)
		if err != nil {
			continue
		}
		score, told := c.plausibility(string(text))
		ranked = append(ranked, rankedCandidate{c, score, told})
	}
	slices.SortStableFunc(ranked, func(a, b rankedCandidate) int { return cmp.Compare(b.score, a.score) })
	best := ranked[0]
	// Encodings of Latin letters share most of them: one is no rival of another unless it has words of its own there.
	rivals := slices.DeleteFunc(ranked[1:], func(r rankedCandidate) bool { return r.script == latin && best.script == latin && r.told == 0 })
	// Text in UTF-8 with a few damaged bytes is still more likely UTF-8.
	if mostlyUTF8(sample) {
		return fromUTF8(content, "nearly all its bytes fit")
	}
	text, err := best.encoding.NewDecoder().Bytes(content)
	if err != nil {
		return decoded{}, fmt.Errorf("its text cannot be decoded as %s (%w)", best.name, err)
	}
	d := decoded{text: string(text), encoding: best.name, how: "it reads most like a text so", lost: bytes.Count(text, []byte("\ufffd"))}
	if best.score < 0.5 {
		d.how = "a guess: in no encoding does it read like a text"
	}
	// A word or two prove little: then any other encoding in which they make sense is worth naming.
	if len(rivals) > 0 && rivals[0].score > 0 && (rivals[0].score >= 0.7*best.score || len(sample) < thinSample) {
		d.other = rivals[0].name
	}
	return d, nil
}

// rankedCandidate is an encoding with how much the text is like one of it, and how much of that whole words say.
type rankedCandidate struct {
	*candidate
	score, told float64
}

// telling gathers the lines that have more than ASCII. No trail byte of the candidates is a line end.
func telling(data []byte) []byte {
	var out []byte
	for len(data) > 0 && len(out) < sampleSize {
		line := data
		if end := bytes.IndexAny(data, "\r\n"); end >= 0 {
			line = data[:end+1]
		}
		if !ascii(line) {
			out = append(out, line[:min(len(line), sampleSize)]...)
		}
		data = data[len(line):]
	}
	return out
}

// mostlyUTF8 reports whether at least 19 of 20 sequences of bytes above ASCII are UTF-8.
func mostlyUTF8(data []byte) bool {
	good, bad := 0, 0
	for len(data) > 0 {
		r, size := utf8.DecodeRune(data)
		switch {
		case r == utf8.RuneError && size == 1:
			bad++
		case size > 1:
			good++
		}
		data = data[size:]
	}
	return good > 19*bad
}
