package questions_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
)

func asked(opts reader.Options, inputs ...reader.Input) (questions.List, *matrix.Result) {
	r := matrix.Decide(reader.Read(inputs, opts), fitcalc.DefaultShop())
	return questions.Ask(r), r
}

// Whether bores are tips is asked once for a table, of the supplier, with all pairs that rest on it; the answer settles it.
func TestTipOrTrueBoreIsAskedOnce(t *testing.T) {
	heads := reader.Input{Kind: catalog.Heads, Book: named("heads.csv", "Part | Hosel OD (mm) | Bore (mm) | Category", "H-1 | 13.6 | 9.51 | iron", "H-2 | 13.4 | 9.51 | iron")}
	const key = `sheets."trim".ferrule_bores`
	for _, sheet := range []string{"Bore (in)", "Fits"} {
		trim := reader.Input{Kind: catalog.Ferrules, Book: named("trim.csv", "Part | "+sheet+" | Base OD (in) | Length (in)", "T-1 | .370 | .540 | 1", "T-2 | .370 | .550 | 1")}
		list, r := asked(reader.Options{}, heads, trim)
		at := slices.IndexFunc(list.Questions, func(q questions.Question) bool { return q.Key == key })
		if at < 0 {
			t.Fatalf("%s: not asked among %+v", sheet, list.Questions)
		}
		q := list.Questions[at]
		if q.Kind != questions.Confirm || q.Ours || q.Carries != r.InReachCount() || q.Carries == 0 || !strings.Contains(q.Asks, sheet) || q.Place.Cell == "" {
			t.Errorf("%s: asked as %+v, of %d pairs", sheet, q, r.InReachCount())
		}
		for _, other := range list.Questions {
			if strings.Contains(other.Key, ".rows.") && strings.HasSuffix(other.Key, ".bore") {
				t.Errorf("%s: asked again for each row: %+v", sheet, other)
			}
		}
		back := questions.Answers(book("Part | Answer | Our reference", " | tip | "+key))
		again, _ := asked(reader.Options{Map: back.Map}, heads, trim)
		if slices.ContainsFunc(again.Questions, func(q questions.Question) bool { return q.Key == key }) {
			t.Errorf("%s: asked again", sheet)
		}
	}
}

// What rests on the bore of a tip is counted, and tried with the tip's own size.
func TestBoreOfTipIsTried(t *testing.T) {
	_, r := asked(reader.Options{},
		reader.Input{Kind: catalog.Heads, Book: named("heads.csv", "Part | Hosel OD (mm) | Bore (mm) | Category", "H-1 | 13.6 | 9.51 | iron")},
		reader.Input{Kind: catalog.Ferrules, Book: named("trim.csv", "Part | Fits | Base OD (in) | Length (in)", "T-1 | .370 | .540 | 1")})
	all := questions.Assumptions(r)
	at := slices.IndexFunc(all, func(a questions.Assumption) bool { return a.Code == fitcalc.AssumedBoreOfTip.Code() })
	if at < 0 || all[at].Verdicts != r.InReachCount() || all[at].Flips == 0 || all[at].Tried == "" {
		t.Errorf("%+v", all)
	}
}

// A bore between two tips is a question about the tip that names both.
func TestBoreBetweenTwoTipsIsAsked(t *testing.T) {
	list, _ := asked(reader.Options{},
		reader.Input{Kind: catalog.Heads, Book: named("heads.csv", "Part | Hosel OD (mm) | Bore (in)", "H-1 | 13.6 | .358")},
		reader.Input{Kind: catalog.Ferrules, Book: named("trim.csv", "Part | Bore (in) | Base OD (in) | Length (in)", "T-1 | .366 | .540 | 1")})
	for _, q := range list.Questions {
		if q.Role == catalog.TipTaken {
			if q.Settles != 1 || !strings.Contains(q.Why, ".350 parallel") || !strings.Contains(q.Why, ".355 taper") {
				t.Errorf("asked as %+v", q)
			}
			return
		}
	}
	t.Errorf("not asked among %+v", list.Questions)
}
