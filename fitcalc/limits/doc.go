// Package limits turns the tolerance classes of ISO 286-1 and the general tolerances of ISO 2768-1 into limits.
//
// # Classes of ISO 286-1
//
// A class such as h9 or H7 has letters for where the tolerance zone lies (small for a shaft, capital for a hole) and a grade for
// how wide it is. The width is the standard tolerance IT of that grade; the near edge of the zone is the fundamental
// deviation. Both stand in tables by steps of the nominal size, "over, up to and including": 10 mm belongs to the
// step 6 to 10, and 10.001 mm to the step 10 to 18. The tables are used, and not the formulas that they were once
// made from, because the standard rounded some results by eye (d over 18 up to 30 mm is -65 µm, where -16 D^0.44
// gives -63.9).
//
// Supported are grades IT5 to IT14, shafts d e f g h js k m n p r s and holes D E F G H JS K M N P R S, for nominal
// sizes above 0 up to 50 mm. Everything else is an [*UnsupportedError].
//
// Holes K to S follow the rule ES = -ei + Δ with Δ = IT of the grade − IT of the grade before, up to IT8 for K, M
// and N and up to IT7 for P, R and S, and Δ = 0 up to 3 mm. So 12 P7/h6 is the same fit as 12 H7/p6.
//
// "13.6 IT11" says how wide the zone is and not where it lies. It is read as 13.6 ± IT11/2, the same as 13.6 js11; a
// sheet that means anything else has to say so with a class.
//
// # General tolerances of ISO 2768-1
//
// "ISO 2768-m" on a sheet gives every linear dimension without limits of its own a ± by its size: f fine, m medium,
// c coarse, v very coarse. Below 0.5 mm the standard wants the tolerance beside the dimension, and there is an
// [*UnsupportedError]. The angles, edges and radii of the standard are not here.
//
// Both standards count in millimetres; a size given in inches is looked up at its exact length.
//
// # Sources
//
// ISO 286-1:2010, tables 1 to 3, and ISO 2768-1:1989, table 1, as reprinted in the handbooks that the tests name.
// Fundamental deviations up to 3 mm and over 30 up to 50 mm, and the rules for holes above IT8, are from memory.
package limits
