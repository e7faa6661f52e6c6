package samples_test

import (
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/samples"
)

func TestSentence(t *testing.T) {
	const end = "; limits at three standard deviations, the instrument's uncertainty included"
	for want, s := range map[string]sample.Size{
		"mean of 3 readings of this piece, standard deviation 0.02 mm (.0008 in)":                                                {Of: sample.OnePiece, N: 3, SD: .02},
		"one reading of this piece; the spread is what is allowed for without readings":                                          {Of: sample.OnePiece, N: 1, Spread: sample.AssumedTolerance},
		"one piece was read; the spread is that of the supplier's parts that were measured":                                      {Of: sample.SeveralPieces, N: 1, Spread: sample.PooledReadings},
		"mean of 5 pieces, standard deviation 0.01 mm (.0004 in); the spread is theirs and what is allowed for without readings": {Of: sample.SeveralPieces, N: 5, SD: .01, Spread: sample.ReadingsAndTolerance},
	} {
		if got := samples.Sentence(s, fitcalc.Metric); got != want+end {
			t.Errorf("got  %q\nwant %q", got, want+end)
		}
	}
}
