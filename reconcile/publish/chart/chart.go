package chart

import (
	"encoding/json"
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// version is that of the data in the page. It changes when what a key means changes; new keys do not change it.
const version = 4

// chart is the data of a page. All lengths are whole picometres; indexes count from 0, and -1 is nothing. Schema describes it.
type chart struct {
	Version  int      `json:"version"`
	Language string   `json:"language"`
	Units    string   `json:"units"`
	Columns  []Column `json:"columns"`
	Limits   limits   `json:"limits"`

	// Verdicts are their names by number; that of 0 is empty.
	Verdicts []string `json:"verdicts"`
	// Suppliers are the names that customers know them by, empty where only a file has one.
	Suppliers []string `json:"suppliers"`
	Colours   []string `json:"colours"`
	// Currency is that of prices, as three capitals.
	Currency string    `json:"currency,omitempty"`
	Tips     []tipData `json:"tips"`
	// Dims are nominal, lower and upper limit.
	Dims [][3]int64 `json:"dims"`
	// DimsMeasured are the indexes of the dims that come from readings.
	DimsMeasured []int        `json:"dimsMeasured,omitempty"`
	Heads        headData     `json:"heads"`
	Forms        []formData   `json:"forms"`
	Ferrules     ferruleData  `json:"ferrules"`
	Hosels       []hoselData  `json:"hosels"`
	Bench        []benchData  `json:"bench"`
	TipSets      [][]int      `json:"tipSets"`
	Reasons      []reasonData `json:"reasons"`
	Spreads      []spread     `json:"spreads"`
	// Outcomes are a verdict, a set of assumptions as bits, 1 where base and hosel are one size stated twice, and reasons.
	Outcomes [][]int `json:"outcomes"`
	// Answers are ferrule, outcome, tip and hundredths of a minute of bench time, again and again, the best first.
	Answers [][]int `json:"answers"`
	// Courses are what becomes of ferrules as the hosel's OD grows, in the page each as the index of its shape and the outcomes along it:
	// many differ in nothing but the outcomes.
	Courses []course `json:"-"`
	Shapes  []shape  `json:"shapes"`
	Along   [][]int  `json:"courses"`
	// Rows are the least hosel OD, then a course for each form of ferrule.
	Rows        [][]int64 `json:"rows"`
	Assumptions []string  `json:"assumptions"`
	Words       words     `json:"words"`
}

type limits struct {
	FlushStep picometres `json:"flushStep"`
	TurnLimit picometres `json:"turnLimit"`
	// Measured is the tolerance, ±, of a measured hosel.
	Measured picometres `json:"measured"`
	// Most is the largest upper limit that a hosel OD may have.
	Most picometres `json:"most"`
	// Caliper is whether that is what the seller says of calipers, and not what the shop allows for.
	Caliper bool `json:"caliper,omitempty"`
	// Insertion is how far a tip goes in where no bore depth is given.
	Insertion picometres `json:"insertion"`
}

// picometres is a length in picometres, 0 where there is none.
type picometres int64

func pm(l measure.Length) picometres { return picometres(l.Picometres()) }

// size is the nominal size of a dimension, 0 where it is not given: no dimension of a part is 0.
func size(d measure.Dim) picometres { return pm(d.Nominal()) }

// headData are the heads by column.
type headData struct {
	Part        []string `json:"part"`
	Description []string `json:"description"`
	Supplier    []int    `json:"supplier"`
	// Category is that of [fitcalc.Category], 0 for unknown.
	Category []int `json:"category"`
	// OD is an index of dims.
	OD    []int `json:"od"`
	Hosel []int `json:"hosel"`
	// Tips is an index of tipSets; Assumed is 1 where no sheet names the tips.
	Tips    []int `json:"tips"`
	Assumed []int `json:"assumed"`
	Answer  []int `json:"answer"`
	// Fits is how many ferrules fit each head, where the answers hold the best of them only.
	Fits []int `json:"fits,omitempty"`
}

// ferruleData are the ferrules by column.
type ferruleData struct {
	Part        []string `json:"part"`
	Description []string `json:"description"`
	Supplier    []int    `json:"supplier"`
	Form        []int    `json:"form"`
	// Fits is how many heads each fits, where the answers of the heads hold the best ferrules only.
	Fits []int `json:"fits,omitempty"`
	// Colour is an index of colours.
	Colour []int `json:"colour"`
	// Price is what a piece costs, 0 where that is not shown.
	Price []float64 `json:"price,omitempty"`
}

// formData is the form of ferrules that differ in nothing but name and colour.
type formData struct {
	Base   int        `json:"base"`   // an index of dims
	Spread int        `json:"spread"` // an index of spreads
	Bore   picometres `json:"bore"`
	// ForTip is the tip that the ferrules are known by where no bore is given; Bore is then that of one made for it.
	ForTip string     `json:"forTip,omitempty"`
	Top    picometres `json:"top,omitempty"`
	Length picometres `json:"length"`
	// Style is that of [fitcalc.Style] that they are taken to have.
	Style int `json:"style"`
	// Spigot are OD and length of a collar or step.
	Spigot *[2]picometres `json:"spigot,omitempty"`
}

// hoselData is all of a head that a joint needs, but for the hosel's OD.
type hoselData struct {
	Top   int        `json:"top"` // that of [fitcalc.TopForm]; 5 is an adapter sleeve
	Bore  picometres `json:"bore"`
	Depth picometres `json:"depth"`
	// Sink is a countersink's mouth and depth, Counter a counterbore's diameter and depth.
	Sink    *[2]picometres `json:"sink,omitempty"`
	Counter *[2]picometres `json:"counter,omitempty"`
	// Tips are those it was decided on for any OD, and Rows the rows of the answers.
	Tips []int `json:"tips"`
	Rows []int `json:"rows"`
	// Usual says that the rows are those of a usual hosel with such a top: the page is too large to hold those of this one.
	Usual bool `json:"usual,omitempty"`
}

// benchData is a form of top that can be chosen for a hosel that was measured without its head.
type benchData struct {
	Top   int `json:"top"`
	Hosel int `json:"hosel"`
}

// tipData is a tip by positions above its end, from there upward, and the diameter at each, between which it changes evenly; none
// where nothing is known of it.
type tipData struct {
	Name string     `json:"name"`
	At   [][2]int64 `json:"at"`
}

// reasonData is one reason of a verdict, with those of its numbers that do not depend on the hosel's OD.
type reasonData struct {
	Code  string `json:"code"`
	Level int    `json:"level"`
	// Word is the key of its sentence in words, without "reason.".
	Word string `json:"word"`
	// Share is the share of joints that the sentence speaks of, where it is one of the catalogue.
	Share float64     `json:"share,omitempty"`
	Size  *picometres `json:"size,omitempty"`
	Other *picometres `json:"other,omitempty"`
	Limit *picometres `json:"limit,omitempty"`
	// Field is the dimension that is missing.
	Field string `json:"field,omitempty"`
	// Axial is whether the lengths lie along the axis.
	Axial bool `json:"axial,omitempty"`
}

// course is what becomes of a ferrule as the hosel's OD grows: stretches that follow each other.
type course []stretch

// stretch begins at an OD and goes on to where the next begins.
type stretch struct {
	from    int64
	outcome int
	// minutes is the bench time from the stretch's beginning to its end: a step of 64, and hundredths of a minute, again and
	// again; nil where nothing fits.
	minutes []int
}

// shape is a course without its outcomes.
type shape course

// MarshalJSON writes minutes, beginning of the next, minutes, and so on; minutes that are not known are 0.
func (s shape) MarshalJSON() ([]byte, error) {
	flat := make([]any, 0, 2*len(s))
	for i := range s {
		if i > 0 {
			flat = append(flat, s[i].from)
		}
		if s[i].minutes == nil {
			flat = append(flat, 0)
		} else {
			flat = append(flat, s[i].minutes)
		}
	}
	return json.Marshal(flat)
}

// shaped parts the courses into shapes and outcomes.
func (c *chart) shaped() {
	var shapes pool[shape]
	c.Along = make([][]int, len(c.Courses))
	for i, all := range c.Courses {
		bare := make(shape, len(all))
		along := make([]int, 1, 1+len(all))
		for k := range all {
			bare[k] = stretch{from: all[k].from, minutes: all[k].minutes}
			along = append(along, all[k].outcome)
		}
		along[0] = shapes.id(fmt.Sprint(bare), bare)
		c.Along[i] = along
	}
	c.Shapes = filled(shapes.all)
}

// pool keeps equal values once.
type pool[T any] struct {
	ids map[string]int
	all []T
}

// id returns the index of a value with a key.
func (p *pool[T]) id(key string, value T) int {
	if p.ids == nil {
		p.ids = map[string]int{}
	}
	at, known := p.ids[key]
	if !known {
		at = len(p.all)
		p.ids[key] = at
		p.all = append(p.all, value)
	}
	return at
}

// sleeveTop is the form of top that stands for an adapter sleeve in the page.
const sleeveTop = int(fitcalc.TopCounterbored) + 1
