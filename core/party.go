package core

import (
	"fmt"
	"slices"
	"strings"
)

// Party is a person or firm: owner, payer, outworker, supplier, helper. The shop keeps each once, by name.
type Party struct {
	Name    string   `json:"name"`
	Address []string `json:"address,omitempty"`
	Contact string   `json:"contact,omitempty"`
	Roles   []string `json:"roles,omitempty"` // of PartyRoles
	// Standing is what it pays as: owner, insurer, charity, museum, trade ...; nothing else differs between them.
	Standing  string `json:"standing,omitempty"`
	TaxExempt bool   `json:"tax_exempt,omitempty"`
	TaxWhy    string `json:"tax_why,omitempty"` // the ground of the exemption, as printed
	// MayAuthorise is the largest sum, tax included, it may authorise for somebody; nil: no limit is known.
	MayAuthorise *Money `json:"may_authorise,omitempty"`
	// HourRate is what an hour of its own work is charged at; 0 for a volunteer or an owner; nil: the shop's rate of the skill.
	HourRate *Money `json:"hour_rate,omitempty"`
	Note     string `json:"note,omitempty"`
}

// PartyRoles are what a party may be to the shop.
var PartyRoles = []string{"owner", "payer", "outworker", "supplier", "volunteer", "mechanic"}

// Payer is who pays which part of a job.
type Payer struct {
	Party string `json:"party"`
	// Percent of the whole, or of its subsystems; decimal text. "" with subsystems: all of them.
	Percent    string   `json:"percent,omitempty"`
	Subsystems []string `json:"subsystems,omitempty"` // none: of every line
}

// CheckPayers refuses shares that are no percentages, of what is not served, or that come to more than the whole of any subsystem.
func CheckPayers(payers []Payer, subsystems []string) error {
	of := map[string]float64{}
	for _, p := range payers {
		share, err := p.share()
		if err != nil {
			return err
		}
		which := p.Subsystems
		if len(which) == 0 {
			which = subsystems
		}
		for _, s := range which {
			if !slices.Contains(subsystems, s) {
				return Errorf(NotFound, "use one of: "+strings.Join(subsystems, ", "), "no subsystem %q is served", s)
			}
			if of[s] += share; of[s] > 1+1e-9 {
				return Errorf(Conflict, "lower a share", "with %s more than the whole of %s would be paid", p.Party, s)
			}
		}
	}
	return nil
}

func (p Payer) share() (float64, error) {
	if p.Percent == "" {
		return 1, nil
	}
	f, err := ParsePercent(p.Percent)
	return f / 100, err
}

// Bill is what one payer pays of an order.
type Bill struct {
	Party string `json:"party"`
	Net   Money  `json:"before_tax"`
	Tax   Money  `json:"tax"`
	Total Money  `json:"total"`
	Why   string `json:"why,omitempty"` // why no tax is charged
}

// Bills shares an order among the payers and the owner, who pays what is left. Each line is parted to the minor unit: the last to pay takes
// what rounding leaves, so that the bills come to the order's total but for the tax that somebody is exempt from.
func (j Job) Bills(o WorkOrder, parties []Party) []Bill {
	code := o.TotalBeforeTax.CurrencyCode()
	type sums struct{ net, tax int64 }
	order := []string{}
	by := map[string]*sums{}
	add := func(name string, net, tax int64) {
		if by[name] == nil {
			by[name] = &sums{}
			order = append(order, name)
		}
		by[name].net += net
		by[name].tax += tax
	}
	add(j.Owner.Name, 0, 0)
	for _, l := range o.Lines {
		net, tax := Minor(l.Amount), Minor(l.Tax)
		restNet, restTax := net, tax
		for _, p := range j.Payers {
			if len(p.Subsystems) > 0 && !slices.Contains(p.Subsystems, l.Subsystem) {
				continue
			}
			share, err := p.share()
			if err != nil {
				continue
			}
			n, t := round(float64(net)*share), round(float64(tax)*share)
			add(p.Party, n, t)
			restNet, restTax = restNet-n, restTax-t
		}
		add(j.Owner.Name, restNet, restTax)
	}
	var bills []Bill
	for _, name := range order {
		b := Bill{Party: name, Net: MinorMoney(by[name].net, code)}
		tax := by[name].tax
		if i := slices.IndexFunc(parties, func(p Party) bool { return strings.EqualFold(p.Name, name) }); i >= 0 && parties[i].TaxExempt {
			tax, b.Why = 0, strings.TrimSpace(fmt.Sprintf("pays no tax: %s", parties[i].TaxWhy))
		}
		b.Tax, b.Total = MinorMoney(tax, code), MinorMoney(by[name].net+tax, code)
		bills = append(bills, b)
	}
	return bills
}
