package numberkey

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestFind(t *testing.T) {
	lex := lexicon.New(nil)
	numbers := []string{"VF-1350-0925-19-B", "VF-1380-0950-22-W", "VF-1320-0900-25-B"}
	tests := []struct {
		texts []string
		want  string // the names of the sizes with those of the first number
		seen  bool
	}{
		{[]string{"VF-aaaa-bbbb-cc-k, aaaa = base OD in hundredths of mm, bbbb = bore in hundredths of mm, cc = length in mm"}, "base OD 13.50 mm, bore 9.25 mm, length 19 mm", false},
		{[]string{"VF-[Außen-Ø]-[Innen-Ø]-[Länge]-[Farbe]", "Durchmesser in Hundertstel mm, Länge in mm"}, "Außen-Ø 13.50 mm, Innen-Ø 9.25 mm, Länge 19 mm", false},
		{[]string{"e.g. VF-1350-0925-19-B = base OD 13.50 mm, bore 9.25 mm, length 19 mm"}, "base OD 13.50 mm, bore 9.25 mm, length 19 mm", false},
		{[]string{"the first four digits give the base OD in hundredths of mm, the next four the bore in hundredths of mm"}, "base od 13.50 mm, bore 9.25 mm", false},
		{[]string{"VF-aaaa-bbbb-cc-k"}, "", true}, // of what
		{[]string{"all our ferrules are packed in bags of ten"}, "", false},
	}
	for _, test := range tests {
		var texts []Text
		for _, text := range test.texts {
			texts = append(texts, Text{Text: text})
		}
		k, seen := Find(lex, catalog.Ferrules, texts, numbers)
		var got []string
		if k != nil {
			var sizes []int
			for i := range k.Fields {
				if k.Fields[i].IsSize() {
					sizes = append(sizes, i)
				}
			}
			pieces, whys := k.Read(catalog.Ferrules, numbers[0], sizes)
			if whys != nil {
				t.Errorf("%s: %q", test.texts, whys)
			}
			for n, i := range sizes {
				got = append(got, k.Fields[i].Name+" "+pieces[n]+" "+k.Fields[i].Unit())
			}
		}
		if diff := cmp.Diff(test.want, strings.Join(got, ", ")); diff != "" || (seen != nil) != test.seen {
			t.Errorf("%s: seen %v (-want +got):\n%s", test.texts, seen, diff)
		}
	}
}
