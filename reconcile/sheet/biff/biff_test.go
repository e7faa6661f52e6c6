package biff_test

import (
	"bytes"
	"errors"
	"os"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/biff"
	"example.com/seatline/reconcile/sheet/workbook"
)

func content(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestAgainstXLSX reads a workbook that LibreOffice has saved in both formats, and wants the same of both: kinds of cells, texts of several
// scripts with raised and struck-out runs, formats, dates, merged and hidden parts, and texts that go on in further records.
func TestAgainstXLSX(t *testing.T) {
	old, err := biff.ReadWithin("mixed.xls", bytes.NewReader(content(t, "mixed.xls")), sheet.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	data := content(t, "mixed.xlsx")
	other, err := workbook.Read("mixed.xlsx", bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	// An xls file has the bits of a number and not its figures, and no text of formulas.
	plain := cmp.Transformer("plain", func(c sheet.Cell) sheet.Cell {
		if number, err := strconv.ParseFloat(c.Raw, 64); err == nil {
			c.Raw = strconv.FormatFloat(number, 'g', -1, 64)
		}
		if c.Formula != "" {
			c.Formula = "…"
		}
		return c
	})
	if diff := cmp.Diff(other.Sheets, old.Sheets, cmp.FilterPath(func(p cmp.Path) bool { return len(p) < 2 || p.Index(-2).String() != "plain" }, plain), cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("xlsx against xls: %s", diff)
	}
	if len(old.Notes) != 0 || len(other.Sheets[0].Comments) != 1 {
		t.Errorf("%v, and %v", old.Notes, other.Sheets[0].Comments)
	}
	if len(old.Sheets) != 2 || len(old.Sheets[1].Rows) != 401 || len(old.Sheets[0].Struck) != 2 {
		t.Errorf("%d sheets", len(old.Sheets))
	}
}

// TestCutOff cuts the file off at many places; each time it is refused and never read short.
func TestCutOff(t *testing.T) {
	data := content(t, "mixed.xls")
	for at := 8; at < len(data)-512; at += 997 {
		_, err := biff.ReadWithin("mixed.xls", bytes.NewReader(data[:at]), sheet.Limits{})
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Next == "" || refusal.Problem == "" {
			t.Errorf("cut off at %d: %v", at, err)
		}
	}
}

func TestLimits(t *testing.T) {
	data := content(t, "mixed.xls")
	for name, limits := range map[string]sheet.Limits{"rows": {Rows: 100}, "columns": {Columns: 3}, "cells": {Cells: 100}, "characters": {Characters: 10}, "sheets": {Sheets: 1}, "unpacked": {Unpacked: 1000}} {
		_, err := biff.ReadWithin("mixed.xls", bytes.NewReader(data), limits)
		var refusal *sheet.FileError
		if !errors.As(err, &refusal) || refusal.Reason != sheet.ReasonTooBig {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// FuzzRead changes bytes of a good file: each is read within the limits or refused with a typed error.
func FuzzRead(f *testing.F) {
	f.Add(uint32(600), byte(1), uint32(5000), byte(255))
	f.Add(uint32(48), byte(7), uint32(76), byte(9))
	data := content(f, "mixed.xls")
	limits := sheet.Limits{Rows: 2000, Cells: 10_000, Text: 1 << 20}
	f.Fuzz(func(t *testing.T, at uint32, to byte, second uint32, also byte) {
		bad := bytes.Clone(data)
		bad[int(at)%len(bad)] ^= to
		bad[int(second)%len(bad)] ^= also
		_, err := biff.ReadWithin("f.xls", bytes.NewReader(bad), limits)
		var refusal *sheet.FileError
		if err != nil && !errors.As(err, &refusal) {
			t.Fatalf("an error without a type: %v", err)
		}
	})
}
