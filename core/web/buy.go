package web

import (
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Buying is an order of goods as it is typed. What is blank is the plan's and the price book's.
type Buying struct {
	For        []string // lines of the order
	Item, From string
	Count      string
	Price      string // of all of it, before tax
	Exchange   string // charge until the old unit is back
	Due        string // a day, or "3 weeks"
}

// toBuyPage lists what is to be bought, by supplier.
type toBuyPage struct {
	frame
	Suppliers []buyGroup
}

// buyGroup is what is bought from one supplier; "": nobody was asked yet, and the prices are typical.
type buyGroup struct {
	Supplier string
	Items    []core.WantedItem
}

func (s *Server) showToBuy(w http.ResponseWriter, r *http.Request) error {
	story, plan, err := s.order(r)
	if err != nil {
		return err
	}
	p := toBuyPage{frame: s.jobFrame(r, "Out and in", &story.Job)}
	p.Title = "What to buy, " + story.Job.Number
	for _, x := range core.ByItem(story.ToBuy(plan)) {
		i := slices.IndexFunc(p.Suppliers, func(g buyGroup) bool { return g.Supplier == x.Supplier })
		if i < 0 {
			i = len(p.Suppliers)
			p.Suppliers = append(p.Suppliers, buyGroup{Supplier: x.Supplier})
		}
		p.Suppliers[i].Items = append(p.Suppliers[i].Items, x)
	}
	return s.show(w, http.StatusOK, "to-buy", p)
}

// buyPage takes an order of goods down.
type buyPage struct {
	frame
	Faults []told
	Item   core.WantedItem
	Names  []string // of the lines it is for
	Known  []string // parties
	Typed  Buying
}

func (s *Server) showBuy(w http.ResponseWriter, r *http.Request) error {
	return s.buyForm(w, r, http.StatusOK, Buying{Item: r.FormValue("item"), From: r.FormValue("from")}, nil)
}

// buy orders goods, or shows the form again with what is wrong.
func (s *Server) buy(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	t := Buying{For: r.PostForm["for"], Item: text("item"), From: text("from"), Count: text("count"), Price: text("price"), Exchange: text("exchange"), Due: text("due")}
	number, err := s.Outgoing.Buy(r.Context(), r.PathValue("job"), s.byWhom(r), t)
	if err != nil && wrong(err) {
		return s.buyForm(w, r, statuses[core.ErrorCode(err)], t, err)
	}
	return toOrder(w, r, number, err)
}

func (s *Server) buyForm(w http.ResponseWriter, r *http.Request, status int, typed Buying, fault error) error {
	story, plan, err := s.order(r)
	if err != nil {
		return err
	}
	p := buyPage{frame: s.jobFrame(r, "Out and in", &story.Job), Typed: typed}
	p.Title = "Order goods, " + story.Job.Number
	if fault != nil {
		p.Faults = faultsOf(fault)
	}
	wanted := core.ByItem(story.ToBuy(plan))
	i := slices.IndexFunc(wanted, func(x core.WantedItem) bool { return x.Key == typed.Item && x.NotAuthorised == "" })
	if i < 0 {
		i = slices.IndexFunc(wanted, func(x core.WantedItem) bool { return x.Key == typed.Item })
	}
	if i < 0 {
		return core.Errorf(core.NotFound, "choose one of those to buy", "nothing that is to be bought is called %q", typed.Item)
	}
	p.Item = wanted[i]
	for _, l := range plan.WorkOrder.Lines {
		if slices.Contains(p.Item.Lines, l.ID) {
			p.Names = append(p.Names, l.Name)
		}
	}
	for _, q := range story.Parties {
		p.Known = append(p.Known, q.Name)
	}
	return s.show(w, status, "buy", p)
}

// purchasePage shows an order of goods, and takes down what became of it.
type purchasePage struct {
	frame
	Faults   []told
	Purchase core.Purchase
	Late     bool
	Typed    core.Delivery
}

// Next are the states that it may come to.
func (p purchasePage) Next() []string {
	if p.Job.State == core.StateHandedOver {
		return nil
	}
	return p.Purchase.Next()
}

// delivered takes down what became of an order, or shows it again with what is wrong.
func (s *Server) delivered(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	d := core.Delivery{Purchase: strings.ToUpper(r.PathValue("number")), State: text("do"), Why: text("why"), Lies: text("lies")}
	if d.State == "exchange back" && s.visitor(r).Role < Owner {
		return s.refuse(w, r, Owner) // it moves money
	}
	if b := story.Bought(d.Purchase); b != nil && d.State == "exchange back" {
		d.State, d.ExchangeBack = b.State, true
	}
	if err := s.Outgoing.Delivered(r.Context(), story.Job.Number, s.byWhom(r), d); err != nil {
		if !wrong(err) {
			return err
		}
		return s.outOne(w, r, statuses[core.ErrorCode(err)], Receiving{}, d, err)
	}
	http.Redirect(w, r, "/jobs/"+story.Job.Number+"/out/"+d.Purchase, http.StatusSeeOther)
	return nil
}
