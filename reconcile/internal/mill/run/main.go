// Run has random suppliers' sheets read and prints how much of them was read as it was meant, by habit.
//
//	go run ./reconcile/internal/mill/run [-n 10000] [-first SEED] [-list OUTCOME,...] [-too-sure] [-show SEED] [-markdown]
package main

import (
	"flag"
	"fmt"
	"log"
	"maps"
	"os"
	"slices"
	"strings"

	"example.com/seatline/reconcile/internal/mill"
)

func main() {
	log.SetFlags(0)
	n := flag.Int("n", 10_000, "how many sheets")
	first := flag.Uint64("first", 1, "the seed of the first")
	list := flag.String("list", "", "list the sizes of these outcomes, such as SILENT or missed, with a comma between")
	show := flag.Uint64("show", 0, "print the sheet of this seed and what was read of it, and nothing else")
	unsure := flag.Bool("too-sure", false, "list what was read wrong with a confidence over .99")
	markdown := flag.Bool("markdown", false, "print the tables as Markdown")
	flag.Parse()
	if *show > 0 {
		print(mill.Read(mill.Make(*show)))
		return
	}
	var score mill.Score
	for i := range uint64(*n) {
		report := mill.Read(mill.Make(*first + i))
		score.Add(report)
		for _, j := range report.Judged {
			if *unsure && j.Confidence > .99 && !j.Meant {
				fmt.Println("TOO SURE", report.Sheet.Name, line(j), report.Sheet.Habits)
			}
			if *list != "" && slices.Contains(strings.Split(*list, ","), j.Outcome.String()) {
				fmt.Println(report.Sheet.Name, line(j), report.Sheet.Habits)
			}
		}
	}
	if err := score.Print(os.Stdout, *markdown); err != nil {
		log.Fatal(err)
	}
	for _, law := range score.Broken {
		fmt.Println("LAW BROKEN", law)
	}
}

func line(j mill.Judgement) string {
	return fmt.Sprintf("%v %s %s: want %s, got %s; cells %v; confidence %.4f; said %v", j.Outcome, j.Part, j.Role, j.Want, j.Got, j.Cells, j.Confidence, j.Codes)
}

func print(report *mill.Report) {
	fmt.Print(report.Sheet.Text, "\n")
	for _, axis := range slices.Sorted(maps.Keys(report.Sheet.Habits)) {
		fmt.Printf("%s: %s\n", axis, report.Sheet.Habits[axis])
	}
	for _, j := range report.Judged {
		fmt.Println(line(j))
	}
	for _, f := range report.Findings {
		fmt.Println(f.Severity, f.Code, f.Place, f.Message)
	}
	for _, law := range report.Broken {
		fmt.Println("LAW BROKEN", law)
	}
}
