package facility

import (
	"cmp"
	"math"
	"slices"
)

// What is settled about a facility at a node of the search.
const (
	free int8 = iota
	opened
	closed
)

// model is a problem in the form the algorithms work on. A group becomes customers that cost nothing to serve: two suppliers
// are open exactly if for each supplier one is open that is not his, so there is a customer for each supplier whom every
// facility of the group but his can serve.
type model struct {
	m, n  int
	fixed []float64

	// Arcs of customer j are from[j] to from[j+1], the cheapest first.
	from []int32
	fac  []int32
	cost []float64
	// Arcs of facility i are at[i] to at[i+1].
	at    []int32
	cust  []int32
	fcost []float64

	// unserved is what it costs to leave a customer unserved: more than any set that serves everyone.
	unserved []float64
	// ceiling is more than any set that serves everyone costs.
	ceiling float64

	root   []int8
	atMost int
	origin []int32 // index of the customer in the problem, −1 for those of a group

	unservable  []int
	unmetGroups []int
}

func newModel(p *Problem) *model {
	mo := &model{m: len(p.Fixed), fixed: p.Fixed, root: make([]int8, len(p.Fixed)), atMost: len(p.Fixed)}
	if p.AtMost > 0 {
		mo.atMost = min(p.AtMost, mo.m)
	}
	for _, i := range p.Open {
		mo.root[i] = opened
	}
	for _, i := range p.Closed {
		mo.root[i] = closed
	}
	mo.from = []int32{0}
	excluded := make(map[Pair]bool, len(p.Exclude))
	for _, pair := range p.Exclude {
		excluded[pair] = true
	}
	for j, arcs := range p.Serve {
		usable := slices.DeleteFunc(slices.Clone(arcs), func(a Arc) bool {
			return math.IsInf(a.Cost, 1) || mo.root[a.Facility] == closed || excluded[Pair{j, a.Facility}]
		})
		if len(usable) == 0 {
			mo.unservable = append(mo.unservable, j)
			continue
		}
		mo.add(usable, int32(j))
	}
	mo.addGroups(p)
	mo.price()
	mo.transpose()
	return mo
}

func (mo *model) add(arcs []Arc, origin int32) {
	slices.SortFunc(arcs, func(a, b Arc) int { return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Facility, b.Facility)) })
	for _, a := range arcs {
		mo.fac = append(mo.fac, int32(a.Facility))
		mo.cost = append(mo.cost, a.Cost)
	}
	mo.from = append(mo.from, int32(len(mo.fac)))
	mo.origin = append(mo.origin, origin)
	mo.n++
}

func (mo *model) addGroups(p *Problem) {
	known := map[string]bool{}
	for g, group := range p.Groups {
		list := slices.Clone(group.Facilities)
		slices.Sort(list)
		list = slices.DeleteFunc(slices.Compact(list), func(i int) bool { return mo.root[i] == closed })
		suppliers := make([]int, 0, 4)
		for _, i := range list {
			if !slices.Contains(suppliers, p.Supplier[i]) {
				suppliers = append(suppliers, p.Supplier[i])
			}
		}
		if len(suppliers) < 2 {
			mo.unmetGroups = append(mo.unmetGroups, g)
			continue
		}
		for _, s := range suppliers {
			var others []Arc
			key := make([]byte, 0, 4*len(list))
			for _, i := range list {
				if p.Supplier[i] != s {
					others = append(others, Arc{Facility: i})
					key = append(key, byte(i), byte(i>>8), byte(i>>16), byte(i>>24))
				}
			}
			if !known[string(key)] { // many groups ask the same
				known[string(key)] = true
				mo.add(others, -1)
			}
		}
	}
}

// price sets what it costs to leave a customer unserved: the dearest that it can be served at, and beyond that more than all
// that a set which serves everyone can lose elsewhere.
func (mo *model) price() {
	beyond, dearest := 1.0, 0.0
	for _, f := range mo.fixed {
		beyond += f
		dearest += f
	}
	for j := range mo.n {
		cheap, dear := mo.cost[mo.from[j]], mo.cost[mo.from[j+1]-1]
		beyond += dear - cheap
		dearest += dear
	}
	mo.ceiling = dearest + 0.5
	mo.unserved = make([]float64, mo.n)
	for j := range mo.n {
		mo.unserved[j] = mo.cost[mo.from[j+1]-1] + beyond
	}
}

func (mo *model) transpose() {
	mo.at = make([]int32, mo.m+1)
	for _, i := range mo.fac {
		mo.at[i+1]++
	}
	for i := range mo.m {
		mo.at[i+1] += mo.at[i]
	}
	next := slices.Clone(mo.at)
	mo.cust, mo.fcost = make([]int32, len(mo.fac)), make([]float64, len(mo.fac))
	for j := range mo.n {
		for a := mo.from[j]; a < mo.from[j+1]; a++ {
			i := mo.fac[a]
			mo.cust[next[i]], mo.fcost[next[i]] = int32(j), mo.cost[a]
			next[i]++
		}
	}
}

// dominated closes every free facility to which another is preferable for every customer it can serve, and that is no dearer to
// open: some best set does without it. Of two equal ones the first stays.
func (mo *model) dominated() {
	for i := range mo.m {
		if mo.root[i] != free {
			continue
		}
		if mo.at[i] == mo.at[i+1] {
			mo.root[i] = closed
			continue
		}
		first := mo.cust[mo.at[i]]
		for a := mo.from[first]; a < mo.from[first+1]; a++ {
			if k := int(mo.fac[a]); k != i && mo.root[k] != closed && mo.preferable(k, i) {
				mo.root[i] = closed
				break
			}
		}
	}
}

func (mo *model) preferable(k, i int) bool {
	fixed := mo.fixed[k]
	if mo.root[k] == opened {
		fixed = 0 // it is paid for anyway
	}
	if fixed > mo.fixed[i] || mo.at[k+1]-mo.at[k] < mo.at[i+1]-mo.at[i] {
		return false
	}
	equal := fixed == mo.fixed[i] && mo.at[k+1]-mo.at[k] == mo.at[i+1]-mo.at[i]
	b := mo.at[k]
	for a := mo.at[i]; a < mo.at[i+1]; a++ { // both lists are by customer
		for b < mo.at[k+1] && mo.cust[b] < mo.cust[a] {
			b++
		}
		if b == mo.at[k+1] || mo.cust[b] != mo.cust[a] {
			return false
		}
		if mo.fcost[b] > mo.fcost[a] {
			return false
		}
		equal = equal && mo.fcost[b] == mo.fcost[a]
	}
	return !equal || k < i
}

// total is the cost of a set, with the customers it leaves unserved at their price.
func (mo *model) total(open []bool) float64 {
	sum := 0.0
	for i, is := range open {
		if is {
			sum += mo.fixed[i]
		}
	}
	for j := range mo.n {
		_, c := mo.cheapest(j, open)
		sum += c
	}
	return sum
}

// cheapest is the open facility that serves a customer, −1 and the price of not serving it where there is none.
func (mo *model) cheapest(j int, open []bool) (facility int32, cost float64) {
	for a := mo.from[j]; a < mo.from[j+1]; a++ {
		if open[mo.fac[a]] {
			return mo.fac[a], mo.cost[a]
		}
	}
	return -1, mo.unserved[j]
}
