// Package settings reads shop.toml: the limits a shop works to, in place of the defaults, and what it calls itself.
//
//	name = "Harrow Lane Clubworks"
//
//	turn_limit     = "1.0 mm"    # lengths are text with their unit
//	undersize_risk = 0.02        # shares and minutes are numbers
//
//	[page]                       # the fit chart that the shop publishes
//	contact = "at the counter"
//
//	[house.iron]                 # the shop's own sizes, by kind of club
//	hosel_od = "13.0 mm ±0.1"
//
//	[suppliers."Harrow Mouldings"]   # what the shop knows of a supplier's sheets
//	ferrule_bores = "tip"
//
// Every key is a setting of [fitcalc.Settings], name, or a key of the tables page, house and suppliers, see [Page], [House] and [Suppliers]. An unknown key and a value that
// cannot be are errors with their line; nothing is ignored.
package settings

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/near"
)

// Settings is what a shop.toml says.
type Settings struct {
	// File is the name of the file, empty for the defaults.
	File string
	// Name is the shop's name, empty where it gives none.
	Name string
	Shop fitcalc.Shop
	// Page is how the fit chart looks that the shop publishes.
	Page Page
	// House is the sizes that the shop calls its own.
	House House
	// Suppliers is what the shop knows of its suppliers' sheets.
	Suppliers Suppliers
	// Lines says for each setting that the file gives on which line it stands.
	Lines map[string]int
}

// Default returns the settings of a shop without a file.
func Default() Settings { return Settings{Shop: fitcalc.DefaultShop()} }

// Error reports what is wrong with a shop.toml, with its place and what to do.
type Error struct {
	File string
	Line int
	Key  string
	// Advice is what to do next.
	Advice string
	Err    error
}

func (e *Error) Error() string {
	text := e.File
	if e.Line > 0 {
		text = fmt.Sprintf("%s:%d", e.File, e.Line)
	}
	if e.Key != "" {
		text += ": " + e.Key
	}
	text += ": " + e.Err.Error()
	if e.Advice != "" {
		text += "; " + e.Advice
	}
	return text
}

// Unwrap returns the cause, often a [*fitcalc.SettingError].
func (e *Error) Unwrap() error { return e.Err }

// mostProblems is how many faults of a file are told; a file may have any number.
const mostProblems = 20

// Parse reads the content of a shop.toml. The error joins an [*Error] for each thing that is wrong.
func Parse(file string, content []byte) (Settings, error) {
	s := Settings{File: file, Shop: fitcalc.DefaultShop(), Lines: map[string]int{}}
	var syntax map[string]any
	if err := toml.Unmarshal(content, &syntax); err != nil {
		return Default(), syntaxError(file, err)
	}
	var problems []error
	parser := unstable.Parser{}
	parser.Reset(content)
	var table []string
	for parser.NextExpression() {
		if err := s.take(&parser, parser.Expression(), &table); err != nil {
			if problems = append(problems, err); len(problems) == mostProblems {
				problems = append(problems, &Error{File: file, Err: errors.New("there may be more of this; mend these first")})
				break
			}
		}
	}
	if err := parser.Error(); err != nil {
		problems = append(problems, &Error{File: file, Err: err})
	}
	if len(problems) == 0 {
		if err := s.Shop.Validate(); err != nil {
			problems = append(problems, s.contradiction(err))
		}
	}
	if len(problems) > 0 {
		return Default(), errors.Join(problems...)
	}
	return s, nil
}

