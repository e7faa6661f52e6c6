package records

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/internal/pattern"
)

// pair is a name with its value among others in a line.
var pair = pattern.Lazy(`([\pL_][\pL\pN_.-]*)=("[^"]*"|'[^']*'|[^\s;|]+)[;|]?\s*`)

const (
	// leastPairs is how many names with values a line of several has at least. There are so many such lines, and one of mostOthers is such; of the
	// lines with one value there are more.
	leastPairs, leastRecords, mostOthers = 3, 2, 3
	leastLines, fewOthers                = 4, 2
	// longestName is how many bytes a name has at most.
	longestName = 80
	// looked is at how many lines is looked to find out whether a text is of this kind, and lookedThrough at how much of it.
	looked, lookedThrough = 200, 1 << 16
)

// inLines returns the records that a text has in lines: one name with its value in each, or one record.
func inLines(text string) (Found, bool) {
	head := text[:min(len(text), lookedThrough)]
	if !strings.ContainsAny(head, "={") {
		return Found{}, false
	}
	first := linesOf(head)
	first = first[:min(len(first), looked)]
	switch {
	case manyLines(first, func(line string) bool { return len(pairsOf(line)) >= leastPairs }, leastRecords, mostOthers):
		return Found{How: "lines of names with values", Tables: []Table{{Rows: recordLines(linesOf(text))}}}, true
	case manyLines(first, func(line string) bool { return parse(line).kind != other }, leastLines, fewOthers) && repeats(first):
		return Found{How: "lines of a name with its value", Tables: []Table{{Rows: nameLines(linesOf(text))}}, OfLines: true}, true
	}
	return Found{}, false
}

// linesOf returns the lines of a text, but for blank ones at its end.
func linesOf(text string) []string {
	lines := strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
	for len(lines) > 0 && strings.TrimSpace(lines[len(lines)-1]) == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}

// manyLines reports whether of the lines with something in them so many at least are such, and one of so many.
func manyLines(lines []string, such func(string) bool, least, of int) bool {
	are, all := 0, 0
	for _, line := range lines {
		if strings.TrimSpace(line) == "" || isComment(line) {
			continue
		}
		if all++; such(line) {
			are++
		}
	}
	return are >= least && of*are >= all
}

// isComment reports whether a line is a comment, as files of settings have them.
func isComment(line string) bool {
	return strings.IndexAny(strings.TrimLeft(line, " \t"), "#;*") == 0
}

// lineKind is what a line is.
type lineKind uint8

const (
	other lineKind = iota
	comment
	// valued is a name with its value, and section what begins those of a record, or of all: its name in brackets.
	valued
	section
)

// parsed is a line taken apart.
type parsed struct {
	kind        lineKind
	name, value string
}

func parse(line string) parsed {
	line = strings.TrimSpace(line)
	if isComment(line) {
		return parsed{kind: comment, value: line}
	}
	if inner, found := strings.CutPrefix(line, "["); found {
		inner, found = strings.CutSuffix(inner, "]")
		if found && inner != "" && len(inner) <= longestName && !strings.ContainsAny(inner, "[]") {
			return parsed{kind: section, name: inner}
		}
	}
	name, value, found := strings.Cut(line, "=")
	name = strings.TrimSpace(name)
	if !found || !isName(name) {
		return parsed{value: line}
	}
	return parsed{kind: valued, name: name, value: unquoted(strings.TrimSpace(value))}
}

// isName reports whether a text may be the name of a value: letters, and figures and some signs behind the first one.
func isName(text string) bool {
	for i, r := range text {
		if !unicode.IsLetter(r) && r != '_' && (i == 0 || !unicode.IsNumber(r) && !strings.ContainsRune(" ./()-", r)) {
			return false
		}
	}
	return text != "" && len(text) <= longestName
}

// repeats reports whether a name stands in several lines: there are several records.
func repeats(lines []string) bool {
	seen := map[string]bool{}
	for _, line := range lines {
		if one := parse(line); one.kind == valued {
			if seen[one.name] {
				return true
			}
			seen[one.name] = true
		}
	}
	return false
}

// nameLines divides each line into its name and its value. The name of a section is the number of its record; one whose names stand in no other is
// for all, and its lines are titles.
func nameLines(lines []string) [][]string {
	all := make([]parsed, len(lines))
	for i, line := range lines {
		all[i] = parse(line)
	}
	common := commonLines(all)
	rows := make([][]string, len(lines))
	for i, one := range all {
		switch {
		case one.kind == section && common[i]:
			rows[i] = []string{one.name}
		case one.kind == section:
			rows[i] = []string{keyName, one.name}
		case one.kind == valued && common[i]:
			rows[i] = []string{one.name + ": " + one.value}
		case one.kind == valued:
			rows[i] = []string{one.name, one.value}
		case one.value != "":
			rows[i] = []string{one.value}
		}
	}
	return rows
}

// commonLines tells of each line whether it is in a section of which no name stands in another one.
func commonLines(lines []parsed) []bool {
	sections := make([]int, len(lines)) // counted from 1
	last := map[string]int{}            // the section in which a name stood last
	shared := map[string]bool{}
	n := 0
	for i, one := range lines {
		if one.kind == section {
			n++
		}
		sections[i] = n
		if n > 0 && one.kind == valued {
			shared[one.name] = shared[one.name] || last[one.name] != 0 && last[one.name] != n
			last[one.name] = n
		}
	}
	own := make([]bool, n+1) // whether a section has such a name; what stands above all has none
	own[0] = true
	for i, one := range lines {
		own[sections[i]] = own[sections[i]] || one.kind == valued && shared[one.name]
	}
	common := make([]bool, len(lines))
	for i, s := range sections {
		common[i] = !own[s]
	}
	return common
}

// recordLines makes a row of each line that is a record, below one of their names; what else stands there remains.
func recordLines(lines []string) [][]string {
	var l list
	var rows [][]string
	first := -1
	for _, line := range lines {
		if pairs := pairsOf(line); len(pairs) >= leastPairs {
			if first < 0 {
				first = len(rows)
			}
			l.records = append(l.records, &node{children: pairs})
			rows = append(rows, nil)
			continue
		}
		rows = append(rows, []string{strings.TrimSpace(line)})
	}
	t := l.table(len(lines) * leastPairs)
	next := 1
	for i := range rows {
		if rows[i] == nil {
			rows[i] = t.Rows[next]
			next++
		} else if rows[i][0] == "" {
			rows[i] = nil
		}
	}
	return slices.Insert(rows, first, t.Rows[0])
}

// pairsOf returns the names with values of a line that has nothing else.
func pairsOf(line string) (pairs []*node) {
	line = strings.TrimSpace(line)
	if strings.HasPrefix(line, "{") {
		if one := readJSON(strings.TrimSuffix(line, ","), looked); one != nil && !one.beyond {
			return one.children
		}
		return nil
	}
	if !strings.Contains(line, "=") || isComment(line) {
		return nil
	}
	end := 0
	for _, at := range pair().FindAllStringSubmatchIndex(line, -1) {
		if at[0] != end {
			return nil
		}
		end = at[1]
		pairs = append(pairs, &node{name: line[at[2]:at[3]], text: unquoted(line[at[4]:at[5]])})
	}
	if end != len(line) {
		return nil
	}
	return pairs
}

// unquoted takes off the quotation marks about a value.
func unquoted(value string) string {
	if n := len(value); n > 1 && (value[0] == '"' || value[0] == '\'') && value[n-1] == value[0] {
		return value[1 : n-1]
	}
	return value
}
