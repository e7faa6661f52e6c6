package questions

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
)

// Matter is what one supplier is asked at once: one question, or the same of several parts, such as the bore of all ferrules for one tip,
// which one answer may settle.
type Matter struct {
	// Questions are those of the matter, of which there is at least one; they differ in their parts alone.
	Questions []Question
}

// mostOfAMatter is how many parts are asked about at once, so that the keys have room in a cell of a workbook.
const mostOfAMatter = 100

// Matters gathers the group's questions. A matter stands where its first question does.
func (g Group) Matters() []Matter {
	var all []Matter
	open := map[string]int{}
	for _, q := range g.Questions {
		name := q.matter()
		at, known := open[name]
		if !known || name == "" || len(all[at].Questions) == mostOfAMatter {
			open[name] = len(all)
			all = append(all, Matter{Questions: []Question{q}})
			continue
		}
		all[at].Questions = append(all[at].Questions, q)
	}
	for _, m := range all {
		slices.SortStableFunc(m.Questions, func(a, b Question) int { return cmp.Compare(a.Place.Row, b.Place.Row) })
	}
	return all
}

// matter is what a question has in common with those that are asked with it, empty where it is asked by itself: the sheet, the size, what
// stands there, and of ferrules the tip.
func (q Question) matter() string {
	if q.Role == "" || q.Role == catalog.Part || q.Part == "" || q.Kind != Missing && q.Kind != Unreadable {
		return ""
	}
	_, rest, _ := splitKey(q.Key)
	if len(rest) != 3 || rest[0] != "rows" {
		return ""
	}
	return strings.Join([]string{q.Place.File, q.Place.Sheet, string(q.Role), q.Kind.String(), q.Says, q.On, strconv.FormatBool(q.Ours)}, "\x00")
}

// First is the question that stands for the matter.
func (m Matter) First() Question { return m.Questions[0] }

// Settles, Helps and Carries count the pairs of all its questions, which are of different parts.
func (m Matter) Settles() int { return m.sum(func(q Question) int { return q.Settles }) }

// Helps is the sum of those of its questions.
func (m Matter) Helps() int { return m.sum(func(q Question) int { return q.Helps }) }

// Carries is the sum of those of its questions.
func (m Matter) Carries() int { return m.sum(func(q Question) int { return q.Carries }) }

func (m Matter) sum(of func(Question) int) int {
	sum := 0
	for _, q := range m.Questions {
		sum += of(q)
	}
	return sum
}

// parts are the part numbers of the matter, each once.
func (m Matter) parts() []string {
	var parts []string
	for _, q := range m.Questions {
		if q.Part != "" && !slices.Contains(parts, q.Part) {
			parts = append(parts, q.Part)
		}
	}
	return parts
}

// Parts names its parts, as many as are read.
func (m Matter) Parts(l *say.Language) string {
	const most = 12
	parts := m.parts()
	if len(parts) <= most {
		return strings.Join(parts, ", ")
	}
	return l.Words().Fill("letter.more", "parts", strings.Join(parts[:most], ", "), "count", strconv.Itoa(len(parts)-most))
}

// Key is what an answer is kept by: that of the question, or those of all, each with its part.
func (m Matter) Key() string {
	if len(m.Questions) == 1 {
		return m.First().Key
	}
	var keys []string
	for _, q := range m.Questions {
		keys = append(keys, q.Key+" for "+strconv.Quote(q.Part))
	}
	return strings.Join(keys, "\n")
}

// Asks is what is asked, as a sentence in a language with the words of letters; see [LetterLanguage].
func (m Matter) Asks(l *say.Language) string {
	q, words, parts := m.First(), l.Words(), m.parts()
	_, rest, _ := splitKey(q.Key)
	switch {
	case len(rest) != 3 || rest[0] != "rows":
		return cmp.Or(q.asksOfTable(l), q.Asks)
	case q.Role == catalog.Part:
		return words["letter.part_of"]
	case len(parts) == 0:
		return q.Asks
	}
	text := q.Asks
	switch {
	case l.Tag() != "en":
		text = m.asksOfParts(l)
	case len(parts) > 1:
		text = asksFor(m.Parts(l), q.Role)
	}
	if len(parts) > 1 {
		text += words.Fill("letter.differ", "first", parts[0], "second", parts[1])
	}
	return text
}

