package matrix

import (
	"cmp"
	"slices"

	"example.com/seatline/fitcalc"
)

// askKey is what pairs are grouped by that cannot be decided.
type askKey struct {
	fields uint64 // a bit for each field that is missing
	others bool
}

// askCounts are pairs by what they lack, which is seldom more than one thing or two.
type askCounts []askCount

type askCount struct {
	askKey
	pairs int
}

func (c *askCounts) add(key askKey, pairs int) {
	for i := range *c {
		if (*c)[i].askKey == key {
			(*c)[i].pairs += pairs
			return
		}
	}
	*c = append(*c, askCount{key, pairs})
}

// ask counts the pairs of the heads under way with a geometry of ferrules by what they lack.
func (d *decider) ask(e *entry, missing uint64) {
	head, ferrule := missing&ofHead, missing&^ofHead
	d.asks.add(askKey{head, ferrule != 0}, int(e.ferrules))
	d.formAsks[e.at].add(askKey{ferrule, head != 0}, int(d.heads))
}

// ofHead are the bits of the fields of heads. The tip counts as the head's, since it follows from its bore.
const ofHead = 1<<fitcalc.FieldFerruleBore - 1

// asked puts what is missing in order: what holds up most first.
func asked(counts askCounts) []Asked {
	if len(counts) == 0 {
		return nil
	}
	all := make([]Asked, 0, len(counts))
	for _, count := range counts {
		a := Asked{Others: count.others, Pairs: count.pairs}
		for f := fitcalc.NoField; count.fields>>f != 0; f++ {
			if count.fields>>f&1 == 1 {
				a.Fields = append(a.Fields, f)
			}
		}
		all = append(all, a)
	}
	slices.SortFunc(all, func(a, b Asked) int {
		others := func(a Asked) int {
			if a.Others {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(b.Pairs, a.Pairs), cmp.Compare(others(a), others(b)), slices.Compare(a.Fields, b.Fields))
	})
	return all
}
