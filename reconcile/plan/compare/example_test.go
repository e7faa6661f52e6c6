package compare_test

import (
	"fmt"

	"example.com/seatline/reconcile/plan/compare"
)

func Example() {
	old := read("irons-2026.csv", "Part | Hosel OD (mm) | Bore (mm)", "KR-7 | 12.7 | 9.51", "KR-8 | 13.2 | 9.51", "KR-O9 | 13.2 | 9.51")
	now := read("irons-2027.csv", "Part | Hosel OD (mm) | Bore (mm)", "KR-7 | 12.70 | 9.51", "KR-8 | 13.3 | 9.51", "KR-09 | 13.2 | 9.51")
	result := compare.Catalogues(old, now)
	fmt.Println(result.Unchanged, "unchanged")
	for _, c := range result.Changed {
		for _, change := range c.Changes {
			by, _ := change.Difference()
			fmt.Printf("%s %s: %s was %s, by %s\n", c.New.Part, change.Role, change.New.Text, change.Old.Text, by)
		}
	}
	for _, a := range result.Alike {
		fmt.Printf("%s may be %s\n", a.New.Part, a.Old.Part)
	}
	// Output:
	// 1 unchanged
	// KR-8 hosel_od: 13.3 was 13.2, by 0.1 mm
	// KR-09 may be KR-O9
}
