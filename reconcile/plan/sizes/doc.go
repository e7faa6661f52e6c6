// Package sizes chooses the base ODs to have ferrules made in: a few sizes for many hosels, so that the bench turns as little as
// possible and no base ends smaller than its hosel.
//
// # The question
//
// A head h has a hosel OD d_h, a yearly number w_h, the least base OD a_h that keeps the risk of an undersize base, and the most
// base OD z_h that the turn limit allows. Of the sizes b_1 < … < b_K on offer it takes the smallest in [a_h, z_h], and costs
//
//	w_h (fixed_h + rate_h (b − d_h))   where b > flush_h, and nothing where b ≤ flush_h.
//
// Wanted are the K sizes of least total cost with every head served. All sizes are diameters. Since no cost falls as b grows, a best
// set consists of sizes that are a_h of some head, rounded up to the grid: every other size can be made smaller until it is one
// of these, and everyone it serves costs no more.
//
// # The method
//
// With the heads sorted by a_h, the heads that take one size are neighbours, and the best K sizes follow from the best K − 1 by dynamic
// programming:
//
//	F_K(j) = min over i < j of F_{K−1}(i) + C(i, j)
//
// where C(i, j) is the cost of the heads above size i up to size j when they take size j. C fulfils the quadrangle inequality
//
//	C(i, j) + C(i', j') ≤ C(i, j') + C(i', j)   for i ≤ i' ≤ j ≤ j'
//
// because the two sides differ by Σ [cost_h(j') − cost_h(j)] over the heads between i and i', and no cost_h falls as the size grows.
// That holds also where the size passes z_h (the cost is then without end) and with sizes that exist already (the cost of h stays
// at that of the next existing size above a_h). So the best i does not go back as j grows, and each F_K is found by
// divide and conquer in n log n steps. This is the Monge property: F. F. Yao (1980), "Efficient dynamic
// programming using quadrangle inequalities", STOC 12, 429-435; A. Aggarwal, M. M. Klawe, S. Moran, P. Shor, R. Wilber (1987),
// "Geometric applications of a matrix-searching algorithm", Algorithmica 2, 195-208. On the number of sizes the least cost is convex: each
// size saves no more than the one before.
//
// Sizes are compared as whole picometres; costs are floating point.
package sizes
