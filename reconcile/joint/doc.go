// Package joint is one joint as text: what a person or another program says of a head, a tip and a ferrule, and the answer
// as one line of JSON.
//
// # What is read
//
// Every dimension is a text with its unit, as [limits.ParseDim] reads it: ".500 in ±.003", "13.6 +0/-0.1 mm", "12 h9". In JSON:
//
//	{
//	  "id": "7-iron",
//	  "head": {"hosel_od": ".500 in ±.003", "bore": ".373 in", "bore_depth": "1.25 in", "top": "flat"},
//	  "tip": ".370 in parallel",
//	  "ferrule": {"bore": ".368 in", "base_od": ".505 in", "length": "1/2 in"}
//	}
//
// Keys are those that columns of catalogues have as roles. A key that is null or missing is a dimension that is not given; the
// answer then says what is missing where it matters. A key that does not exist is an error, so that a slip of the pen is never
// a dimension left out. In place of its text a dimension may be the object that [measure.Dim.MarshalJSON] writes, which can
// name the spread.
//
// # Readings
//
// Whoever has the piece in hand says what was read off it: "13.58, 13.62, 13.60 mm", an array of texts, or an object:
//
//	"hosel_od": {"readings": ["13.58 mm", "13.62 mm"], "instrument": {"max_error": "0.02 mm", "resolution": "0.01 mm", "jaw_give": "0 mm"}}
//
// They are readings of one piece, so that the size is as sure as their mean and the instrument ([sample.SizeOfPiece]); what other
// pieces measure has no bearing. Two sizes with a slash between them are limits.
//
// # Tips
//
// A tip is its diameter and form: ".370 in parallel", ".355 in taper", ".355 in taper .0075 in/in to .370 in" (which grows at that
// rate to .370 in and is parallel above; what is not said is the shop's), or a profile of stations, position and diameter, from the
// tip end upward: "0: .335 in, 1 in: .350 in, ±.001 in".
//
// # What is answered
//
// [Answer] reads JSON Lines and writes one line for each, in the same order, with the keys of fits.jsonl; [AnswerSchema]
// describes it. A line that cannot be read is answered with an error that names the field, and does not stop the others.
package joint
