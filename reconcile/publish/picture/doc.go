// Package picture counts a whole catalogue for pictures, and draws them as SVG. The workbook's own graphs are made from the same
// counts, so that both show the same.
//
// There are three:
//
//	Sizes      hosel ODs against the base ODs of the ferrules on offer: where there are hosels and nothing to put on them
//	TurnDowns  for each category of heads, how much comes off the best ferrule of each head
//	Verdicts   for each supplier, how the pairs of its parts came out
//
// All can be read in grey: what stands side by side differs in lightness, and numbers stand beside or in what is drawn. The SVG
// has a title and a description, uses presentation attributes and no style sheet, so that a page with a strict content
// security policy can hold it, and the same result gives the same bytes.
package picture
