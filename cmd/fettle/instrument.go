package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) instrumentCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "instrument", Short: "What is measured with, how far it may be off, and when its zero was last looked at",
		Example: "  fettle instrument list\n  fettle instrument zero micrometer"}
	cmd.AddCommand(c.instrumentListCommand(), c.instrumentZeroCommand(), c.instrumentUndoCommand())
	return cmd
}

// instrumentJSON is what instrument list --json prints of one.
type instrumentJSON struct {
	core.Instrument
	Zero *core.ZeroCheck `json:"zero,omitempty"` // the last look at it
}

// zeroed are the shop's instruments, each with the last look at its zero.
func (s *shop) zeroed(ctx context.Context) ([]instrumentJSON, error) {
	list, err := s.instruments()
	if err != nil {
		return nil, err
	}
	last, err := s.book.ZeroChecks(ctx)
	if err != nil {
		return nil, err
	}
	out := []instrumentJSON{}
	for _, i := range list {
		x := instrumentJSON{Instrument: i}
		if k := slices.IndexFunc(last, func(z core.ZeroCheck) bool { return strings.EqualFold(z.Instrument, i.Name) }); k >= 0 {
			x.Zero = &last[k]
		}
		out = append(out, x)
	}
	return out, nil
}

// checkZero writes down a look at an instrument's zero. id is one that was made elsewhere, or "".
func (s *shop) checkZero(ctx context.Context, id, by string, z core.ZeroCheck) (core.ZeroCheck, error) {
	list, err := s.instruments()
	if err != nil {
		return z, err
	}
	if z, err = z.Check(list); err != nil {
		return z, err
	}
	return z, s.book.CheckZero(ctx, id, by, z)
}

func (c *command) instrumentListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "The shop's instruments", Args: cobra.NoArgs, Example: "  fettle instrument list",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				list, err := s.zeroed(cmd.Context())
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, list)
				}
				t := newTable("instrument", "reads in", "may be off by", "zero looked at", "")
				for _, i := range list {
					when, off := "never", ""
					if i.Zero != nil {
						when, off = i.Zero.At.In(s.settings().Zone).Format("2 January 2006 15:04"), i.Zero.Off
					}
					t.add(i.Name, i.Unit, fmt.Sprintf("%s %s", core.FormatNumber(i.Bound), i.BoundUnit), when, off)
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
}

func (c *command) instrumentZeroCommand() *cobra.Command {
	var z core.ZeroCheck
	cmd := &cobra.Command{
		Use: "zero NAME", Short: "Write down that an instrument's zero was looked at", Args: cobra.ExactArgs(1),
		Long:    "What it is off by is kept beside it, for whoever reads a figure again later; it corrects no reading.",
		Example: "  fettle instrument zero micrometer --by Jory\n  fettle instrument zero \"dial gauge\" --off \"+.0002 in\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				z.Instrument = args[0]
				z, err := s.checkZero(cmd.Context(), "", c.by(), z)
				if err != nil {
					return err
				}
				off := "on zero"
				if z.Off != "" {
					off = z.Off + " off"
				}
				return c.report(z, z.Instrument+": "+off)
			})
		},
	}
	cmd.Flags().StringVar(&z.Off, "off", "", "what it `READS` closed, or on its standard, if not zero")
	return cmd
}

func (c *command) instrumentUndoCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "undo", Short: "Take back the last look at a zero", Args: cobra.NoArgs, Example: "  fettle instrument undo"}
	c.undoes(cmd, func([]string) string { return "" }, store.KindZero)
	return cmd
}
