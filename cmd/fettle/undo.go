package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) undoCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use: "undo JOB", Short: "Take back what was last written down; nothing is erased", Args: cobra.ExactArgs(1),
		Long: "One line of findings, one import or one change is taken back at a time. --redo brings back what the last undo took.\n" +
			"Issued papers stay as they are.",
		Example: "  fettle undo J-001\n  fettle undo J-001 --redo",
	}
	c.undoes(cmd, func(args []string) string { return args[0] })
	return cmd
}

func (c *command) priceUndoCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use: "undo", Short: "Take back the last price or price file; nothing is erased", Args: cobra.NoArgs, Example: "  fettle price undo\n  fettle price undo --redo",
	}
	c.undoes(cmd, func([]string) string { return "" }, store.KindPrice)
	return cmd
}

func (c *command) partyUndoCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use: "undo", Short: "Take back what was last written of a party; nothing is erased", Args: cobra.NoArgs, Example: "  fettle party undo\n  fettle party undo --redo",
	}
	c.undoes(cmd, func([]string) string { return "" }, store.KindParty)
	return cmd
}

// undoes makes a command take back and bring back: in a job, or in the shop's own entries if the job is "", of the kinds named or of all.
func (c *command) undoes(cmd *cobra.Command, job func(args []string) string, kinds ...string) {
	again := cmd.Flags().Bool("redo", false, "bring back what the last undo took")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		return c.withShop(cmd.Context(), func(s *shop) error {
			act, word := s.book.Undo, "taken back: "
			if *again {
				act, word = s.book.Redo, "brought back: "
			}
			u, err := act(cmd.Context(), job(args), c.by(), kinds...)
			if err != nil {
				return err
			}
			if c.asJSON() {
				return writeJSON(c.out, undoneJSON{strings.TrimSuffix(word, ": "), u.Words(), u.By, u.At, u.Entries})
			}
			c.print(word + u.Words())
			printUndone(c.out, u)
			return nil
		})
	}
}

// undoneJSON is what undo --json prints.
type undoneJSON struct {
	Done    string        `json:"done"` // taken back, or brought back
	What    string        `json:"what"`
	By      string        `json:"by"` // who had added it
	At      time.Time     `json:"at"` // when; UTC
	Entries []store.Entry `json:"entries"`
}

// undoneShown is how many of the entries taken back are named; of a file the rest is a number.
const undoneShown = 5

// printUndone says which findings, prices, parties or numbered things they were, so that nobody has to look them up.
func printUndone(w io.Writer, u store.Undone) {
	for i, e := range u.Entries {
		if i == undoneShown {
			fmt.Fprintf(w, "  and %d more\n", len(u.Entries)-i)
			return
		}
		var f core.Finding
		var p core.PriceEntry
		switch {
		case e.Kind == store.KindFinding && json.Unmarshal(e.Body, &f) == nil:
			fmt.Fprintf(w, "  %s  %s  %s\n", f.Place(), strings.TrimSpace(f.Check+" "+f.Station), f.Value)
		case e.Kind == store.KindPrice && json.Unmarshal(e.Body, &p) == nil:
			fmt.Fprintf(w, "  %s  %s, %s, %s %s  %s\n", p.Item, p.Price.Low, p.Price.Likely, p.Price.High, p.Price.Currency, p.Supplier)
		case e.Kind == store.KindParty:
			var q core.Party
			if json.Unmarshal(e.Body, &q) == nil {
				fmt.Fprintf(w, "  %s\n", q.Name)
			}
		case core.IsAct(e.Kind):
			if a, err := core.DecodeAct(e.Kind, e.Body); err == nil {
				if n, ok := a.(core.Numbering); ok {
					fmt.Fprintf(w, "  %s\n", n.Number())
				}
			}
		}
	}
}
