package workbook

import (
	"bytes"
	"strings"
	"testing"

	"example.com/seatline/reconcile/publish/tell/telltest"
)

func TestDrawings(t *testing.T) {
	r := telltest.Small(t)
	for _, most := range []int{1, 200} {
		limits := standardLimits
		limits.drawings = most
		file := bytesOf(t, r, Options{Drawings: true}, limits)
		if !bytes.Equal(file, bytesOf(t, r, Options{Drawings: true}, limits)) {
			t.Error("the same results gave other bytes")
		}
		f := open(t, file)
		cells, err := f.GetPictureCells(sheetBest)
		if err != nil {
			t.Fatal(err)
		}
		firsts, best := 0, rows(t, f, sheetBest)
		for _, row := range best {
			if len(row) > 3 && row[3] == "1" {
				firsts++
			}
		}
		if want := min(most, firsts); len(cells) != want || firsts < 2 {
			t.Errorf("%d pictures for %d best ferrules, want %d", len(cells), firsts, want)
		}
		for _, cell := range cells {
			pictures, err := f.GetPictures(sheetBest, cell)
			if err != nil || len(pictures) != 1 || !strings.Contains(pictures[0].Format.AltText, "The hosel is ") {
				t.Errorf("%s: %d pictures, error %v", cell, len(pictures), err)
			}
		}
		if said := strings.Contains(best[3][0], "for the first 1 of "); said != (most == 1) {
			t.Errorf("with at most %d the sheet says %q", most, best[3][0])
		}
	}
}
