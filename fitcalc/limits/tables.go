package limits

// The steps of nominal sizes in ISO 286-1, over the one before, up to and including this, in mm. The standard splits
// 10 to 18, 18 to 30 and 30 to 50 further for letters that are not supported here.
var steps = [...]int64{3, 6, 10, 18, 30, 50}

const (
	leastGrade = 5
	mostGrade  = 14
)

// standardTolerances are IT5 to IT14 in µm by step: ISO 286-1:2010, table 1.
var standardTolerances = [len(steps)][mostGrade - leastGrade + 1]int64{
	{4, 6, 10, 14, 25, 40, 60, 100, 140, 250},
	{5, 8, 12, 18, 30, 48, 75, 120, 180, 300},
	{6, 9, 15, 22, 36, 58, 90, 150, 220, 360},
	{8, 11, 18, 27, 43, 70, 110, 180, 270, 430},
	{9, 13, 21, 33, 52, 84, 130, 210, 330, 520},
	{11, 16, 25, 39, 62, 100, 160, 250, 390, 620},
}

// belowLeastGrade is IT4 in µm by step, which the Δ of the holes in grade 5 needs: ISO 286-1:2010, table 1, as copied out, and
// alike, in github.com/WaldekS710/isoFits (odchylki.py) and github.com/Ralul/TI-84 (ISO-286.py).
var belowLeastGrade = [len(steps)]int64{3, 4, 4, 5, 6, 7}

// fundamentalDeviations of shafts in µm by step: the upper deviation es for d to h, the lower deviation ei for k to s
// (k in grades 4 to 7; 0 in the others). ISO 286-1:2010, tables 2 and 3; the first and the last column are from
// memory.
var fundamentalDeviations = map[string][len(steps)]int64{
	"d": {-20, -30, -40, -50, -65, -80},
	"e": {-14, -20, -25, -32, -40, -50},
	"f": {-6, -10, -13, -16, -20, -25},
	"g": {-2, -4, -5, -6, -7, -9},
	"h": {},
	"k": {0, 1, 1, 1, 2, 2},
	"m": {2, 4, 6, 7, 8, 9},
	"n": {4, 8, 10, 12, 15, 17},
	"p": {6, 12, 15, 18, 22, 26},
	"r": {10, 15, 19, 23, 28, 34},
	"s": {14, 19, 23, 28, 35, 43},
}

// The steps of ISO 2768-1, table 1: from 0.5 mm, then over the one before, up to and including this, in mm.
var generalSteps = [...]int64{3, 6, 30, 120, 400, 1000}

// generalTolerances are the ± of ISO 2768-1:1989, table 1, in µm by class and step; 0 where there is none.
var generalTolerances = [...][len(generalSteps)]int64{
	Fine:       {50, 50, 100, 150, 200, 300},
	Medium:     {100, 100, 200, 300, 500, 800},
	Coarse:     {200, 300, 500, 800, 1200, 2000},
	VeryCoarse: {0, 500, 1000, 1500, 2500, 4000},
}
