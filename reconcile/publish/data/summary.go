package data

import (
	"encoding/json"
	"fmt"
	"io"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/decimal"
	"example.com/seatline/reconcile/publish/tell"
)

// Version is the version of the form of summary.json and of the lines of fits.jsonl, heads.jsonl and ferrules.jsonl. It goes up only
// when a key changes its meaning or is left out.
const Version = 3

type summary struct {
	Version     int                 `json:"version"`
	Files       []tell.Input        `json:"files"`
	Tables      []summaryTable      `json:"tables"`
	Rows        summaryRows         `json:"rows"`
	Pairs       summaryPairs        `json:"pairs"`
	Verdicts    summaryVerdicts     `json:"verdicts"`
	Heads       summaryHeads        `json:"heads"`
	Ferrules    summaryFerrules     `json:"ferrules"`
	Findings    summaryFindings     `json:"findings"`
	Settings    []summarySetting    `json:"settings_changed"`
	Assumptions []summaryAssumption `json:"assumptions"`
	Measured    *summaryMeasured    `json:"measured"`
}

type summaryTable struct {
	File     string         `json:"file"`
	Sheet    string         `json:"sheet"`
	Range    string         `json:"range"`
	Kind     string         `json:"kind"`
	Ledger   catalog.Ledger `json:"ledger"`
	Findings int            `json:"findings"`
}

type summaryRows struct {
	All      catalog.Ledger `json:"all"`
	Heads    catalog.Ledger `json:"heads"`
	Ferrules catalog.Ledger `json:"ferrules"`
	Tips     catalog.Ledger `json:"tips"`
	Other    catalog.Ledger `json:"other"`
}

type summaryPairs struct {
	Heads      int `json:"heads"`
	Ferrules   int `json:"ferrules"`
	Possible   int `json:"possible"`
	Listed     int `json:"listed"`
	Counted    int `json:"counted"`
	OutOfRange int `json:"out_of_range"`
	// HeadGeometries and FerruleGeometries are how many different ones there are.
	HeadGeometries    int `json:"head_geometries"`
	FerruleGeometries int `json:"ferrule_geometries"`
	// OnlyBest is of how many ferrules for each head, and heads for each ferrule, the pairs are listed where not all that fit are, and
	// FitsNotListed are the others that fit.
	OnlyBest      int              `json:"only_best,omitzero"`
	FitsNotListed *summaryFitsLeft `json:"fits_not_listed,omitempty"`
	// NotListed are the pairs that do not fit and are counted, by the reason that rules them out.
	NotListed []summaryReason `json:"not_listed"`
}

type summaryFitsLeft struct {
	Flush   int `json:"flush"`
	Turn    int `json:"turn"`
	Prep    int `json:"prep"`
	Measure int `json:"measure"`
}

type summaryReason struct {
	Code  string `json:"code"`
	Pairs int    `json:"pairs"`
}

type summaryVerdicts struct {
	Flush   int `json:"flush"`
	Turn    int `json:"turn"`
	Prep    int `json:"prep"`
	Measure int `json:"measure"`
	Ask     int `json:"ask"`
	No      int `json:"no"`
	Bare    int `json:"bare"`
}

type summaryHeads struct {
	Served    int `json:"served"`
	Selective int `json:"selective"`
	Undecided int `json:"undecided"`
	Unserved  int `json:"unserved"`
	Bare      int `json:"bare"`
}

type summaryFerrules struct {
	Used   int `json:"used"`
	Unused int `json:"unused"`
}

type summaryFindings struct {
	Error   int `json:"error"`
	Warning int `json:"warning"`
	Note    int `json:"note"`
}

type summarySetting struct {
	Key     string `json:"key"`
	Value   string `json:"value"`
	Default string `json:"default"`
	Why     string `json:"why"`
	Source  string `json:"source"`
}

type summaryAssumption struct {
	Code     string `json:"code"`
	Text     string `json:"text"`
	Verdicts int    `json:"verdicts"`
}

// WriteSummaryJSON writes summary.json: what was read and what came out, in numbers. Where no input files are named, they are
// those of the catalogue's tables. The error is the writer's.
func WriteSummaryJSON(w io.Writer, r *matrix.Result, inputs []tell.Input) error {
	text, err := json.MarshalIndent(summarise(r, inputs), "", "  ")
	if err == nil {
		_, err = w.Write(append(text, '\n'))
	}
	if err != nil {
		return fmt.Errorf("writing the summary: %w", err)
	}
	return nil
}

