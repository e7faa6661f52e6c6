// Package questions turns what a catalogue leaves open into questions for its suppliers, those first that settle most.
//
// # What is asked
//
// A question is one answer: a value of one row, the unit or meaning of one column, or what a table lists. It comes from a finding
// of the reader that a mapping file can answer, or from a dimension that pairs cannot be decided without. Its [Question.Key] is
// that of the mapping file, so that an answer is a line of it. What has to be corrected in the mapping file itself is no question
// for a supplier and is left out.
//
// A [Matter] is what is asked at once: the same of several parts, such as the bore of all ferrules for one tip, is one question that names
// them. Letters are in the supplier's language, see [LetterLanguage]; [Gaps] is what the shop itself has to say of a supplier.
//
// # What an answer is worth
//
// A pair is undecided when [fitcalc.Evaluate] names dimensions without which it cannot be decided. Each of these is answered by
// one question. A question
//
//   - settles a pair when it answers all that the pair lacks: with this answer alone it is decided,
//   - helps a pair when the pair lacks something else too,
//   - carries a pair when the pair is decided on something taken for granted that the answer would confirm or correct.
//
// A pair that an answer helps may also turn out not to fit, whatever else is missing. Where two sources contradict each other, each
// is asked, and the pairs are settled once both say the same. An answer may open a question that nobody could have asked before: a top that turns out to be countersunk needs the mouth of
// the countersink. So a pair that an answer settles is either decided or waits for what that answer has brought up.
//
// # Answers
//
// The sheet that goes out has an empty column for answers and keeps the keys. [Answers] reads it when it comes back, and gives
// rules for the next reading. To a matter of several parts one answer is for all, or one for each: A = 13.6 mm; B = 13.4 mm. What cannot be understood is a finding with its cell; it is never used in part.
package questions
