package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// gateWords are the gates as they may be typed. A change is agreed to by answering its note.
var gateWords = map[string]string{"strip": core.GateStrip, core.GateStrip: core.GateStrip, "budget": core.GateBudget, core.GateBudget: core.GateBudget,
	"finish": core.GateFinish, core.GateFinish: core.GateFinish, core.GateChange: core.GateChange}

func (c *command) agreeCommand() *cobra.Command {
	var a core.Agreement
	var sum string
	cmd := &cobra.Command{
		Use: "agree JOB [strip|budget|finish]", Short: "Who agreed to what, how, up to which sum; or what each gate still needs", Args: cobra.RangeArgs(1, 2),
		Long: `The sum is what is authorised, tax included: beyond it the shop asks. The main budget is an answer to the scope issued last, unless --paper and
--revision say which; an offer that has ended is issued again first. What the owner refuses is named with --refuse: a part, or a line of the scope.
A change is agreed to by answering its note: fettle change.`,
		Example: `  fettle agree J-001
  fettle agree J-001 strip --who "Marta Wellbeck" --how phone --sum 2500
  fettle agree J-001 budget --who "Marta Wellbeck" --how signed --sum 118000 --refuse gearbox/interlock`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if len(args) == 1 {
					return c.showAgreed(s, story)
				}
				err := s.agreement(story, args[1], sum, &a)
				if err != nil {
					return err
				}
				if story, err = s.book.Act(cmd.Context(), story.Job.Number, c.by(), &a); err != nil {
					return err
				}
				return c.showAgreed(s, story)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&a.Who, "who", "", "`NAME` of who agreed: the owner, a payer, or one who may speak for the owner")
	f.StringVar(&a.How, "how", "", "`HOW`: "+strings.Join(core.Ways, ", "))
	f.StringVar(&sum, "sum", "", "`AMOUNT` authorised, tax included")
	f.StringVar(&a.Capacity, "capacity", "", "`WHAT` they agreed as: owner, agent, insurer ...")
	f.StringVar(&a.Paper, "paper", "", "`NUMBER` of the scope agreed to; the last issued if left out")
	f.IntVar(&a.Revision, "revision", 0, "its `REVISION`")
	f.StringSliceVar(&a.Refused, "refuse", nil, "a `PART` or line of the scope that was refused; may be repeated")
	f.StringVar(&a.Words, "words", "", "the `WORDS` used, or what was chosen")
	return cmd
}

// agreement fills an agreement from what was typed and what the book knows, or tells all that is wrong with it.
func (s *shop) agreement(story core.Story, gate, sum string, a *core.Agreement) (err error) {
	var wrong faults
	if a.Sum, err = s.typedAmount("sum", sum); err != nil {
		wrong, a.Sum = append(wrong, err), core.MinorMoney(1, s.settings().Currency) // what is no amount is not told as none besides
	}
	err = s.agreeTo(story, gate, a)
	var several faults
	switch {
	case errors.As(err, &several):
		wrong = append(wrong, several...)
	case err != nil:
		return append(wrong, err)
	}
	return append(wrong, a.Faults(&story)...).orNil()
}

// agreeTo fills an agreement from what the book knows: the paper meant, and the full names of what is refused.
func (s *shop) agreeTo(story core.Story, gate string, a *core.Agreement) error {
	if a.Gate = gateWords[strings.ToLower(gate)]; a.Gate == "" {
		return core.Errorf(core.Invalid, "use one of: strip, budget, finish", "%q is no gate", gate)
	}
	if a.Gate != core.GateBudget {
		if len(a.Refused) > 0 || a.Paper != "" {
			return core.Errorf(core.Invalid, "leave --refuse and --paper out", "the %s answers no scope", a.Gate)
		}
		return nil
	}
	last := story.LastScope()
	if last == nil {
		return core.Errorf(core.Conflict, "issue it: fettle scope "+story.Job.Number+" --issue", "no scope of %s is issued that could be agreed to", story.Job.Number)
	}
	if a.Paper == "" {
		a.Paper = last.Number
	}
	p := story.Issued(a.Paper, a.Revision)
	if p == nil {
		return nil // the book says which it has not
	}
	a.Revision = p.Revision
	if p.Expired(s.c.clock()) {
		return core.Errorf(core.Conflict, "issue it again: fettle scope "+story.Job.Number+" --issue", "%s revision %d held until %s", p.Number, p.Revision, p.ValidUntil.Format("2 January 2006"))
	}
	var refused []string
	var wrong faults
	for _, name := range a.Refused {
		places, err := p.Places(strings.TrimSpace(name))
		if err != nil {
			wrong = append(wrong, err)
		}
		refused = append(refused, places...)
	}
	a.Refused = refused
	return wrong.orNil()
}

