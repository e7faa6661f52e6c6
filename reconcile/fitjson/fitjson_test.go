package fitjson_test

import (
	"encoding/json"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/fitjson"
)

func object(write func(*fitjson.Object)) []byte {
	o := fitjson.Object{B: []byte{'{'}}
	write(&o)
	return append(o.B, '}')
}

// Any text comes back as encoding/json writes and reads it, and stands on one line.
func TestTextsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, list := rapid.String().Draw(t, "text"), rapid.SliceOf(rapid.String()).Draw(t, "list")
		line := object(func(o *fitjson.Object) {
			o.Text("text", text)
			o.Given("given", text)
			o.Strings("list", slices.Values(list))
		})
		var got struct {
			Text  string
			Given *string
			List  []string
		}
		if err := json.Unmarshal(line, &got); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		want := strings.ToValidUTF8(text, "\ufffd")
		if got.Text != want || (got.Given == nil) != (text == "") || len(got.List) != len(list) {
			t.Fatalf("%q and %q come back as %+v", text, list, got)
		}
		if strings.ContainsRune(string(line), '\n') {
			t.Fatalf("%q is more than one line", line)
		}
	})
}

// A length is within half of 0.0001 mm of the exact one, and never in exponents.
func TestLengthsAreExactToTheirLastDecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := measure.Picometres(rapid.Int64Range(-1e15, 1e15).Draw(t, "pm"))
		line := object(func(o *fitjson.Object) { o.Length("mm", true, length) })
		var got struct{ MM json.Number }
		if err := json.Unmarshal(line, &got); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		number, ok := new(big.Rat).SetString(got.MM.String())
		if !ok || strings.ContainsAny(got.MM.String(), "eE") {
			t.Fatalf("%s is no plain decimal", got.MM)
		}
		off := number.Sub(number, big.NewRat(length.Picometres(), 1e9))
		if off.Abs(off).Cmp(big.NewRat(5, 100_000)) > 0 {
			t.Fatalf("%v is written as %s", length, got.MM)
		}
	})
}

func TestUnknownIsNull(t *testing.T) {
	line := object(func(o *fitjson.Object) {
		o.Length("length", false, measure.Millimetres(1))
		o.Share("share", false, 1)
		o.Minutes("minutes", false, 1)
		o.Given("given", "")
	})
	if got, want := string(line), `{"length":null,"share":null,"minutes":null,"given":null}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
