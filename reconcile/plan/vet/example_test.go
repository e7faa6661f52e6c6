package vet_test

import (
	"fmt"
	"log"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/sheet/open"
)

func Example() {
	sheet := func(kind catalog.Kind, file, text string) reader.Input {
		book, err := open.Bytes(file, []byte(text))
		if err != nil {
			log.Fatal(err)
		}
		return reader.Input{Book: book, Kind: kind}
	}
	house := reader.Read([]reader.Input{
		sheet(catalog.Heads, "irons.csv", "Part,Hosel OD (mm),Bore (mm),Top\nKR-7,12.9 ±0.05,9.51,flat\nKR-8,14.2 ±0.05,9.51,flat\n"),
		sheet(catalog.Ferrules, "trim.csv", "Part,Bore (mm),Base OD (mm),Length (mm)\nT-1,9.35,13.2 ±0.03,16\nT-2,9.35,13.6 ±0.03,16\n"),
	}, reader.Options{})
	offer := reader.Read([]reader.Input{
		sheet(catalog.Ferrules, "offer.csv", "Part,Bore (mm),Base OD (mm),Length (mm)\nN-1,9.35,12.9 ±0.03,16\nN-2,9.35,14.2 ±0.03,16\n"),
	}, reader.Options{})
	report, err := vet.Against(vet.Input{House: house, New: offer, Shop: fitcalc.DefaultShop()})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(report.Verdict, report.Ferrules.Before, report.Ferrules.After)
	for _, g := range report.Ferrules.Gains {
		fmt.Printf("%s with %s: %v\n", house.Heads[g.Head].Part, offer.Ferrules[g.With.Ferrule].Part, g.With.Verdict)
	}
	// Output:
	// take 1 2
	// KR-8 with N-2: flush
	// KR-7 with N-1: flush
}
