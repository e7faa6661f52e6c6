package planning

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/publish/csvtext"
)

// mm and inch return a length as a decimal, from the exact count.
func mm(l measure.Length) json.Number {
	text, _ := l.FormatMillimetres(4)
	return short(text)
}

func inch(l measure.Length) json.Number {
	text, _ := l.FormatInches(6)
	return short(text)
}

// decimal returns a number with at most so many decimals.
func decimal(x float64, places int) json.Number {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		text = "0" // and not -0
	}
	return short(text)
}

func money(x float64) json.Number   { return decimal(x, 2) }
func minutes(x float64) json.Number { return decimal(x, 2) }
func hours(x float64) json.Number   { return decimal(x/60, 3) }
func count(x float64) json.Number   { return decimal(x, 4) }

// short drops zeros after the point.
func short(text string) json.Number {
	if strings.Contains(text, ".") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return json.Number(text)
}

type spread struct {
	Nominal json.Number `json:"nominal"`
	Least   json.Number `json:"least"`
	Most    json.Number `json:"most"`
}

func spreadMM(a fitcalc.Amount) spread { return spread{mm(a.Nominal), mm(a.Least), mm(a.Most)} }
func spreadIn(a fitcalc.Amount) spread { return spread{inch(a.Nominal), inch(a.Least), inch(a.Most)} }

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

// records writes CSV by RFC 4180. Text is neutralised by who makes the records.
func records(w io.Writer, what string, all [][]string) error {
	if err := csvtext.NewWriter(w).WriteAll(all); err != nil {
		return fmt.Errorf("writing %s: %w", what, err)
	}
	return nil
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
