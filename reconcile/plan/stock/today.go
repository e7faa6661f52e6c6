package stock

import (
	"time"

	"example.com/seatline/reconcile/catalog"
)

func untilPart(deadline time.Time, parts int) time.Duration {
	return time.Until(deadline) / time.Duration(parts)
}

// today compares the plan with the ferrules in stock, where the sheets say of any that it is or is not.
func (q *question) today(plan *Plan) {
	var now Today
	known := false
	held := map[int]bool{}
	for i := range q.result.Catalogue.Ferrules {
		field, stated := q.result.Catalogue.Ferrules[i].Fields.Lookup(catalog.Stock)
		if !stated || !field.IsNumber {
			continue
		}
		known = true
		if field.Number > 0 {
			now.Ferrules = append(now.Ferrules, i)
			held[i] = true
			now.Cost.Carrying += q.carrying[i]
		}
	}
	if !known {
		return
	}
	now.Same.Carrying = plan.Cost.Carrying
	for _, served := range plan.Served {
		best, found := Cost{}, false
		for i, pair := range q.pairs[served.Head] { // the least of a set does not depend on the order
			if cost := q.of(pair); held[i] && (!found || cheaper(cost, best)) {
				best, found = cost, true
			}
		}
		if !found {
			now.Unserved = append(now.Unserved, served.Head)
			continue
		}
		now.Cost = now.Cost.plus(best)
		now.Same = now.Same.plus(q.of(served.Pair))
	}
	plan.Today = &now
}

// cheaper orders by total, and equal totals by work, so that the split does not depend on the order either.
func cheaper(a, b Cost) bool {
	if a.Total() != b.Total() {
		return a.Total() < b.Total()
	}
	return a.Work < b.Work
}
