package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// TestRemarks puts a text below a list: one that names a part and another size of it asks which holds, others ask nothing.
func TestRemarks(t *testing.T) {
	const list = `
Part no. | Hosel OD mm | Bore mm | Hosel length mm
HX-1     | 13.6        | 9.5     | 60
HX-2     | 13.7        | 9.5     | 60
HX-3     | 13.8        | 9.5     | 60
`
	for text, want := range map[string][]string{
		"Sorry, the hosel of HX-2 is 13.75 and not 13.7.":       {"error 3 B3"},
		"Note: HX-3 now has a bore of 9.55":                     {"error 4 C4"},
		"HX-1のホーゼル外径は13.52でした":                                  {"error 2 B2"},
		"HX-1 and HX-3: hosel length is 62 mm":                  {"error 2 D2", "error 4 D4"},
		"HX-2: bore .378 in":                                    {"error 3 C3"},
		"HX-2 is 13.7 mm, as drawn":                             nil,
		"HX-2 is sold out until 13.10.2027":                     nil,
		"HX-2 costs 13.90 EUR from January":                     nil,
		"HX-2 is $13.90 each":                                   nil,
		"HX-2 comes in boxes of 12, 62 in all":                  nil,
		"HX-9 has a hosel of 13.75":                             nil,
		"Hosels of 13.75 are made to order":                     nil,
		"We also have HX-2 in 15.0 mm":                          {"error 3 B3"},
		"Ask for HX-10 to HX-12, which have a hosel of 13.9 mm": nil,
	} {
		c := read(t, grid("Heads", list+text+"\n"))
		if diff := cmp.Diff(want, of(c, "data.remark")); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", text, diff)
		}
	}
	// A person's answer settles it.
	opts := reader.Options{Map: catalog.Mapping{Sheets: map[string]catalog.SheetRules{
		"Heads": {Rows: map[string]catalog.RowRule{"3": {Values: map[catalog.Role]string{catalog.HoselOD: "13.75 mm"}}}},
	}}}
	c := readInputs(t, opts, reader.Input{Book: book("orrin.xlsx", grid("Heads", list+"HX-2 is 13.75\n"))})
	if got := of(c, "data.remark"); len(got) != 0 {
		t.Error(got)
	}
}

// TestNotesOfRows puts a note into the row of a part: one that speaks of a change and of another size asks which holds.
func TestNotesOfRows(t *testing.T) {
	for note, want := range map[string][]string{
		"now 13.7":                            {"error 2 B2"},
		"revised 3/27: bore 9.55":             {"error 2 C2"},
		"neu 13,75":                           {"error 2 B2"},
		"13.75 from lot 12, before that 13.6": {"error 2 B2"},
		"was 13.5 until 2026":                 nil,
		"13.6 now, formerly 13.5":             nil,
		"was eerst 13,5, matrijs aangepast":   nil,
		"vroeger was dit 13,5":                nil,
		"13.5→13.6に訂正しました":                    nil,
		"changed 13.5 -> 13.6":                nil,
		"korrigiert: 13,5 mm => 13,6 mm":      nil,
		"changed 13.6 -> 13.7":                {"error 2 B2"},
		"13.6→13.5に訂正しました":                    {"error 2 B2"},
		"was wrong, 13.7 is right, changed":   {"error 2 B2"},
		"old 13.5, is 13.7":                   {"error 2 B2"},
		"new mould":                           nil,
		"goes with ferrules of 13.5 to 13.8":  nil,
		"new price 13.90 EUR":                 nil,
		"OD is 16.3, wrongly typed":           {"error 2 B2"}, // by its name it need not be near
		"hosel now 15":                        {"error 2 B2"},
		"new length 35":                       nil,
	} {
		c := read(t, grid("Heads", `
Part no. | Hosel OD mm | Bore mm | Remarks
HX-1     | 13.6        | 9.5     | `+note+`
HX-2     | 13.7        | 9.5     | satin
HX-3     | 13.8        | 9.5     | polished
`))
		if diff := cmp.Diff(want, of(c, "data.remark")); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", note, diff)
		}
	}
}

// TestSizesNamedInTexts puts a size with its name into the note or description of a part: one that is another than the part's is said, and the column
// counts.
func TestSizesNamedInTexts(t *testing.T) {
	for text, want := range map[string][]string{
		"hosel OD .532":                        {"warning 3 B3, 3 E3"},
		"satin, 13.2 mm hosel on this one":     {"warning 3 B3, 3 E3"},
		"Außen-Ø 13,2":                         {"warning 3 B3, 3 E3"},
		"ホーゼル外径13.2です":                         {"warning 3 B3, 3 E3"},
		"颈部外径13.2mm":                           {"warning 3 B3, 3 E3"},
		"Ø ext. 13,2 mm, foro 9,1":             {"warning 3 B3, 3 E3", "warning 3 C3, 3 E3"},
		"bore depth 33":                        {"warning 3 D3, 3 E3"},
		"Bohrtiefe 33, matt":                   {"warning 3 D3, 3 E3"},
		"hosel OD .539, bore 9.5":              nil,
		"hosel 13.6 - 13.8 by hand":            nil,
		"depth 32 mm":                          nil,
		"for .370 shafts":                      nil,
		"goes with ferrule OD 13.2":            nil,
		"hosel OD was 13.2":                    nil,
		"lie 62.5, loft 34":                    nil,
		"price of 13.2 from May":               nil,
		"OD ±0.1":                              nil,
		"short hosel, 3 left, 9.5 kg a carton": nil,
	} {
		for _, heading := range []string{"Remarks", "Description"} {
			c := read(t, grid("Heads", `
Part no. | Hosel OD mm | Bore mm | Bore depth mm | `+heading+`
HX-1     | 13.6        | 9.5     | 32            | satin
HX-2     | 13.7        | 9.5     | 32            | `+text+`
HX-3     | 13.8        | 9.5     | 32            | polished
HX-4     | 13.8        | 9.5     | 32            | polished
`))
			if diff := cmp.Diff(want, of(c, "data.conflict")); diff != "" {
				t.Errorf("%s, %s: (-want +got)\n%s", heading, text, diff)
			}
		}
	}
}

