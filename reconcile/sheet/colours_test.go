package sheet_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/sheet"
)

// TestColours holds what is kept of coloured cells to a map of them, in whatever order they come.
func TestColours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paints := []sheet.Paint{{}, {Fill: sheet.RGB(255, 255, 0)}, {Ink: sheet.RGB(192, 0, 0)}, {Fill: sheet.RGB(255, 255, 255), Ink: sheet.RGB(0, 0, 0)}}
		var colours sheet.Colours
		want := map[sheet.Ref]sheet.Paint{}
		for range rapid.IntRange(0, 40).Draw(t, "cells") {
			at := sheet.Ref{Row: rapid.IntRange(1, 6).Draw(t, "row"), Col: rapid.IntRange(1, 8).Draw(t, "col")}
			if _, stands := want[at]; stands {
				continue
			}
			paint := rapid.SampledFrom(paints).Draw(t, "paint")
			colours.Add(at, paint)
			want[at] = paint.Seen()
		}
		colours.Sort()
		got := map[sheet.Ref]sheet.Paint{}
		colours.Each(8, func(at sheet.Ref, paint sheet.Paint) { got[at] = paint })
		for row := range 8 {
			for col := range 10 {
				at := sheet.Ref{Row: row, Col: col}
				if colours.At(at) != want[at] {
					t.Fatalf("%v is %v, want %v", at, colours.At(at), want[at])
				}
				if want[at] == (sheet.Paint{}) {
					delete(want, at)
				}
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestParseColour(t *testing.T) {
	for text, want := range map[string]string{"FFFF00": "FFFF00", "ff00c0a1": "00C0A1", "FFFF0": "", "GGGGGG": "", "+12345": "", "": ""} {
		got, ok := sheet.ParseColour(text)
		if ok != (want != "") || ok && got.String() != want {
			t.Errorf("%q: %v, %v, want %q", text, got, ok, want)
		}
	}
}
