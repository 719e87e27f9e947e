package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) payCommand() *cobra.Command {
	var p core.Payment
	cmd := &cobra.Command{
		Use: "pay JOB [WHAT AMOUNT]", Short: "Money asked, paid and owed either way; write some down", Args: cobra.RangeArgs(1, 3),
		Long: `WHAT is asked, received or refunded, with a payer; paid out or back, with an outworker or a supplier. The party may be left out where only one can be
meant: the owner of a job that nobody else pays for, or whoever has the outwork or purchase of --for. What payers pay is with tax; what is paid
out is before tax, as outwork and goods are priced. The stages are parts of
the agreed sum; a stage that stays unpaid for 14 days is said.`,
		Example: `  fettle pay J-001
  fettle pay J-001 asked 2460 --stage deposit
  fettle pay J-001 received 2460 --stage deposit --how transfer
  fettle pay J-001 "paid out" 180 --for O-001`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if len(args) == 1 {
					return c.showPay(s, story)
				}
				if len(args) == 2 {
					return core.Errorf(core.Invalid, "write it like: fettle pay "+story.Job.Number+" "+args[1]+" 1200", "how much was %s?", args[1])
				}
				return c.pay(cmd.Context(), s, story, args[1], args[2], p)
			})
		},
	}
	fs := cmd.Flags()
	fs.StringVar(&p.Party, "party", "", "`NAME` of who pays or is paid")
	fs.StringVar(&p.Stage, "stage", "", "the `STAGE`: "+strings.Join(core.Job{}.StageNames(), ", ")+"; those of the job, if it was set up with its own; or another name")
	fs.StringVar(&p.Ref, "for", "", "the `NUMBER` of the outwork or purchase it pays")
	fs.StringVar(&p.How, "how", "", "`HOW` it was paid: transfer, cash, cheque")
	fs.StringVar(&p.Note, "note", "", "`WHAT` else is to be known")
	return cmd
}

func (c *command) pay(ctx context.Context, s *shop, story core.Story, is, sum string, p core.Payment) (err error) {
	p.Is = strings.ToLower(is)
	if p.Sum, err = s.typedAmount("", sum); err != nil {
		return err
	}
	p.Ref = strings.ToUpper(strings.TrimSpace(p.Ref))
	if p.Party, err = payParty(story, p); err != nil {
		return err
	}
	names := story.Job.StageNames()
	if i := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(n, p.Stage) }); i >= 0 {
		p.Stage = names[i]
	}
	story, err = s.book.Act(ctx, story.Job.Number, c.by(), &p)
	if err != nil {
		return err
	}
	return c.showPay(s, story)
}

// payParty is who is meant where nobody is named: nobody asks what the book tells.
func payParty(story core.Story, p core.Payment) (string, error) {
	if p.Party != "" {
		return p.Party, nil
	}
	if o := story.Sent(p.Ref); o != nil {
		return o.To, nil
	}
	if b := story.Bought(p.Ref); b != nil {
		return b.From, nil
	}
	if (p.Is == core.PayAsked || p.Is == core.PayReceived || p.Is == core.PayRefunded) && len(story.Job.Payers) == 0 {
		return story.Job.Owner.Name, nil
	}
	if len(story.Job.Payers) > 0 {
		names := []string{cmp.Or(story.Job.Owner.Name, "the owner")}
		for _, q := range story.Job.Payers {
			names = append(names, q.Party)
		}
		return "", core.Errorf(core.Invalid, "name who with --party: "+strings.Join(names, ", "), "several pay for %s", story.Job.Number)
	}
	return "", nil // the book asks
}

// payerJSON is what one payer pays of what was agreed, and has paid.
type payerJSON struct {
	core.Bill
	Asked    core.Money `json:"asked"`
	Received core.Money `json:"received"` // less what was given back
}

// payJSON is what pay --json prints.
type payJSON struct {
	Job      string         `json:"job"`
	Agreed   core.Money     `json:"agreed"` // with tax, change notes in it
	Stages   []core.Stage   `json:"stages"`
	Payers   []payerJSON    `json:"payers"`
	Account  core.Account   `json:"account"`
	Payments []core.Payment `json:"payments"`
}