// TestSizesNow puts a note into the row of a part that plainly says what a size is now: it counts, with a warning. What says it less plainly asks.
func TestSizesNow(t *testing.T) {
	for note, want := range map[string]string{
		"new tool, thin end is 11.0 now":               "11",
		"thin end now 11.0":                            "11",
		"thin end corrected to 11.0 mm":                "11",
		"dünnes Ende jetzt 11,0":                       "11",
		"Neue Form; dünnes Ende ist jetzt 11,0":        "11",
		"Ø punta ahora 11,0":                           "11",
		"thin end now 15.0":                            "-", // far off
		"thin end may be 11.0 now":                     "-",
		"thin end is 11.0 now?":                        "-",
		"thin end now 11.0 from May 3":                 "-",
		"thin end was 11.0":                            "10.8",
		"thin end now 10.8":                            "10.8",
		"now 11.0":                                     "-", // of which size
		"thin end now 11.0, if you want the old mould": "-",
		"base now 13.6, thin end 11.0":                 "-",
	} {
		c := read(t, grid("Ferrules", `
Code | Base mm | Bore mm | Thin end mm | Length mm | Remarks
RI-1 | 13.5    | 9.3     | 10.8        | 25        | `+note+`
RI-2 | 13.5    | 9.3     | 10.8        | 19        |
RI-3 | 13.8    | 9.3     | 10.8        | 25        | matt
`))
		got := "-"
		if _, after, found := strings.Cut(rowOf(t, c, "RI-1"), "top_od="); found {
			if got, _, _ = strings.Cut(after, " "); strings.HasPrefix(got, `"`) { // its text alone
				got = "-"
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", note, diff)
			show(t, c)
		}
		if got == "11" {
			if diff := cmp.Diff([]string{"warning 2 D2"}, of(c, "data.remark")); diff != "" {
				t.Errorf("%s: (-want +got)\n%s", note, diff)
			}
		}
	}
}

// TestSizesPutRight puts a note into the row of a part that gives a size in place of the one that stands there: it counts, with a warning. Where other
// words stand beside it, or nothing tells which of two sizes is meant, it asks; of what is no such size it says nothing.
func TestSizesPutRight(t *testing.T) {
	for note, want := range map[string]string{
		"ERRATA: neck 13.6 not 13.4":                "13.6",
		"hosel OD should be 13.6 instead of 13.4":   "13.6",
		"13.6 (not 13.4)":                           "13.6",
		"neck not 13.4 but 13.6":                    "13.6",
		"ERRATA: collo 13,6 non 13,4":               "13.6",
		"Druckfehler: Hals 13,6 statt 13,4":         "13.6",
		"Hals nicht 13,4 sondern 13,6":              "13.6",
		"Erratum : col 13,6 et non 13,4":            "13.6",
		"Errata: cuello 13,6 y no 13,4":             "13.6",
		"drukfout: hals niet 13,4 maar 13,6":        "13.6",
		"neck 13.6 not 13.4 after the new tool":     "-",
		"neck 13.6, no, 13.4":                       "13.4", // as it stands
		"ERRATA: neck 16.6 not 13.4":                "-",    // far off
		"neck 13.6 not 13.4?":                       "13.4", // with a warning
		"ERRATA: bore 9.6 not 9.5":                  "13.4",
		"neck 13.4 not 13.6":                        "13.4", // as it stands
		"errata: neck 13.6 not 13.5":                "-",    // what stands there is neither
		"neck 13.6 not 13.4 on request, else as it": "-",
	} {
		c := read(t, grid("Heads", `
Code | Neck mm | Bore mm | Remarks
HX-1 | 13.4    | 9.5     | `+note+`
HX-2 | 13.4    | 9.5     |
HX-3 | 13.8    | 9.5     | satin
`))
		got := "-"
		if _, after, found := strings.Cut(rowOf(t, c, "HX-1"), "hosel_od="); found {
			if got, _, _ = strings.Cut(after, " "); strings.HasPrefix(got, `"`) { // its text alone
				got = "-"
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", note, diff)
			show(t, c)
		}
		if got == "13.6" {
			if diff := cmp.Diff([]string{"warning 2 B2"}, of(c, "data.remark")); diff != "" {
				t.Errorf("%s: (-want +got)\n%s", note, diff)
			}
		}
	}
}

// TestRemarksOnTips takes the tip that a remark says a part is for for no other bore.
func TestRemarksOnTips(t *testing.T) {
	for text, want := range map[string]int{
		"HT30+31 for .335":             0,
		"HT30: für .335":               0,
		"HT30 pour .335 parallèle":     0,
		"HT30: bore .335":              1,
		"HT30 fits .335, bore now 8.5": 1,
	} {
		t.Run(text, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Code | Base OD mm | Bore mm | Length mm\nHT30 | 12.0 | 8.4 | 22\nHT31 | 12.1 | 8.4 | 22\nHT11 | 13.5 | 9.3 | 25\n |  |  | \n"+text+" |  |  | "))
			if got := of(c, "data.remark"); len(got) != want {
				t.Errorf("%q, want %d", got, want)
			}
		})
	}
}
