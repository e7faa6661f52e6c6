// Package chart writes the fit chart that a seller publishes: one HTML file that holds everything it needs, opens from a disk
// without a network, and prints on A4 and Letter.
//
// A reader sees the kinds of head with their hosels, chooses one, a head or a ferrule, or types what the calipers say, and sees what fits,
// which is best, what comes off and what to prepare; sets two ferrules side by side, narrows them down by tip, length, colour and style,
// takes the answer along as a link, a CSV file or on paper, and gathers a list of pieces to order. What was chosen, the list too, stands in
// the address. Without its script the file is a plain table of all heads with their best ferrules, those of a set in one row.
//
// Nothing on the page is for the house: no counts of pairs, no name of a file, no price but the seller's.
//
// # Where the answers come from
//
// The page decides no fit. For the heads of the catalogue it carries what package matrix decided. For a hosel that was measured
// it carries the windows of [fitcalc.Windows]: the very picometres at which verdicts change, as whole numbers. What a reader types
// is read as a whole number of picometres too, so that the page and the library cannot disagree. Doubles hold picometres
// exactly up to nine metres.
//
// # The tolerance of a measured hosel
//
// Whoever measures one hosel knows it better than a sheet does, but hosels are not round and calipers are held askew: a measured hosel
// is taken to vary by the shop's hosel_od_tolerance. [Options.Caliper] states another. The page says which of them it uses.
// What was measured is what it is: it is never taken for the same size stated in another unit, as the OD of a sheet may be.
//
// Of how many of ten joints an answer is true depends on the OD, and stands in the data for the heads of the catalogue. For a measured
// hosel the page reads it off the spread of base less hosel, which most ferrules share.
//
// A measured hosel keeps everything else of the head that was chosen: bore, depth, recess. Without a head only the form of the
// top and the tip are known; the bore is then taken to clear the tip, and to be as deep as the shop's usual insertion.
//
// # Large catalogues
//
// A page of thousands of heads has to open in a second. It holds the best ferrules of each head and how many fit, and answers a measured
// hosel of a head with a recess of its own as one that is measured without its head; it says where it does.
//
// # Form
//
// The data stand as JSON in the page, described by the JSON Schema that [Schema] returns; keys are only ever added while the version
// stays. Equal courses, outcomes, sizes and answers stand once. The same result and options give the same bytes.
//
// Text from sheets goes through html/template and into the document as text nodes, never as markup. A content security policy
// admits the page's own script and style by their digests and nothing else.
//
// # Words
//
// The words stand in one TOML file per language. [Options.Words] adds a file: another language, or other words for one of
// these. A reason has a word for each level that it comes at: its code, as reason.grip.loose, for what is only remarked on, and with
// .prep, .measure or .no at its end for what asks for work, has to be measured first or does not fit; .measured is for a hosel that was
// measured already. Where a level has no word of its own, that of the code stands.
package chart