func paid(s *shop, story core.Story) payJSON {
	order := story.AgreedOrder()
	v := payJSON{Job: story.Job.Number, Agreed: order.Total, Stages: story.Stages(s.c.clock()), Payers: []payerJSON{}, Account: story.Account(), Payments: orEmpty(story.Payments)}
	for _, b := range billsOf(story, order) {
		got := core.Minor(story.Paid(core.PayReceived, b.Party)) - core.Minor(story.Paid(core.PayRefunded, b.Party))
		v.Payers = append(v.Payers, payerJSON{b, story.Paid(core.PayAsked, b.Party), core.MinorMoney(got, order.Total.CurrencyCode())})
	}
	return v
}

// billsOf are the bills of what was agreed, and empty ones of whoever else pays a share or has paid.
func billsOf(story core.Story, order core.WorkOrder) []core.Bill {
	bills := story.Job.Bills(order, story.Parties)
	none := core.MinorMoney(0, order.Total.CurrencyCode())
	add := func(name string) {
		if !slices.ContainsFunc(bills, func(b core.Bill) bool { return strings.EqualFold(b.Party, name) }) {
			bills = append(bills, core.Bill{Party: name, Net: none, Tax: none, Total: none})
		}
	}
	for _, p := range story.Job.Payers {
		add(p.Party)
	}
	for _, p := range story.Payments {
		if p.Is == core.PayAsked || p.Is == core.PayReceived {
			add(p.Party)
		}
	}
	return bills
}

func (c *command) showPay(s *shop, story core.Story) error {
	v := paid(s, story)
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	if story.Agreed(core.GateBudget) == nil && len(v.Payments) == 0 {
		c.print("Nothing is agreed and nothing paid yet.\n\n  " + c.self() + " pay " + v.Job + " received 500 --stage deposit --how transfer")
		return nil
	}
	fmt.Fprintf(c.out, "agreed with tax, change notes in it: %s\n\n", amount(v.Agreed))
	c.printStages(s, v)
	if len(v.Payers) > 1 || len(v.Payers) == 1 && v.Payers[0].Why != "" {
		fmt.Fprintln(c.out)
		t := newTable("payer", ">before tax", ">tax", ">in all", ">asked", ">paid", "")
		for _, p := range v.Payers {
			t.add(cmp.Or(p.Party, "the owner"), amount(p.Net), amount(p.Tax), amount(p.Total), amount(p.Asked), amount(p.Received), p.Why)
		}
		t.print(c.out, "", screen)
	}
	fmt.Fprintln(c.out)
	c.printAccount(v.Account)
	return nil
}

func (c *command) printStages(s *shop, v payJSON) {
	t := newTable("stage", ">%", ">sum", ">asked", ">paid", "")
	next := ""
	for _, st := range v.Stages {
		says, share := "", ""
		switch {
		case st.Overdue:
			says = "OVERDUE: asked on " + s.day(st.Due) + ", and work stops"
		case !st.Due.IsZero():
			says = "asked on " + s.day(st.Due) + ", due " + s.day(st.Due.Add(core.StageGrace))
		case core.Minor(st.Asked) > 0:
			says = "paid"
		case next == "" && core.Minor(st.Sum) > 0:
			next = fmt.Sprintf("  %s pay %s asked %s --stage %q", c.self(), v.Job, strings.ReplaceAll(amount(st.Sum), " ", ""), st.Name)
		}
		if st.Percent > 0 {
			share = fmt.Sprint(st.Percent)
		}
		name := st.Name
		if name == "" {
			name = "of no stage"
		}
		t.add(name, share, amount(st.Sum), amount(st.Asked), amount(st.Received), says)
	}
	t.print(c.out, "", screen)
	if next != "" {
		fmt.Fprintln(c.out, "\n"+next)
	}
}

// printAccount says what the job has come to and what is owed, either way.
func (c *command) printAccount(a core.Account) {
	t := newTable("", ">", "")
	t.add("come to so far", amount(a.Done), fmt.Sprintf("before tax: labour %s, outwork %s, goods %s", amount(a.Labour), amount(a.Outwork), amount(a.Goods)))
	owing := "asked and not paid"
	if core.Minor(a.Owing) < 0 {
		owing = "paid ahead of what was asked"
	}
	t.add("owed by payers", amount(a.Owing), owing)
	t.add("owed to others", amount(a.ForOthers), "before tax, for goods here and outwork accepted, exchange charges in it")
	if core.Minor(a.Exchange) != 0 {
		t.add("of it exchange", amount(a.Exchange), "comes back with the old units")
	}
	if core.Minor(a.Promised) != 0 {
		t.add("promised", amount(a.Promised), "before tax, ordered and not here yet")
	}
	t.print(c.out, "", screen)
}