func summarise(r *matrix.Result, inputs []tell.Input) summary {
	a := tell.Take(r)
	s := summary{
		Version: Version,
		Files:   tell.Inputs(r, inputs),
		Tables:  []summaryTable{},
		Rows: summaryRows{
			All: a.AllRows, Heads: a.Rows[catalog.Heads], Ferrules: a.Rows[catalog.Ferrules],
			Tips: a.Rows[catalog.Tips], Other: a.Rows[catalog.UnknownKind],
		},
		Pairs: summaryPairs{
			Heads: a.Heads, Ferrules: a.Ferrules, Possible: a.Possible, Listed: a.Listed, Counted: a.Counted, OutOfRange: a.OutOfRange,
			HeadGeometries: a.HeadGeometries, FerruleGeometries: a.FerruleGeometries, NotListed: []summaryReason{},
		},
		Verdicts: summaryVerdicts{
			Flush: a.Verdicts[fitcalc.Flush], Turn: a.Verdicts[fitcalc.Turn], Prep: a.Verdicts[fitcalc.Prep], Measure: a.Verdicts[fitcalc.Measure],
			Ask: a.Verdicts[fitcalc.Ask], No: a.Verdicts[fitcalc.No], Bare: a.Verdicts[fitcalc.Bare],
		},
		Heads: summaryHeads{
			a.Standing[tell.Served], a.Standing[tell.Selective], a.Standing[tell.Undecided], a.Standing[tell.Unserved], a.Standing[tell.TakesNone],
		},
		Ferrules: summaryFerrules{a.UsedFerrules, a.Ferrules - a.UsedFerrules},
		Findings: summaryFindings{a.Findings[finding.Error], a.Findings[finding.Warning], a.Findings[finding.Note]},
		Settings: []summarySetting{}, Assumptions: []summaryAssumption{},
	}
	if a.OnlyBest > 0 {
		s.Pairs.OnlyBest = a.OnlyBest
		s.Pairs.FitsNotListed = &summaryFitsLeft{a.LeftOut[fitcalc.Flush], a.LeftOut[fitcalc.Turn], a.LeftOut[fitcalc.Prep], a.LeftOut[fitcalc.Measure]}
	}
	for _, counted := range a.ByReason {
		s.Pairs.NotListed = append(s.Pairs.NotListed, summaryReason{counted.Code.String(), counted.Pairs})
	}
	for i := range r.Catalogue.Tables {
		t := &r.Catalogue.Tables[i]
		s.Tables = append(s.Tables, summaryTable{t.File, t.Sheet, t.Range, t.Kind.String(), t.Ledger, len(t.Findings)})
	}
	for _, setting := range tell.Settings(r.Shop) {
		if setting.Changed {
			s.Settings = append(s.Settings, summarySetting{
				setting.Key, setting.Value, setting.Default, setting.Why, setting.Source,
			})
		}
	}
	for _, c := range a.Assumptions {
		s.Assumptions = append(s.Assumptions, summaryAssumption{c.Code, c.In(nil), c.Verdicts})
	}
	s.Measured = measured(&r.Catalogue.Measurements)
	return s
}

// summaryMeasured is what readings contributed.
type summaryMeasured struct {
	Rows     catalog.Ledger   `json:"rows"`
	Readings int              `json:"readings"`
	Sizes    int              `json:"sizes"`
	Parts    int              `json:"parts"`
	Learned  []summaryLearned `json:"learned"`
}

type summaryLearned struct {
	Supplier  string      `json:"supplier"`
	Kind      string      `json:"kind"`
	Size      string      `json:"size"`
	Parts     int         `json:"parts"`
	Readings  int         `json:"readings"`
	Within    json.Number `json:"within_sd_mm"`
	DoF       json.Number `json:"within_degrees_of_freedom"`
	Bias      json.Number `json:"bias_mm"`
	BiasShows bool        `json:"bias_shows"`
	PlusMinus json.Number `json:"plus_minus_mm"`
	TakenFor  int         `json:"taken_for"`
}

func measured(m *catalog.Measurements) *summaryMeasured {
	if !m.Any() {
		return nil
	}
	s := &summaryMeasured{Rows: m.Rows, Readings: m.Readings, Sizes: m.Sizes, Parts: m.Parts, Learned: []summaryLearned{}}
	for i := range m.Learned {
		l := &m.Learned[i]
		s.Learned = append(s.Learned, summaryLearned{
			Supplier: l.Supplier, Kind: l.Kind.String(), Size: catalog.FieldOf(l.Kind, l.Role).Code(), Parts: l.Parts, Readings: l.Readings,
			Within: decimal.Of(l.Within.SD, 4), DoF: decimal.Of(l.Within.DoF, 1), Bias: decimal.Of(l.Bias, 4), BiasShows: l.BiasShows(),
			PlusMinus: decimal.Millimetres(l.PlusMinus), TakenFor: l.Taken,
		})
	}
	return s
}
