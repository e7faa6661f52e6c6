package columns

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// bestTotal tries every assignment.
func bestTotal(points [][]float64, least float64, used map[int]bool, row int) float64 {
	if row == len(points) {
		return 0
	}
	best := bestTotal(points, least, used, row+1)
	for j, p := range points[row] {
		if used[j] || p < least {
			continue
		}
		used[j] = true
		best = max(best, p+bestTotal(points, least, used, row+1))
		delete(used, j)
	}
	return best
}

func TestAssignIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(0, 5).Draw(t, "rows"), rapid.IntRange(1, 5).Draw(t, "columns")
		var points [][]float64
		for range n {
			points = append(points, rapid.SliceOfN(rapid.Float64Range(-20, 20), m, m).Draw(t, "points"))
		}
		ways := [][]int{assign(points, 2.5)}
		if n > 0 {
			ways = append(ways, turnedAssign(points, 2.5))
		}
		for _, chosen := range ways {
			used := map[int]bool{}
			for i, j := range chosen {
				if j < 0 {
					continue
				}
				if used[j] || points[i][j] < 2.5 {
					t.Fatalf("assignment %v of %v", chosen, points)
				}
				used[j] = true
			}
			if got, want := total(points, chosen), bestTotal(points, 2.5, map[int]bool{}, 0); math.Abs(got-want) > 1e-9 {
				t.Fatalf("total %v, best %v: %v of %v", got, want, chosen, points)
			}
		}
	})
}
