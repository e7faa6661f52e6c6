package columns

import "math"

// assign returns, for each row of a table of points, the column that it gets, −1 for none, so that the sum of the
// points is greatest. A row may stay without a column at no points; pairs below least are never made. It is the
// Hungarian method with potentials, in O(n²m) steps for n rows and m columns, or the other way round for very many rows
// (H. W. Kuhn, The Hungarian method for the assignment problem, Naval Research Logistics Quarterly 2, 1955; J. Munkres, 1957).
func assign(points [][]float64, least float64) []int {
	n := len(points)
	if n == 0 {
		return nil
	}
	m := len(points[0])
	if n > widest && n > m {
		return turnedAssign(points, least)
	}
	// Each row has a column of its own, worth nothing, so that it may stay without a role.
	width := m + n
	cost := func(i, j int) float64 {
		switch {
		case j < m && points[i][j] >= least:
			return -points[i][j]
		case j == m+i:
			return 0
		}
		return 1e6
	}
	rowPotential, colPotential := make([]float64, n+1), make([]float64, width+1)
	taken, way := make([]int, width+1), make([]int, width+1)
	slack, seen := make([]float64, width+1), make([]bool, width+1)
	for i := 1; i <= n; i++ {
		taken[0] = i
		column := 0
		clear(seen)
		for j := range slack {
			slack[j] = math.Inf(1)
		}
		for {
			seen[column] = true
			row, delta, next := taken[column], math.Inf(1), 0
			for j := 1; j <= width; j++ {
				if seen[j] {
					continue
				}
				if reduced := cost(row-1, j-1) - rowPotential[row] - colPotential[j]; reduced < slack[j] {
					slack[j], way[j] = reduced, column
				}
				if slack[j] < delta {
					delta, next = slack[j], j
				}
			}
			for j := 0; j <= width; j++ {
				if seen[j] {
					rowPotential[taken[j]] += delta
					colPotential[j] -= delta
				} else {
					slack[j] -= delta
				}
			}
			column = next
			if taken[column] == 0 {
				break
			}
		}
		for column != 0 {
			previous := way[column]
			taken[column] = taken[previous]
			column = previous
		}
	}
	result := make([]int, n)
	for i := range result {
		result[i] = -1
	}
	for j := 1; j <= m; j++ {
		if taken[j] > 0 && points[taken[j]-1][j-1] >= least {
			result[taken[j]-1] = j - 1
		}
	}
	return result
}

// widest is how many rows are taken in turn. Beyond it the columns are, so that the steps grow with the rows alone; of several equally
// good assignments that finds another one.
const widest = 250

// turnedAssign is assign with rows and columns exchanged: a wide table has many more columns than there are roles.
func turnedAssign(points [][]float64, least float64) []int {
	n, m := len(points), len(points[0])
	turned := make([][]float64, m)
	cells := make([]float64, n*m)
	for j := range turned {
		turned[j] = cells[j*n : (j+1)*n]
		for i := range n {
			turned[j][i] = points[i][j]
		}
	}
	result := make([]int, n)
	for i := range result {
		result[i] = -1
	}
	for j, i := range assign(turned, least) {
		if i >= 0 {
			result[i] = j
		}
	}
	return result
}

// total returns the sum of the points of an assignment.
func total(points [][]float64, chosen []int) float64 {
	sum := 0.0
	for i, j := range chosen {
		if j >= 0 {
			sum += points[i][j]
		}
	}
	return sum
}
