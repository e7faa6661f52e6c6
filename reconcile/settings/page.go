package settings

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/internal/pattern"
)

// Page is the table page: how the fit chart looks that the shop publishes. What is not given is empty.
//
//	[page]
//	contact  = "counter 3, or by post"
//	accent   = "#7a3b2e"               # the shop's colour
//	logo     = "logo.png"              # beside shop.toml
//	language = "de"
//	columns  = ["supplier", "length"]  # or base, bore, colour, minutes
//	prices   = false                   # with currency = "EUR", margin = "40%" and price_per_pack = true if need be
//	caliper  = "0.03 mm"               # ± of a measured hosel, in place of hosel_od_tolerance
type Page struct {
	// Contact is how customers reach the shop, as text.
	Contact string
	// Accent is the shop's colour, #rrggbb.
	Accent string
	// Logo is the path of an image, from the folder of shop.toml, with slashes.
	Logo string
	// Language is a tag such as de.
	Language string
	// Columns are shown besides those that every answer has; nil where the file does not say.
	Columns []string
	// Prices is whether prices are shown.
	Prices bool
	// Currency is that of prices, three capitals; empty is that of the sheets.
	Currency string
	// Margin is what is added to the sheets' prices, as a share of them.
	Margin float64
	// PricePerPack is whether prices of which a sheet says nothing are for a pack.
	PricePerPack bool
	// Caliper is the tolerance, ±, of a hosel OD that a customer measured; nothing where the file gives none.
	Caliper measure.Length
}

// pageTable is the name of the table.
const pageTable = "page"

var pageKeys = []string{"contact", "accent", "logo", "language", "columns", "prices", "currency", "margin", "price_per_pack", "caliper"}

// PageColumns returns the columns that a page may show besides those that it always has. Prices have a key of their own.
func PageColumns() []string {
	return []string{"supplier", "length", "base", "bore", "colour", "minutes"}
}

var (
	colourForm   = pattern.Lazy(`^#[0-9a-fA-F]{6}$`)
	languageForm = pattern.Lazy(`^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$`) // RFC 5646, as far as it concerns pages
)

// mostMargin is the most, in percent, that may be added to a price.
const mostMargin = 2000

// mostCaliper is beyond any calipers.
var mostCaliper = measure.Millimetres(1)

// set applies one key. It returns what to do about a value that is wrong, and what is wrong.
func (p *Page) set(key string, value *unstable.Node) (advice string, problem error) {
	text := string(value.Data)
	switch key {
	case "prices", "price_per_pack":
		if value.Kind != unstable.Bool {
			return "write it without quotes", errors.New("is neither true nor false")
		}
		if key == "prices" {
			p.Prices = text == "true"
		} else {
			p.PricePerPack = text == "true"
		}
		return "", nil
	case "columns":
		return p.setColumns(value)
	}
	if !slices.Contains(pageKeys, key) {
		if near := nearestOf(key, pageKeys); near != "" {
			return "did you mean " + near + "?", errors.New("there is no such key")
		}
		return "the keys of the page are " + strings.Join(pageKeys, ", "), errors.New("there is no such key")
	}
	if value.Kind != unstable.String {
		return "write it in quotes", errors.New("is not a text")
	}
	return p.setText(key, text)
}

func (p *Page) setText(key, text string) (advice string, problem error) {
	switch key {
	case "contact":
		p.Contact = text
	case "accent":
		if !colourForm().MatchString(text) {
			return `write it like "#7a3b2e"`, fmt.Errorf("%q is not a colour", text)
		}
		p.Accent = text
	case "logo":
		if text == "" || path.IsAbs(text) || strings.Contains(text, `\`) || strings.HasPrefix(path.Clean(text), "..") || strings.Contains(text, ":") {
			return `write it like "pictures/logo.png"`, fmt.Errorf("%q is not a path below the folder of this file", text)
		}
		p.Logo = text
	case "currency":
		if len(text) != 3 || strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
			return `write three capitals, such as "EUR"`, fmt.Errorf("%q is not a currency", text)
		}
		p.Currency = text
	case "margin":
		percent, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "%")), 64)
		if err != nil || !strings.HasSuffix(text, "%") || !(percent >= 0 && percent <= mostMargin) {
			return `write it like "40%"`, fmt.Errorf("%q is not a margin from 0%% to %d%%", text, mostMargin)
		}
		p.Margin = percent / 100
	case "language":
		if !languageForm().MatchString(text) {
			return `write its tag, like "de"`, fmt.Errorf("%q is not a language", text)
		}
		p.Language = text
	case "caliper":
		tolerance, err := measure.ParseLength(text)
		if err != nil {
			return `write a length with its unit, such as "0.03 mm"`, err
		}
		if tolerance.Sign() <= 0 || mostCaliper.Less(tolerance) {
			return "", fmt.Errorf("%q must be more than nothing and at most %v", text, mostCaliper)
		}
		p.Caliper = tolerance
	}
	return "", nil
}

func (p *Page) setColumns(value *unstable.Node) (advice string, problem error) {
	if value.Kind != unstable.Array {
		return `write it like ["supplier", "length"]`, errors.New("is not a list")
	}
	all := []string{}
	for items := value.Children(); items.Next(); {
		item := items.Node()
		name := string(item.Data)
		switch {
		case item.Kind == unstable.Comment:
			continue
		case item.Kind != unstable.String || !slices.Contains(PageColumns(), name):
			return "the columns are " + strings.Join(PageColumns(), ", ") + "; prices have a key of their own", fmt.Errorf("there is no column %q", name)
		case slices.Contains(all, name):
			return "", fmt.Errorf("the column %q is named twice", name)
		}
		all = append(all, name)
	}
	p.Columns = all
	return "", nil
}
