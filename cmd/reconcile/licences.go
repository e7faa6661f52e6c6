package main

import (
	"github.com/spf13/cobra"

	"example.com/seatline/cmd/reconcile/internal/licence"
)

func newLicences(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "licences",
		Short: "the licences of what this program contains of others",
		Long: `licences prints the licence of each library and font that is part of this program. Whoever passes the program on passes
these texts on with it.`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return licence.Write(s.out) },
	}
}