// agreedJSON is what agree --json prints.
type agreedJSON struct {
	Job             string           `json:"job"`
	State           string           `json:"state"`
	Gates           []gateJSON       `json:"gates"`
	Agreements      []core.Agreement `json:"agreements"`
	Authorised      core.Money       `json:"authorised"`
	Committed       core.Money       `json:"committed"` // with tax
	Left            core.Money       `json:"left"`
	Contingency     core.Money       `json:"contingency"`
	ContingencyLeft core.Money       `json:"contingency_left"`
	Refused         []string         `json:"refused"`
	Trailer         []string         `json:"trailer"` // safety matters left undone: it leaves on one
}

type gateJSON struct {
	core.GateStanding
	Needs string `json:"needs,omitempty"`
}

func (c *command) showAgreed(s *shop, story core.Story) error {
	v := agreedJSON{Job: story.Job.Number, State: story.Job.State, Agreements: orEmpty(story.Agreements), Authorised: story.Authorised(), Committed: story.Committed(),
		Left: story.Left(), Refused: []string{}, Trailer: orEmpty(story.Trailer())}
	v.Contingency, v.ContingencyLeft = story.Contingency()
	for _, g := range story.Gates() {
		v.Gates = append(v.Gates, gateJSON{g, story.Needs(g.Gate, c.clock())})
	}
	if a := story.Agreed(core.GateBudget); a != nil {
		v.Refused = orEmpty(a.Refused)
	}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	printAgreed(c.out, s, v)
	if story.Job.State == core.StateAgreed {
		c.print(fmt.Sprintf("\n  %[1]s buy %[2]s     what to order\n  %[1]s send %[2]s    what goes out", c.self(), v.Job))
	}
	return nil
}

func printAgreed(w io.Writer, s *shop, v agreedJSON) {
	t := newTable("", "")
	for _, g := range v.Gates {
		t.add(g.Gate, g.Is)
		if g.Needs != "" {
			t.add("", "needs "+g.Needs)
		}
	}
	t.print(w, "", screen)
	if len(v.Agreements) == 0 {
		return
	}
	fmt.Fprintln(w)
	t = newTable("agreed", "to", "by", "how", ">up to", "")
	for _, a := range v.Agreements {
		paper := ""
		if a.Paper != "" {
			paper = fmt.Sprintf("%s revision %d", a.Paper, a.Revision)
		}
		sum := ""
		if core.Minor(a.Sum) > 0 {
			sum = amount(a.Sum)
		}
		who := strings.TrimSpace(a.Who + " " + parens(a.Capacity))
		t.add(s.day(a.At), a.Gate, who, a.How, sum, strings.Join(slices.DeleteFunc([]string{paper, a.Words}, func(x string) bool { return x == "" }), "; "))
	}
	t.print(w, "", screen)
	fmt.Fprintln(w)
	t = newTable("", ">", "")
	t.add("authorised", amount(v.Authorised), "with tax; change notes approved since are in it")
	t.add("spent or promised", amount(v.Committed), "with tax, as the scope reckons it")
	t.add("left", amount(v.Left), "")
	if core.Minor(v.Contingency) > 0 {
		t.add("contingency left", amount(v.ContingencyLeft), "of "+amount(v.Contingency)+", before tax; drawn by change note alone")
	}
	t.print(w, "", screen)
	for _, r := range v.Refused {
		para(w, "", "refused: "+r)
	}
	for _, left := range v.Trailer {
		para(w, "", trailerWords(left))
	}
}
