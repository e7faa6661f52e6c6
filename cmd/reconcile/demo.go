package main

import (
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"

	"github.com/spf13/cobra"

	"example.com/seatline/examples/shop"
	"example.com/seatline/reconcile"
)

func newDemo(s streams) *cobra.Command {
	var f catalogueFlags
	var out string
	cmd := &cobra.Command{
		Use:   "demo [--out DIR]",
		Short: "write an invented shop's sheets and run everything on them",
		Long: `demo writes the sheets of an invented shop and its invented suppliers into DIR/sheets, decides every head against
every ferrule, and writes the results into DIR. Open DIR/matrix.xlsx first.`,
		Example: `  reconcile demo
  reconcile demo --out here --units in`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return s.demo(f, out) },
	}
	cmd.Flags().StringVar(&out, "out", "seatline-demo", "the folder to write into; it is made if need be")
	f.addOutput(cmd)
	return cmd
}

func (s streams) demo(f catalogueFlags, out string) error {
	sheets := filepath.Join(out, "sheets")
	names, err := fs.Glob(shop.Files(), "*")
	if err != nil {
		return err
	}
	var outputs []reconcile.Output
	for _, name := range names {
		outputs = append(outputs, reconcile.Output{Name: path.Base(name), Write: func(w io.Writer) error {
			content, err := fs.ReadFile(shop.Files(), name)
			if err != nil {
				return err
			}
			_, err = w.Write(content)
			return err
		}})
	}
	if _, err := s.writeAll(sheets, outputs, nil); err != nil {
		return err
	}
	f.heads = within(sheets, shop.Heads())
	f.ferrules = within(sheets, shop.Ferrules())
	f.tips = within(sheets, shop.Tips())
	f.shop = filepath.Join(sheets, shop.Settings)
	if !f.json {
		fmt.Fprintf(s.out, "%s  the sheets as the suppliers sent them\n\n", sheets)
	}
	return s.matrix(f, out, false)
}

func within(dir string, names []string) []string {
	paths := make([]string, len(names))
	for i, name := range names {
		paths[i] = filepath.Join(dir, name)
	}
	return paths
}
