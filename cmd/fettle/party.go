package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) partyCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "party", Short: "People and firms, each kept once: owners, payers, outworkers, suppliers, helpers",
		Example: "  fettle party list\n  fettle party set \"Tern Lane Grinding\" --role outworker --contact \"telephone 2277\""}
	cmd.AddCommand(c.partyListCommand(), c.partySetCommand(), c.partyUndoCommand())
	return cmd
}

func (c *command) partyListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "All parties, with what each may authorise", Args: cobra.NoArgs, Example: "  fettle party list --json",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				parties, err := s.book.Parties(cmd.Context())
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, parties)
				}
				t := newTable("name", "is", "may authorise", "an hour", "reached at")
				for _, p := range parties {
					is := append(slices.Clone(p.Roles), p.Standing)
					if p.TaxExempt {
						is = append(is, strings.TrimSpace("pays no tax "+parens(p.TaxWhy)))
					}
					t.add(p.Name, strings.Trim(strings.Join(is, ", "), ", "), sumOf(p.MayAuthorise), sumOf(p.HourRate), p.Contact)
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
}

func sumOf(m *core.Money) string {
	if m == nil {
		return ""
	}
	return amount(*m)
}

func (c *command) partySetCommand() *cobra.Command {
	var p core.Party
	var may, hour string
	cmd := &cobra.Command{
		Use: "set NAME", Short: "Keep a party, or change what is known of one", Args: cobra.ExactArgs(1),
		Long: `Only what is given changes. An owner's own labour and a volunteer's are kept as hours at --hour 0, or at what they charge. An insurer, a charity or a
museum pays like anybody: only its --standing differs, and whether it pays tax.`,
		Example: `  fettle party set "Marta Wellbeck" --role owner --hour 0
  fettle party set "Moorside Mutual" --role payer --standing insurer --may 6000`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				parties, err := s.book.Parties(cmd.Context())
				if err != nil {
					return err
				}
				now := core.Party{Name: args[0]}
				if i := slices.IndexFunc(parties, func(q core.Party) bool { return strings.EqualFold(q.Name, args[0]) }); i >= 0 {
					now = parties[i]
				}
				given := cmd.Flags().Changed
				put(given("role"), &now.Roles, p.Roles)
				put(given("address"), &now.Address, p.Address)
				put(given("contact"), &now.Contact, p.Contact)
				put(given("standing"), &now.Standing, p.Standing)
				put(given("note"), &now.Note, p.Note)
				if given("no-tax") {
					now.TaxExempt, now.TaxWhy = p.TaxWhy != "-", strings.TrimPrefix(p.TaxWhy, "-")
				}
				if now.MayAuthorise, err = s.sum("may", given("may"), now.MayAuthorise, may); err != nil {
					return err
				}
				if now.HourRate, err = s.sum("hour", given("hour"), now.HourRate, hour); err != nil {
					return err
				}
				if err := s.book.SetParty(cmd.Context(), c.by(), now); err != nil {
					return err
				}
				return c.report(now, now.Name+": noted")
			})
		},
	}
	f := cmd.Flags()
	f.StringSliceVar(&p.Roles, "role", nil, "`WHAT` it is to the shop: "+strings.Join(core.PartyRoles, ", "))
	f.StringArrayVar(&p.Address, "address", nil, "a `LINE` of the address; may be given several times")
	f.StringVar(&p.Contact, "contact", "", "`HOW` it is reached")
	f.StringVar(&p.Standing, "standing", "", "`WHAT` it pays as: owner, insurer, charity, museum, trade")
	f.StringVar(&p.TaxWhy, "no-tax", "", "it pays no tax, and on what `GROUND`; a dash: it does")
	f.StringVar(&may, "may", "", "the largest `SUM`, tax included, it may authorise; a dash: no limit")
	f.StringVar(&hour, "hour", "", "`WHAT` an hour of its own work is charged at; 0: nothing; a dash: the shop's rate")
	f.StringVar(&p.Note, "note", "", "`WHAT` else is to be known")
	return cmd
}

