// Package sample turns readings of a few pieces into statements about the place measured, about the lot they came
// from, and about single pieces, each with its confidence and the assumption it rests on.
//
// # Which question, which function
//
//	How large is this, and how surely?                    EstimateMean, Combine, Uncertainty.Expanded, Estimate.Dim
//	Which size takes the place of the stated one?         SizeOfPiece, SizeOfPart, PoolOf
//	How do a supplier's parts lie about what it states?   DeviationsOf
//	Between which sizes are 95 % of the lot?              Summary.ToleranceInterval, OneSidedFactor, TwoSidedFactor, Summary.Dim
//	What do the jaws falsify, and how far to trust them?  Caliper.Correct, Caliper.Uncertainty
//	How many must be measured?                            LeastForRange, LeastWithoutFault, Find…
//	Does the maker's spread suit the limits?              Summary.Capability, Summary.OutsideBound
//	Is this one piece within its limits?                  Result.ConformityProbability, Result.Decide, GuardBand
//	Take this delivery or send it back?                   AttributePlan, VariablesPlan, NormalPlan, NormalVariablesPlan
//	Is what the supplier states true?                     Compare
//
// Functions of [measure.Length] readings work in mm. The others take and return plain numbers in any one unit.
//
// # Symbols and formulas
//
//	n, x̄, s    number, mean and standard deviation (n − 1) of the readings
//	u, ν       standard uncertainty and its degrees of freedom
//	z(p)       quantile of the standard normal Φ
//
//	type A             u = s/√n, ν = n − 1                          JCGM 100:2008 (GUM), 4.2.3
//	resolution d       u = (d/2)/√3                                 GUM, F.2.2.1
//	limit ± a          u = a/√3 rectangular, a/√6 triangular        GUM, 4.3.7 and 4.3.9
//	combined           u² = Σ (cᵢuᵢ)²                               GUM, eq. 10
//	effective ν        u⁴ / Σ((cᵢuᵢ)⁴/νᵢ)                           Welch–Satterthwaite; GUM, eq. G.2b
//	expanded           U = t((1 + p)/2, ⌊ν⌋)·u                      GUM, G.4.1 and H.1.6
//	judged tolerance   ν = ½(Δu/u)⁻²                               GUM, eq. G.3
//	next piece         s·√(1 + 1/n), with Student's t              prediction of one more from n
//	pooled             √(Σ(nᵢ − 1)sᵢ² / Σ(nᵢ − 1))                 NIST/SEMATECH e-Handbook, 2.4.4.4; GUM, 4.2.4
//	bound of a spread  s·√(ν/χ²(5 %; ν))                           chi-square
//	tolerance, 1 side  x̄ ± ks, k = t′(confidence; n−1, z√n)/√n     NIST/SEMATECH e-Handbook, 7.2.6.3
//	tolerance, 2 sides E[P(χ² ≥ (n−1)r²/k²)] = confidence           Krishnamoorthy and Mathew (2009), 2.3.1
//	capability         Cp = (U − L)/6s, Cpk = min(U − x̄, x̄ − L)/3s  NIST/SEMATECH e-Handbook, 6.1.6
//	conformity         Φ((U − y)/u) − Φ((L − y)/u)                  JCGM 106:2012, 7.3
//	guard band         z(p)·u                                       ISO 14253-1:2017
//	acceptance         binomial, hypergeometric, t′                 MIL-STD-105E, MIL-STD-414
//
// The exact tolerance factors are good to nine digits and more, by quadratures described at the functions. Howe's and
// Natrella's well-known approximations are there under their own names; they differ from the exact factors in the
// third digit.
//
// # What the words mean
//
// A confidence interval of the mean ([Estimate.Interval]) tells where the average is. More readings narrow it, down
// to what the instrument leaves. A tolerance interval ([Summary.ToleranceInterval]) tells where the pieces are; more
// readings bring it to their true spread and no further. A shop that fits single pieces needs the second.
//
// # Errors and warnings
//
// What cannot be computed returns an [*InputError] that wraps one of the Err variables. What can be computed, but
// rests on something a person should know, carries a [*Warning] in its result and the assumption as a sentence.
package sample
