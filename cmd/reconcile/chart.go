package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/reconcile/publish"
	"example.com/seatline/reconcile/publish/chart"
)

// chartFlags are the flags of chart besides those of every command that reads catalogues.
type chartFlags struct {
	catalogueFlags
	out, language, words string
	embed                bool
}

func newChart(s streams) *cobra.Command {
	var f chartFlags
	cmd := &cobra.Command{
		Use:   "chart --heads FILE... --ferrules FILE... [--tips FILE...] [--measured FILE...] [--shop shop.toml] [--map FILE] --out FILE.html",
		Short: "write the fit chart to publish: one web page that works without a network",
		Long: `chart decides every head against every ferrule and writes the fit chart: one HTML file that opens from a disk,
needs no network, and prints. A reader chooses a head, types what the calipers say, or chooses a ferrule.

--embed writes fits.js besides fits.html. On your own site the chart is then one element, with a style of its own, as high as what it shows;
a content security policy has to admit the script alone:

  <script src="fits.js" defer></script>
  <fit-chart><a href="fits.html">Which ferrule fits?</a></fit-chart>

The seller's look stands in the table [page] of shop.toml:

  [page]
  contact  = "counter 3, or by post"
  accent   = "#7a3b2e"                   # the seller's colour
  logo     = "logo.png"                  # beside shop.toml
  language = "de"                        # or en, es, fr, ja, zh
  columns  = ["supplier", "length"]      # also base, bore, colour, minutes
  prices   = false                       # true: those of a piece, in one currency
  currency = "EUR"                       # margin = "40%" is added to the sheets' prices
  caliper  = "0.03 mm"                   # ± of a measured hosel, in place of hosel_od_tolerance

  [suppliers.trim_2026]                  # sheets that do not name their supplier go by their file,
  name     = "Kettlewisp Trim"           # which no customer sees: he sees this, or no name`,
		Example: `  reconcile chart --heads irons.xlsx --ferrules trim.xlsx --out fits.html
  reconcile chart --heads irons.xlsx --ferrules trim.xlsx --shop shop.toml --language fr --out fits.html
  reconcile chart --heads irons.xlsx --ferrules trim.xlsx --out fits.html --embed`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needs(cmd, "heads", "ferrules", "out"); err != nil {
				return err
			}
			return s.chart(f)
		},
	}
	f.add(cmd)
	f.addMeasured(cmd)
	cmd.Flags().StringVar(&f.out, "out", "", "the HTML file to write")
	cmd.Flags().BoolVar(&f.embed, "embed", false, "write FILE.js besides, which puts the chart into the element fit-chart of your own site")
	cmd.Flags().StringVar(&f.language, "language", "", "the language of the page, in place of the one in shop.toml")
	cmd.Flags().StringVar(&f.words, "words", "", "a file of words: another language, or other words for one that there is")
	return cmd
}

func (s streams) chart(f chartFlags) error {
	d, err := s.decide(f.catalogueFlags)
	if err != nil {
		return err
	}
	opts, inputs, err := f.options(d)
	if err != nil {
		return err
	}
	d.inputs = append(d.inputs, inputs...)
	outputs := []publish.Output{{
		Name: filepath.Base(f.out), About: "the fit chart; open it in a browser",
		Write: func(w io.Writer) error { return chart.Write(w, d.result, opts) },
	}}
	if f.embed {
		outputs = append(outputs, publish.Output{
			Name: strings.TrimSuffix(filepath.Base(f.out), filepath.Ext(f.out)) + ".js", About: "the chart as the element fit-chart of your own site",
			Write: func(w io.Writer) error { return chart.WriteEmbed(w, d.result, opts) },
		})
	}
	paths, err := s.writeAll(filepath.Dir(f.out), outputs, d.inputs)
	if err != nil {
		return err
	}
	return s.report(f.catalogueFlags, d, outputs, paths)
}

// options brings together what shop.toml and the flags say of the page, and returns the files that were read for it.
func (f *chartFlags) options(d decided) (chart.Options, []string, error) {
	s := d.publishing.Settings
	opts := chart.Options{
		ShopName: s.Name, Contact: s.Page.Contact, Accent: s.Page.Accent, Language: s.Page.Language, Units: f.units, Prices: s.Page.Prices,
		Currency: s.Page.Currency, Margin: s.Page.Margin, PricePerPack: s.Page.PricePerPack, Suppliers: s.Suppliers.Names(), Caliper: s.Page.Caliper,
	}
	if f.language != "" {
		opts.Language = f.language
	}
	if s.Page.Columns != nil {
		opts.Columns = []chart.Column{}
	}
	for _, name := range s.Page.Columns {
		opts.Columns = append(opts.Columns, chart.Column(name))
	}
	var inputs []string
	read := func(path string, into *[]byte) error {
		content, err := readSettings(path)
		if err != nil {
			return err
		}
		*into, inputs = content, append(inputs, path)
		return nil
	}
	if s.Page.Logo != "" {
		if err := read(filepath.Join(filepath.Dir(s.File), filepath.FromSlash(s.Page.Logo)), &opts.Logo); err != nil {
			return opts, nil, fmt.Errorf("%s: logo: %w", s.File, err)
		}
	}
	if f.words != "" {
		if err := read(f.words, &opts.Words); err != nil {
			return opts, nil, err
		}
	}
	return opts, inputs, nil
}
