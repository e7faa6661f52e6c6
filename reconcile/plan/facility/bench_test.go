package facility_test

import (
	"context"
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/seatline/reconcile/plan/facility"
)

// hosels makes a problem with the structure of ferrules on heads: a facility serves a customer of its bore that is up to 1.2 smaller in
// diameter, at a cost of work that grows with the difference, and a price. Opening costs carry.
func hosels(seed uint64, customers, facilities int, carry float64) facility.Problem {
	random := rand.New(rand.NewPCG(seed, 34))
	type part struct {
		od   float64
		bore int
	}
	bores := []int{0, 0, 1, 1, 1, 2}
	p := facility.Problem{Serve: make([][]facility.Arc, customers)}
	offers := make([]part, facilities)
	prices := make([]float64, facilities)
	for i := range offers {
		offers[i] = part{11.4 + 3.4*random.Float64(), bores[random.IntN(len(bores))]}
		prices[i] = 0.4 + 1.5*random.Float64()*random.Float64()
		p.Fixed = append(p.Fixed, carry*(0.8+0.4*random.Float64()))
	}
	for j := range p.Serve {
		head := part{11.4 + 3*random.Float64(), bores[random.IntN(len(bores))]}
		yearly := math.Exp(1.5 + random.NormFloat64())
		for i, f := range offers {
			if over := f.od - head.od; f.bore == head.bore && over >= -0.02 && over <= 1.2 {
				minutes := 1.0
				if over > 0.05 {
					minutes += 4 + 3*over
				}
				p.Serve[j] = append(p.Serve[j], facility.Arc{Facility: i, Cost: yearly * (0.8*minutes + prices[i])})
			}
		}
	}
	return p
}

func arcs(p facility.Problem) int {
	total := 0
	for _, a := range p.Serve {
		total += len(a)
	}
	return total
}

// BenchmarkSolve2000x500 is the size of a large shop, each ferrule fitting about an eighth of the heads.
func BenchmarkSolve2000x500(b *testing.B) {
	for _, carry := range []float64{5, 60, 400} {
		p := hosels(11, 2000, 500, carry)
		b.Run(fmt.Sprintf("carry=%v", carry), func(b *testing.B) {
			for b.Loop() {
				s, err := facility.Solve(context.Background(), p, facility.Options{})
				if err != nil || !s.Proven {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSolve1000x100 is the size of the largest problems of OR-Library, with distances in the plane.
func BenchmarkSolve1000x100(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 1))
	at := func() complex128 { return complex(1000*random.Float64(), 1000*random.Float64()) }
	p := facility.Problem{Fixed: slices.Repeat([]float64{3000}, 100), Serve: make([][]facility.Arc, 1000)}
	sites := make([]complex128, 100)
	for i := range sites {
		sites[i] = at()
	}
	for j := range p.Serve {
		home := at()
		for i, site := range sites {
			p.Serve[j] = append(p.Serve[j], facility.Arc{Facility: i, Cost: cmplx.Abs(site - home)})
		}
	}
	for b.Loop() {
		s, err := facility.Solve(context.Background(), p, facility.Options{})
		if err != nil || !s.Proven {
			b.Fatal(err)
		}
	}
}