// take applies one line of the file, and keeps in mind the table that it is in.
func (s *Settings) take(parser *unstable.Parser, node *unstable.Node, in *[]string) error {
	var parts []string
	line := 0
	for key := node.Key(); key.Next(); {
		parts = append(parts, string(key.Node().Data))
		if line == 0 {
			line = parser.Shape(key.Node().Raw).Start.Line
		}
	}
	key := strings.Join(parts, ".")
	fail := func(err error, advice string) error {
		return &Error{File: s.File, Line: line, Key: key, Err: err, Advice: advice}
	}
	if node.Kind != unstable.KeyValue {
		*in = parts
		ofSupplier := len(parts) == 2 && parts[0] == suppliersTable
		if node.Kind == unstable.Table && (key == pageTable || isHouseTable(key) || ofSupplier) {
			return nil
		}
		return fail(errors.New("there is no table of this name"), "settings stand at the top of the file, outside tables, what concerns the page in [page], the shop's own sizes in [house.iron] and so on, and what concerns a supplier in [suppliers.\"name\"]")
	}
	value, table := node.Value(), strings.Join(*in, ".")
	if name, own, ofSupplier := supplierKey(*in, parts); ofSupplier {
		advice, problem := s.Suppliers.set(name, own, value)
		if problem != nil {
			return fail(problem, advice)
		}
		return nil
	}
	if inPage, own := strings.CutPrefix(key, pageTable+"."); table == pageTable || table == "" && own {
		if table == pageTable {
			inPage = key
		}
		key = pageTable + "." + inPage
		advice, problem := s.Page.set(inPage, value)
		if problem != nil {
			return fail(problem, advice)
		}
		s.Lines[key] = line
		return nil
	}
	if inHouse, own := houseKey(table, key); own && (table == "" || isHouseTable(table)) {
		key = houseTable + "." + inHouse
		advice, problem := s.House.set(inHouse, line, value)
		if problem != nil {
			return fail(problem, advice)
		}
		s.Lines[key] = line
		return nil
	}
	if table != "" {
		return nil // the table itself is reported
	}
	text := string(value.Data)
	switch value.Kind {
	case unstable.String, unstable.Float, unstable.Integer:
	default:
		return fail(errors.New("a setting is a text or a number"), "")
	}
	if key == "name" {
		s.Name = text
		return nil
	}
	if err := s.Shop.Set(key, strings.ReplaceAll(text, "_", "")); err != nil {
		return fail(reasonOf(err), advice(err, value.Kind))
	}
	s.Lines[key] = line
	return nil
}

// reasonOf shortens a setting's error to what the place does not say already, and keeps it reachable.
func reasonOf(err error) error {
	var setting *fitcalc.SettingError
	if !errors.As(err, &setting) {
		return err
	}
	if setting.Unknown {
		return &reworded{"there is no such setting", setting}
	}
	return &reworded{fmt.Sprintf("%q %s", setting.Value, setting.Reason), setting}
}

type reworded struct {
	text string
	err  error
}

func (r *reworded) Error() string { return r.text }
func (r *reworded) Unwrap() error { return r.err }

func advice(err error, kind unstable.Kind) string {
	var setting *fitcalc.SettingError
	if !errors.As(err, &setting) {
		return ""
	}
	if setting.Unknown {
		if near := nearest(setting.Key); near != "" {
			return "did you mean " + near + "?"
		}
		return "the settings are " + strings.Join(keys(), ", ")
	}
	if kind != unstable.String && setting.Err != nil {
		return `write a length as text with its unit, such as "1.0 mm" or ".040 in"`
	}
	return ""
}

func (s *Settings) contradiction(err error) error {
	var setting *fitcalc.SettingError
	if errors.As(err, &setting) {
		return &Error{File: s.File, Line: s.Lines[setting.Key], Key: setting.Key, Err: reasonOf(err)}
	}
	return &Error{File: s.File, Err: err}
}

func syntaxError(file string, err error) error {
	var decode *toml.DecodeError
	if errors.As(err, &decode) {
		line, _ := decode.Position()
		return &Error{File: file, Line: line, Key: strings.Join(decode.Key(), "."), Err: err}
	}
	return &Error{File: file, Err: err}
}

func keys() []string {
	var keys []string
	for _, s := range fitcalc.Settings() {
		keys = append(keys, s.Key)
	}
	return keys
}

// nearest returns the setting that differs from key by at most two letters or holds all of its words.
func nearest(key string) string { return nearestOf(key, keys()) }

func nearestOf(key string, all []string) string {
	best, least := "", 3
	for _, candidate := range all {
		if d := near.Edits([]rune(key), []rune(candidate)); d < least {
			best, least = candidate, d
		}
	}
	if best != "" {
		return best
	}
	words := strings.FieldsFunc(strings.ToLower(key), func(r rune) bool { return r == '_' || r == '-' || r == ' ' })
	at := slices.IndexFunc(all, func(candidate string) bool {
		return len(words) > 1 && !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(candidate, w) })
	})
	if at >= 0 {
		return all[at]
	}
	return ""
}
