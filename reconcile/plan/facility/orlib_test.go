package facility_test

import (
	"bytes"
	"context"
	_ "embed"
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/seatline/reconcile/plan/facility"
)

//go:embed testdata/cap131.txt
var cap131 []byte

// readCap reads a problem in the format of OR-Library: sites, customers; capacity and fixed cost of each site; for each customer its
// demand and the cost of serving it from each site.
func readCap(t testing.TB, data []byte) facility.Problem {
	t.Helper()
	r := bytes.NewReader(data)
	number := func() (x float64) {
		if _, err := fmt.Fscan(r, &x); err != nil {
			t.Fatal(err)
		}
		return x
	}
	m, n := int(number()), int(number())
	p := facility.Problem{Fixed: make([]float64, m), Serve: make([][]facility.Arc, n)}
	for i := range m {
		number()
		p.Fixed[i] = number()
	}
	for j := range n {
		number()
		for i := range m {
			p.Serve[j] = append(p.Serve[j], facility.Arc{Facility: i, Cost: number()})
		}
	}
	return p
}

// sites71 and sites101 are the sites of cap131, counted from 1, that cap71 to cap74 and cap101 to cap104 choose from.
var (
	sites71  = []int{3, 7, 8, 11, 12, 13, 15, 16, 18, 22, 23, 25, 27, 29, 30, 33}
	sites101 = append(slices.Clone(sites71), 34, 37, 38, 41, 42, 43, 45, 46, 49)
)

// part is a problem with only some of the sites, and another cost of opening for all that have one.
func part(p facility.Problem, sites []int, fixed float64) facility.Problem {
	if sites == nil {
		for i := range p.Fixed {
			sites = append(sites, i+1)
		}
	}
	q := facility.Problem{Serve: make([][]facility.Arc, len(p.Serve))}
	for to, from := range sites {
		q.Fixed = append(q.Fixed, fixed)
		if p.Fixed[from-1] == 0 {
			q.Fixed[to] = 0
		}
		for j := range p.Serve {
			q.Serve[j] = append(q.Serve[j], facility.Arc{Facility: to, Cost: p.Serve[j][from-1].Cost})
		}
	}
	return q
}

// The optima are those of the file uncapopt of OR-Library, J. E. Beasley (1990), "OR-Library: distributing test problems by
// electronic mail", Journal of the Operational Research Society 41, 1069-1072. They are cut off after three decimals there.
func TestORLibrary(t *testing.T) {
	full := readCap(t, cap131)
	tests := []struct {
		name    string
		sites   []int
		fixed   float64
		optimum float64
		open    []int // counted from 1; nil where the source names none
	}{
		{"cap71", sites71, 7500, 932615.750, []int{1, 2, 3, 4, 6, 7, 8, 9, 11, 12, 13}},
		{"cap72", sites71, 12500, 977799.400, []int{1, 2, 3, 4, 6, 7, 8, 11, 13}},
		{"cap73", sites71, 17500, 1010641.450, []int{3, 7, 8, 11, 13}},
		{"cap74", sites71, 25000, 1034976.975, []int{3, 11, 12, 13}},
		{"cap101", sites101, 7500, 796648.437, nil},
		{"cap102", sites101, 12500, 854704.200, []int{1, 4, 6, 7, 11, 12, 13, 17, 23, 24, 25}},
		{"cap103", sites101, 17500, 893782.112, nil},
		{"cap104", sites101, 25000, 928941.750, []int{11, 13, 18, 24}},
		{"cap131", nil, 7500, 793439.562, nil},
		{"cap132", nil, 12500, 851495.325, []int{6, 11, 13, 15, 23, 25, 27, 34, 45, 46, 49}},
		{"cap133", nil, 17500, 893076.712, nil},
		{"cap134", nil, 25000, 928941.750, []int{23, 27, 37, 46}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := facility.Solve(context.Background(), part(full, tt.sites, tt.fixed), facility.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(s.Cost-tt.optimum) > 1e-2 || !s.Proven || s.LowerBound != s.Cost {
				t.Errorf("cost %.4f, bound %.4f, proven %v; want %.3f", s.Cost, s.LowerBound, s.Proven, tt.optimum)
			}
			var open []int
			for _, i := range s.Open {
				open = append(open, i+1)
			}
			if tt.open != nil && !slices.Equal(open, tt.open) {
				t.Errorf("open %v, want %v", open, tt.open)
			}
			t.Logf("%d nodes", s.Nodes)
		})
	}
}
