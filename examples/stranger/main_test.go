package main

import (
	"fmt"
	"os"
)

// The numbers by hand: 12 to 18 mm has IT9 = 43 µm (ISO 286-1:2010, table 1), below the nominal size for h. .502 in is 12.7508 mm,
// less 12.7 mm is 0.051 mm, and limits of ±.002 in and ±.003 in add 0.127 mm. .530 in is 13.462 mm, less 13.2 mm is 0.262 mm.
func Example() {
	if err := run(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// 13.2 +0/-0.043 mm on a hosel of 12.7 ±0.0762 mm: turn
	//
	// DM-04  served    PW-500 on a tip of .370 parallel: turn down 0.051 mm (.002 in) on the diameter, 0.025 mm (.001 in) per side (at most 0.178 mm (.007 in) on the diameter)
	// DM-05  served    PW-500 on a tip of .370 parallel: turn down 0.051 mm (.002 in) on the diameter, 0.025 mm (.001 in) per side (at most 0.178 mm (.007 in) on the diameter)
	// DM-PW  served    PW-530 on a tip of .370 parallel: turn down 0.262 mm (.0103 in) on the diameter, 0.131 mm (.0052 in) per side (at most 0.389 mm (.0153 in) on the diameter)
	// DM-P1  bare      the hosel's top is rounded: this head takes no ferrule
	// DM-X9  undecided cannot be decided: the hosel OD is not given
	//
	// sheets/dunmarrow_heads.csv!D7: error: DM-X9 has no hosel OD
}
