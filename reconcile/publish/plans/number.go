package plans

import (
	"encoding/json"
	"fmt"
	"io"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/publish/decimal"
)

func money(x float64) json.Number   { return decimal.Of(x, 2) }
func minutes(x float64) json.Number { return decimal.Of(x, 2) }
func hours(x float64) json.Number   { return decimal.Of(x/60, 3) }
func count(x float64) json.Number   { return decimal.Of(x, 4) }

type spread struct {
	Nominal json.Number `json:"nominal"`
	Least   json.Number `json:"least"`
	Most    json.Number `json:"most"`
}

func spreadMM(a fitcalc.Amount) spread {
	return spread{decimal.Millimetres(a.Nominal), decimal.Millimetres(a.Least), decimal.Millimetres(a.Most)}
}
func spreadIn(a fitcalc.Amount) spread {
	return spread{decimal.Inches(a.Nominal), decimal.Inches(a.Least), decimal.Inches(a.Most)}
}

// writeJSON writes indented JSON with a line end.
func writeJSON(w io.Writer, what string, v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err == nil {
		_, err = w.Write(append(text, '\n'))
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", what, err)
	}
	return nil
}
