package questions_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/plan/questions"
)

// holey draws a sheet of heads and one of ferrules with a cell left out of many rows.
func holey(t *rapid.T) []reader.Input {
	rows := func(count, columns int, prefix string, cells ...[]string) []string {
		var lines []string
		for i := range count {
			line := fmt.Sprintf("%s-%03d", prefix, i+1)
			gone := rapid.IntRange(0, columns).Draw(t, "left out")
			for at, of := range cells {
				text := rapid.SampledFrom(of).Draw(t, "cell")
				if at == gone {
					text = ""
				}
				line += " | " + text
			}
			lines = append(lines, line)
		}
		return lines
	}
	heads := append([]string{"Part | Hosel OD (mm) | Bore (mm) | Bore depth (mm) | Top"},
		rows(rapid.IntRange(2, 6).Draw(t, "heads"), 6, "HD", []string{"12.7", "13.2", "13.4"}, []string{"9.5", "9.51"}, []string{"32", "35"}, []string{"flat", "countersunk"})...)
	ferrules := append([]string{"Part | Bore (in) | Base OD (in) | Length (in) | Style"},
		rows(rapid.IntRange(2, 6).Draw(t, "ferrules"), 6, "FR", []string{".368", ".367"}, []string{".505", ".525", ".540"}, []string{".5", ".75"}, []string{"plain", "collared"})...)
	h, f := book(heads...), book(ferrules...)
	h.File, h.Sheets[0].Name = "heads.csv", "Heads"
	f.File, f.Sheets[0].Name = "ferrules.csv", "Ferrules"
	return []reader.Input{{Book: h, Kind: catalog.Heads}, {Book: f, Kind: catalog.Ferrules}}
}

// TestAnswersKeepTheirPromise: one answer decides the pairs that it is said to settle, unless it brings up a question that was not
// there before; and once all questions are answered, whatever comes up, nothing is undecided.
func TestAnswersKeepTheirPromise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inputs := holey(t)
		before := decide(inputs, catalog.Mapping{})
		list := questions.Ask(before)
		known := map[string]bool{}
		for _, q := range list.Questions {
			known[q.Key] = true
		}
		var worth []questions.Question
		for _, q := range list.Questions {
			if q.Settles > 0 {
				worth = append(worth, q)
			}
		}
		if len(worth) > 0 {
			q := rapid.SampledFrom(worth).Draw(t, "question")
			back := questions.Answers(returned(list, map[string]string{q.Key: answerTo(q)}))
			if back.Ledger.Answered != 1 {
				t.Fatalf("%s: %+v", q.Key, back.Findings)
			}
			after := questions.Ask(decide(inputs, back.Map))
			opened := 0
			for _, other := range after.Questions {
				if !known[other.Key] {
					opened += other.Settles + other.Helps
				}
			}
			if after.Undecided > list.Undecided-q.Settles+opened {
				t.Errorf("%s: %d pairs undecided before, %d after, %d were to be settled, %d opened", q.Key, list.Undecided, after.Undecided, q.Settles, opened)
			}
		}
		m := catalog.Mapping{}
		for range 4 {
			open := questions.Ask(decide(inputs, m))
			if open.Undecided == 0 {
				return
			}
			answers := map[string]string{}
			for _, q := range open.Questions {
				answers[q.Key] = answerTo(q)
			}
			m = questions.Merge(m, questions.Answers(returned(open, answers)).Map)
		}
		t.Errorf("still undecided: %+v", questions.Ask(decide(inputs, m)))
	})
}

// answerTo is plausible for the sheets that holey draws.
func answerTo(q questions.Question) string {
	switch q.Role {
	case catalog.CollarOD, catalog.CountersinkMouth:
		return "10.2 mm"
	case catalog.CollarLength:
		return "0.6 mm"
	}
	if text := plausible(q); text != "" {
		return text
	}
	if q.Role == "" || q.Part == "" {
		return "±0.05 mm"
	}
	return "4 mm"
}
