// Package stock asks, of a decided matrix, which ferrules to carry ([Choose]), what stands in for one that is out of stock ([Substitutes]),
// which base ODs to have made ([Hosels] with package sizes), and which hosels could be brought to a common size ([Standardise]).
// It reads and writes nothing, and decides no fit: that is done in package matrix.
//
// # Which ferrules to carry
//
// Wanted is the set of part numbers to carry, and which of them each head gets, so that the yearly cost is least and every head is
// served that can be:
//
//	Σ over the parts carried of  carry + holding · price · lot / 2
//	+ Σ over the heads of        yearly · (minutes · bench + price)
//
// carry is what a part number costs in a year for its bin, its line in the lists and its reordering; lot is what has to be bought at once, the
// larger of the pack and the minimum order, half of which lies on the shelf on average, and holding the yearly cost of the money
// in it; minutes is the mean bench time of the pair, and bench what a minute costs. All of it is an uncapacitated facility location
// problem, solved to the proven best, or with the gap stated, by package facility. The pieces of the packs that a year's need does not use up
// are listed, not charged: they are used the year after.
//
// Constraints: parts that must be carried, or must not; pairs not to be used; a most turn-down; no pairs that need work on
// hosel, tip or bore; at most so many part numbers; and heads that want a second source, for each of which ferrules of two
// suppliers that fit it are carried. All are kept exactly. The turn-down limit looks at the nominal turn-down, on the diameter; the worst case
// has been held against the shop's limit already.
//
// # Money
//
// All sums are in one currency. Prices in another are refused ([CurrencyError]) unless a rate is given. A price without a currency is
// taken to be in that of the others, and a ferrule without a price to cost the median of those that have one, and the plan says so
// in Assumed. The start values of [DefaultSettings] are common practice, not from a published source.
package stock
