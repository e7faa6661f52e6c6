// Package records reads what shop programs and data bases write as names with values - JSON, XML, lines of name=value - as sheets: a record is a
// row, and its names are the headings. What stands about the records, such as the unit of all sizes, stands above them as titles do.
package records

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet"
)

// Table is a sheet of texts: titles, a row of names, and a row for each record.
type Table struct {
	// Name is that of the list of records, empty where it has none.
	Name string
	Rows [][]string
}

// Found is what a text holds.
type Found struct {
	// How says in which form the records were written.
	How string
	// Tables has one table, or one for each list of records.
	Tables []Table
	// OfLines is set where each row is the line of the same number.
	OfLines bool
}

// In returns the records of a text, and whether it holds any. The error is a [*sheet.FileError] where there are too many of them.
func In(file, text string, limits sheet.Limits) (Found, bool, error) {
	limits = limits.OrDefault()
	var root *node
	how := ""
	switch first, _ := utf8.DecodeRuneInString(strings.TrimLeft(strings.TrimPrefix(text, "\ufeff"), " \t\r\n")); first {
	case '{', '[':
		how = "JSON"
		root = readJSON(text, limits.Cells)
	case '<':
		how = "XML"
		root = readXML(text, limits.Cells)
	}
	if root == nil {
		found, ok := inLines(text)
		return found, ok, nil
	}
	if root.beyond {
		return Found{}, false, limits.Beyond(file, "", "cells", "it has too many values")
	}
	found := Found{How: how, Tables: root.tables(limits.Columns)}
	return found, len(found.Tables) > 0, nil
}

// node is a value: of a name, with others in it where it is no leaf.
type node struct {
	name, text string
	children   []*node
	// isList is set where the values in it have no names.
	isList bool
	// beyond is set where a text has more values than may be read.
	beyond bool
}

func (n *node) isLeaf() bool { return len(n.children) == 0 && !n.isList }

// tables returns the lists of records, each as a table.
func (n *node) tables(mostColumns int) []Table {
	lists := n.lists(nil, nil)
	tables := make([]Table, 0, len(lists))
	for _, l := range lists {
		tables = append(tables, l.table(mostColumns))
	}
	return tables
}

// list is a list of records, with what stands above it.
type list struct {
	titles  []string
	name    string
	records []*node
	// keyed is set where the name of each record is its own: its number.
	keyed bool
}

const (
	// leastFields is how many values a record has at least.
	leastFields = 2
	// mostTitles is how many lines above a list are kept.
	mostTitles = 40
)

// lists appends the outermost lists of records.
func (n *node) lists(found []list, titles []string) []list {
	if n.name != "" {
		titles = append(slices.Clip(titles), n.name)
	}
	for _, child := range n.children {
		if child.isLeaf() && child.text != "" && len(titles) < mostTitles {
			titles = append(slices.Clip(titles), child.label())
		}
	}
	taken := map[*node]bool{}
	for _, group := range n.groups() {
		for _, record := range group {
			taken[record] = true
		}
		l := list{titles: titles, name: n.name, records: group}
		l.keyed = !n.isList && len(group) > 1 && group[0].name != group[1].name
		if !n.isList && !l.keyed && len(group) > 0 {
			l.name = group[0].name
		}
		found = append(found, l)
	}
	for _, child := range n.children {
		if !taken[child] && !child.isLeaf() {
			found = child.lists(found, titles)
		}
	}
	return found
}

// label is how a value stands above a list.
func (n *node) label() string {
	if n.name == "" {
		return n.text
	}
	return n.name + ": " + n.text
}

// groups returns which children are records of one list: those of one name, the members of a list, or those of names of their own in which mostly
// the same stands.
func (n *node) groups() (groups [][]*node) {
	byName := map[string]int{}
	for _, child := range n.children {
		if child.fields() < leastFields {
			continue
		}
		at, known := byName[child.name]
		if !known {
			at = len(groups)
			byName[child.name] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], child)
	}
	if !n.isList && len(groups) > 1 && alike(groups) {
		groups = [][]*node{slices.Concat(groups...)}
	}
	return slices.DeleteFunc(groups, func(g []*node) bool { return !n.isList && len(g) < 2 })
}

// alike reports whether single values with others in them have most names in common.
func alike(groups [][]*node) bool {
	of := map[string]int{}
	names := 0
	for _, g := range groups {
		if len(g) > 1 {
			return false
		}
		for _, child := range g[0].children {
			of[child.name]++
			names++
		}
	}
	common := 0
	for _, n := range of {
		if n > 1 {
			common += n
		}
	}
	return 2*common > names
}

// fields counts the values with a name of their own, and those one level below; a list is one.
func (n *node) fields() (count int) {
	for _, child := range n.children {
		switch {
		case child.name == "" || n.isList:
		case child.isLeaf() || child.isList:
			count++
		default:
			for _, inner := range child.children {
				if inner.isLeaf() {
					count++
				}
			}
		}
	}
	return count
}

// keyName is the heading of the names of records that have none of their own: they are called by their numbers.
const keyName = "Item no."

// table makes rows of the records: what is not in one is blank.
func (l list) table(mostColumns int) Table {
	var names []string
	columns := map[string]int{}
	t := Table{Name: l.name}
	for _, title := range l.titles {
		t.Rows = append(t.Rows, []string{title})
	}
	heading := len(t.Rows)
	t.Rows = append(t.Rows, nil)
	for _, record := range l.records {
		var row []string
		set := func(name, value string) {
			at, known := columns[name]
			if !known {
				if len(names) >= mostColumns {
					return
				}
				at = len(names)
				columns[name], names = at, append(names, name)
			}
			if value == "" {
				return
			}
			for len(row) <= at {
				row = append(row, "")
			}
			if row[at] != "" {
				value = row[at] + " / " + value
			}
			row[at] = value
		}
		if l.keyed {
			set(keyName, record.name)
		}
		record.each("", set)
		t.Rows = append(t.Rows, row)
	}
	t.Rows[heading] = names
	return t
}

// each calls set for each value of a record, by the names on the way to it.
func (n *node) each(above string, set func(name, value string)) {
	if n.text != "" && len(n.children) > 0 {
		set(cmp.Or(above, n.name), n.text)
	}
	parts := 0
	for _, child := range n.children {
		if !child.isLeaf() {
			parts++
		}
	}
	part := 0
	for _, child := range n.children {
		name := strings.TrimSpace(above + " " + child.name)
		switch {
		case child.isLeaf():
			set(name, child.text)
		case n.isList && parts > 1: // quantities with their prices, one after another
			part++
			child.each(name+" "+strconv.Itoa(part), set)
		default:
			child.each(name, set)
		}
	}
}