func put[T any](given bool, to *T, from T) {
	if given {
		*to = from
	}
}

// sum reads an amount in the shop's currency that may be changed; a dash is none.
func (s *shop) sum(flag string, given bool, now *core.Money, text string) (*core.Money, error) {
	if !given {
		return now, nil
	}
	if strings.TrimSpace(text) == "-" {
		return nil, nil
	}
	return s.typedAmountOr(flag, text)
}

func (c *command) jobPayerCommand() *cobra.Command {
	var payer core.Payer
	cmd := &cobra.Command{
		Use: "payer JOB NAME", Short: "Let somebody pay a share of a job, or some of its subsystems; --share - takes them out", Args: cobra.ExactArgs(2),
		Long:    "What nobody else pays, the owner does. Whether a payer pays tax is kept with the party.",
		Example: "  fettle job payer J-001 \"Moorside Mutual\" --for body,frame --share 50",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.book.Job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				payer.Party = args[1]
				payers := slices.DeleteFunc(slices.Clone(job.Payers), func(p core.Payer) bool { return strings.EqualFold(p.Party, payer.Party) })
				if payer.Percent != "-" {
					payers = append(payers, payer)
				}
				if err := core.CheckPayers(payers, s.names); err != nil {
					return err
				}
				return c.changed(cmd.Context(), s, job.Number, store.Change{Payers: append([]core.Payer{}, payers...)})
			})
		},
	}
	cmd.Flags().StringVar(&payer.Percent, "share", "", "the `PERCENT` paid; 100 if left out")
	cmd.Flags().StringSliceVar(&payer.Subsystems, "for", nil, "the `SUBSYSTEMS` paid for; all if left out")
	return cmd
}

func (c *command) jobSpeakerCommand() *cobra.Command {
	var out bool
	cmd := &cobra.Command{
		Use: "speaker JOB NAME", Short: "Name who may speak for the owner; --out takes the name off again", Args: cobra.ExactArgs(2),
		Long:    "Up to which sum is kept with the party: fettle party set NAME --may SUM.",
		Example: "  fettle job speaker J-001 \"Ned Wellbeck\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				job, err := s.book.Job(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				names := slices.DeleteFunc(append([]string{}, job.Speakers...), func(n string) bool { return strings.EqualFold(n, args[1]) })
				if !out {
					names = append(names, args[1])
				}
				return c.changed(cmd.Context(), s, job.Number, store.Change{Speakers: names})
			})
		},
	}
	cmd.Flags().BoolVar(&out, "out", false, "take the name off")
	return cmd
}

func (c *command) jobLabourCommand() *cobra.Command {
	var who, hour string
	cmd := &cobra.Command{
		Use: "labour JOB SUBSYSTEM", Short: "Let the owner or a volunteer do the work of a subsystem, at their own charge", Args: cobra.ExactArgs(2),
		Long:    "The hours stay in the plan and the build sheet; they are charged at --hour, 0 for nothing. --who - gives the work back to the shop.",
		Example: "  fettle job labour J-001 body --who \"Marta Wellbeck\" --hour 0",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				if !slices.Contains(s.names, args[1]) {
					return core.Errorf(core.NotFound, "use one of: "+strings.Join(s.names, ", "), "no subsystem %q is served", args[1])
				}
				l := core.Labour{Subsystem: args[1], Who: strings.TrimPrefix(who, "-")}
				var err error
				if l.Hour, err = s.typedAmount("hour", hour); err != nil {
					return err
				}
				if who == "" {
					return core.Errorf(core.Invalid, "name them: --who NAME", "whose labour is it?")
				}
				return c.changed(cmd.Context(), s, args[0], store.Change{Labour: []core.Labour{l}})
			})
		},
	}
	cmd.Flags().StringVar(&who, "who", "", "`NAME` of who does it")
	cmd.Flags().StringVar(&hour, "hour", "0", "`WHAT` an hour is charged at")
	return cmd
}