// asksOfParts asks for a value of parts in a language that has no sentence of its own for each: by what the size is called, or by the cell
// where it should stand.
func (m Matter) asksOfParts(l *say.Language) string {
	q, words := m.First(), l.Words()
	field := q.field()
	switch {
	case field != fitcalc.NoField && IsLength(q.Role):
		return words.Fill("letter.what_size", "parts", m.Parts(l), "field", cmp.Or(sizeCalled(l, q.Role), l.Field(field)))
	case field != fitcalc.NoField:
		return words.Fill("letter.what", "parts", m.Parts(l), "field", l.Field(field))
	case q.Role == catalog.Top:
		return words.Fill("letter.what_top", "parts", m.Parts(l))
	case q.Role == catalog.Style:
		return words.Fill("letter.what_style", "parts", m.Parts(l))
	case q.Place.Cell != "":
		return words.Fill("letter.what_cell", "parts", m.Parts(l), "cell", q.Place.Cell)
	}
	return q.Asks
}

// asksOfTable is what is asked about a table or a column of it, empty where a letter has no words for it.
func (q Question) asksOfTable(l *say.Language) string {
	words := l.Words()
	_, rest, _ := splitKey(q.Key)
	switch {
	case len(rest) == 3 && rest[0] == "columns" && rest[2] == "unit":
		return words.Fill("letter.unit_of", "heading", q.Says)
	case len(rest) == 3 && rest[0] == "columns" && rest[2] == "tolerance":
		return words.Fill("letter.tolerance_of", "heading", q.Says)
	case len(rest) == 3 && rest[0] == "columns" && rest[2] == "role":
		return words.Fill("letter.role_of", "heading", q.Says, "roles", strings.Join(rolesFor(q.Lists), ", "))
	case len(rest) == 1 && rest[0] == "columns":
		return words.Fill("letter.column_of", "role", catalog.RoleName(q.Lists, exampleRole(q.Lists)))
	case len(rest) == 1 && rest[0] == "ferrule_bores" && !q.ByTip:
		return words.Fill("letter.bores", "heading", q.Says)
	case len(rest) == 1 && rest[0] == "ferrule_bores":
		return words.Fill("letter.tips", "heading", q.Says)
	}
	return ""
}

// field is the size in question as the engine calls it.
func (q Question) field() fitcalc.Field {
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if field := catalog.FieldOf(kind, q.Role); field != fitcalc.NoField && (q.Lists == kind || q.Lists == catalog.UnknownKind) {
			return field
		}
	}
	return fitcalc.NoField
}

// splitKeys parts the keys of a matter, each with the part that it is for where that is said. A text that is none is one key.
func splitKeys(text string) (keys, parts []string) {
	for rest := strings.TrimSpace(text); rest != ""; rest = strings.TrimSpace(rest) {
		name, found := strings.CutPrefix(rest, "sheets.")
		quoted, err := strconv.QuotedPrefix(name)
		if !found || err != nil {
			return []string{text}, []string{""}
		}
		end := len("sheets.") + len(quoted)
		if blank := strings.IndexAny(rest[end:], " \t\r\n"); blank >= 0 {
			end += blank
		} else {
			end = len(rest)
		}
		key, part := rest[:end], ""
		rest = strings.TrimSpace(rest[end:])
		if after, says := strings.CutPrefix(rest, "for "); says {
			if quoted, err := strconv.QuotedPrefix(after); err == nil {
				if part, err = strconv.Unquote(quoted); err == nil {
					rest = after[len(quoted):]
				}
			}
		}
		keys, parts = append(keys, key), append(parts, part)
	}
	return keys, parts
}

// partsOfAnswer parts an answer that says something else of each part: A = 13.6 mm; B = 13.4 mm.
func partsOfAnswer(text string, parts []string) (map[string]string, error) {
	said := map[string]string{}
	text = strings.ReplaceAll(text, "＝", "=") // as Japanese and Chinese keyboards have it
	for piece := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ';' || r == '；' || r == '\n' }) {
		if strings.TrimSpace(piece) == "" {
			continue
		}
		part, value, found := strings.Cut(piece, "=")
		part, value = strings.TrimSpace(part), strings.TrimSpace(value)
		at := slices.IndexFunc(parts, func(p string) bool { return strings.EqualFold(p, part) })
		if !found || at < 0 || value == "" {
			return nil, fmt.Errorf("%q names none of the parts and its value; write for example %s = 13.6 mm", strings.TrimSpace(piece), parts[0])
		}
		said[parts[at]] = value
	}
	return said, nil
}
