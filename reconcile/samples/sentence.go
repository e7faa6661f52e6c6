package samples

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

// Sentence says in a clause what a size of readings rests on.
func Sentence(s sample.Size, u fitcalc.Units) string {
	read := fmt.Sprintf("mean of %d readings of this piece", s.N)
	switch {
	case s.Of == sample.SeveralPieces && s.N == 1:
		read = "one piece was read"
	case s.Of == sample.SeveralPieces:
		read = fmt.Sprintf("mean of %d pieces", s.N)
	case s.N == 1:
		read = "one reading of this piece"
	}
	if s.N > 1 {
		sd, err := measure.FromMillimetres(s.SD)
		if err == nil {
			read += ", standard deviation " + u.Show(sd)
		}
	}
	switch s.Spread {
	case sample.PooledReadings:
		read += "; the spread is that of the supplier's parts that were measured"
	case sample.AssumedTolerance:
		read += "; the spread is what is allowed for without readings"
	case sample.ReadingsAndTolerance:
		read += "; the spread is theirs and what is allowed for without readings"
	}
	return read + "; limits at three standard deviations, the instrument's uncertainty included"
}
