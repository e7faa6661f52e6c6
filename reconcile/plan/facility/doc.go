// Package facility solves the uncapacitated facility location problem: which facilities to open so that every customer is served at
// the least cost of opening and serving. In this project the facilities are ferrules to carry and the customers are heads, but
// nothing here knows of either.
//
// # The problem
//
//	minimise   Σ_i f_i y_i + Σ_ij c_ij x_ij
//	so that    Σ_i x_ij = 1 for each customer j,  x_ij ≤ y_i,  y_i ∈ {0, 1}
//
// with f_i the cost of opening facility i and c_ij that of serving customer j from it; a pair that is not listed, or costs +Inf, cannot
// be used. Constraints, all of them exact:
//
//   - facilities that must be open, or must not be;
//   - pairs that must not be used;
//   - at most N facilities open, as in the p-median problem;
//   - groups of facilities among whose open ones there must be two suppliers. Two are open exactly if for each supplier one is open that
//     is not his, so a group becomes a customer for each of its suppliers, whom all the others serve for nothing.
//
// A customer whom nobody can serve and a group that has no two suppliers are named in the solution and left out of the problem; they do
// not make it unsolvable. A limit N that cannot be kept does ([InfeasibleError]).
//
// # The method
//
// A lower bound comes from the dual ascent and dual adjustment of Erlenkotter (1978). It is improved as the Lagrangian dual, with the
// assignment constraints relaxed, by the volume algorithm of Barahona and Anbil (2000), which for this relaxation ends at the bound of
// the linear programme. Good solutions come from the facilities without slack in the ascent, and from the inner minima and the averages
// of the volume algorithm, improved by opening, closing and exchanging facilities. Facilities for which the bound passes the best
// known cost when they are settled the other way are settled (reduction by bounds, as in Körkel 1989), and dominated ones are closed before
// everything else. What is left is branched on, depth first.
//
// A solution is Proven when no part of the search is left that could hold one cheaper by more than a part in 10⁹ of its cost.
// When the time is up before, LowerBound is the least bound of what is left.
//
// # Sources
//
//   - D. Erlenkotter (1978), "A dual-based procedure for uncapacitated facility location", Operations Research 26(6), 992-1009.
//   - M. Körkel (1989), "On the exact solution of large-scale simple plant location problems", European Journal of Operational Research
//     39(2), 157-173.
//   - F. Barahona, R. Anbil (2000), "The volume algorithm: producing primal solutions with a subgradient method", Mathematical
//     Programming 87, 385-399; F. Barahona, F. A. Chudak (2005), "Near-optimal solutions to large-scale facility location problems",
//     Discrete Optimization 2(1), 35-50.
//   - R. A. Whitaker (1983), "A fast algorithm for the greedy interchange for large-scale clustering and median location problems",
//     INFOR 21, 95-108; M. G. C. Resende, R. F. Werneck (2007), "A fast swap-based local search procedure for location problems",
//     Annals of Operations Research 150, 205-230.
//
// # Repeatability
//
// The same problem gives the same solution, unless the context ends the search: then it depends on how far it came.
package facility
