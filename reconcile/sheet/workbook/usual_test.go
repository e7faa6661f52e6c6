package workbook_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var columnNumber = regexp.MustCompile(`column \d+`)

// TestUsualCells reads random rows in the short way, by which cells are read that are written as usual, and, with one more space in each
// cell, in the long way: both give the same book, or the same fault.
func TestUsualCells(t *testing.T) {
	pieces := func(t *rapid.T, name string, from ...string) string { return rapid.SampledFrom(from).Draw(t, name) }
	read1 := func(t *testing.T, rows string) string {
		book, err := read("test.xlsx", rowsOf(rows).zip(t))
		if err != nil {
			return columnNumber.ReplaceAllString(err.Error(), "column …")
		}
		var out strings.Builder
		for _, row := range book.Sheets[0].Rows {
			for _, cell := range row {
				fmt.Fprintf(&out, "%+v ", *cell)
			}
			out.WriteString("\n")
		}
		fmt.Fprintf(&out, "%+v", book.Notes)
		return out.String()
	}
	faults, cells := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		var rows strings.Builder
		for row := range rapid.IntRange(1, 3).Draw(rt, "rows") {
			fmt.Fprintf(&rows, `<row r="%d">`, row+1)
			for col := range rapid.IntRange(0, 6).Draw(rt, "cells") {
				at := fmt.Sprintf("%c%d", 'A'+col, row+1)
				if rapid.IntRange(0, 60).Draw(rt, "odd place") == 0 {
					at = pieces(rt, "place", "A1", "$B$2", "b2", "XFD1", "XFE1", "AAAA1", "A01", "C", "7", "")
				}
				rows.WriteString(`<c r="` + at + `"`)
				rows.WriteString(pieces(rt, "style", "", "", ` s="1"`, ` s="2"`, ` s="4"`, ` s="0"`, ` s="03"`, ` s="99"`))
				kind := pieces(rt, "type", "", "", "", "s", "s", "n", "str", "b", "e", "d", "inlineStr")
				if rapid.IntRange(0, 60).Draw(rt, "odd type") == 0 {
					kind = pieces(rt, "type", "x", "&#115;", "")
				}
				if kind != "" {
					rows.WriteString(` t="` + kind + `"`)
				}
				value := pieces(rt, "value", "0", "1", "2", "13.6", "0.33500000000000002", "45724", "1E-3", "2025-03-08")
				if rapid.IntRange(0, 20).Draw(rt, "odd value") == 0 {
					value = pieces(rt, "value", "", " 1 ", "\n2", "a&amp;b", "]]>", "x]y", "NaN", "99", "_x0041_", "<!-- -->1", "true", "é")
				}
				end := "</v></c>"
				if rapid.IntRange(0, 40).Draw(rt, "odd end") == 0 {
					end = pieces(rt, "end", "</v> </c>", "</v><f>A1</f></c>", "</v><extLst/></c>", "</v>")
				}
				rows.WriteString("><v>" + value + end)
				cells++
			}
			rows.WriteString("</row>")
		}
		short, long := read1(t, rows.String()), read1(t, strings.ReplaceAll(rows.String(), "<c ", "<c  "))
		if strings.Contains(short, "damaged") {
			faults++
		}
		if diff := cmp.Diff(long, short); diff != "" {
			rt.Errorf("%s\n(-long +short)\n%s", rows.String(), diff)
		}
	})
	if faults == 0 || cells == 0 {
		t.Errorf("%d sheets had faults, of %d cells", faults, cells)
	}
}
