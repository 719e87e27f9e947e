package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// pricesPage is the price book, with what a job's money rests on that nobody has asked.
type pricesPage struct {
	frame
	Currency  string
	Query     string // words that stand in every row shown
	Rows      []priceRow
	Any       bool       // there are prices
	More      int        // rows that are not shown
	Jobs      []core.Job // whose money may rest on prices that nobody has asked; none while one of them is shown
	Asked     *core.Job
	Unasked   []Unasked
	Suppliers []string
	Items     []offered // to choose from
	Faults    []told
	Odd       string // what is odd about the price that was written down last
	Back      string // what was taken back, or brought back, just now
	Again     bool   // it was brought back
	Open      bool   // the form is
	Form      core.PriceEntry
	Weeks     string
}

// priceRow is one price, and whether it was asked too long ago.
type priceRow struct {
	core.PriceEntry
	Old bool
}

// Figures are the price in words: "300", or "240, 390, 700".
func (p priceRow) Figures() string {
	if p.Price.Low == p.Price.Likely && p.Price.High == p.Price.Likely {
		return p.Price.Likely
	}
	return strings.Join([]string{p.Price.Low, p.Price.Likely, p.Price.High}, ", ")
}

// mostPrices is how many rows are shown at once.
const mostPrices = 100

// Kinds are those of supply.
func (pricesPage) Kinds() []string { return core.PriceKinds }

func (s *Server) showPrices(w http.ResponseWriter, r *http.Request) error {
	p := pricesPage{Odd: r.FormValue("odd"), Back: r.FormValue("back"), Again: r.FormValue("again") != "", Form: core.PriceEntry{Item: r.FormValue("item"), Kind: core.PriceKinds[0]}, Open: r.FormValue("item") != ""}
	return s.prices(w, r, http.StatusOK, p)
}

func (s *Server) prices(w http.ResponseWriter, r *http.Request, status int, p pricesPage) error {
	ctx := r.Context()
	p.frame, p.Currency, p.Query = s.frame(r, "Prices"), s.Office.House().Currency, strings.TrimSpace(r.URL.Query().Get("q"))
	prices, err := s.Office.Prices(ctx)
	if err != nil {
		return err
	}
	p.Any = len(prices) > 0
	items := s.Office.Priced(ctx)
	p.Items = offers(items)
	names := map[string]string{}
	for _, it := range items {
		names[it.Key] += it.Name + " "
	}
	seen := map[string]bool{}
	for _, x := range prices {
		if x.Supplier != "" && !seen[x.Supplier] {
			seen[x.Supplier] = true
			p.Suppliers = append(p.Suppliers, x.Supplier)
		}
		if !hasWords(p.Query, x.Item, names[x.Item], x.Supplier, x.Kind, x.Note) {
			continue
		}
		if len(p.Rows) == mostPrices {
			p.More++
			continue
		}
		p.Rows = append(p.Rows, priceRow{x, s.old(x)})
	}
	if number := r.URL.Query().Get("job"); number != "" {
		story, err := s.Stories.Story(ctx, number)
		if err != nil {
			return err
		}
		p.Asked = &story.Job
		if p.Unasked, err = s.Office.Unasked(ctx, number); err != nil {
			return err
		}
	} else if p.Query == "" {
		stories, err := s.Stories.Stories(ctx)
		if err != nil {
			return err
		}
		for _, st := range stories {
			if st.Job.State != core.StateHandedOver {
				p.Jobs = append(p.Jobs, st.Job)
			}
		}
	}
	return s.show(w, status, "prices", p)
}

// hasWords reports that every word of a query stands somewhere in the texts.
func hasWords(query string, texts ...string) bool {
	all := strings.ToLower(strings.Join(texts, " "))
	for _, w := range strings.Fields(strings.ToLower(query)) {
		if !strings.Contains(all, w) {
			return false
		}
	}
	return true
}

// setPrice writes a price down, or asks again with what was typed.
func (s *Server) setPrice(w http.ResponseWriter, r *http.Request) error {
	f := core.PriceEntry{Item: typed(r, "item"), Supplier: typed(r, "from"), Kind: typed(r, "kind"), Exchange: typed(r, "exchange"), Note: typed(r, "note"),
		Price: core.Money3{Low: typed(r, "low"), Likely: typed(r, "likely"), High: typed(r, "high")}}
	weeks := typed(r, "weeks")
	var err error
	if weeks != "" {
		if f.LeadWeeks.Likely, err = strconv.ParseFloat(weeks, 64); err != nil || f.LeadWeeks.Likely < 0 || f.LeadWeeks.Likely > 1000 {
			err = core.Errorf(core.Invalid, "write them in figures, like 3 or 1.5", "“%s” are no weeks", weeks)
		}
	}
	item, odd := "", ""
	if err == nil {
		item, odd, err = s.Office.SetPrice(r.Context(), s.by(r), f)
	}
	switch core.ErrorCode(err) {
	case "":
		v := url.Values{"q": {item}}
		if odd != "" {
			v.Set("odd", odd)
		}
		http.Redirect(w, r, "/shop/prices?"+v.Encode(), http.StatusSeeOther)
		return nil
	case core.Invalid:
		return s.prices(w, r, http.StatusUnprocessableEntity, pricesPage{Faults: faultsOf(err), Form: f, Weeks: weeks, Open: true})
	}
	return err
}

// undoPrice takes the last price back, or brings it back.
func (s *Server) undoPrice(w http.ResponseWriter, r *http.Request) error {
	again := typed(r, "again") != ""
	what, err := s.Office.UndoPrice(r.Context(), s.by(r), again)
	if err != nil && wrong(err) {
		return s.prices(w, r, statuses[core.ErrorCode(err)], pricesPage{Faults: faultsOf(err), Form: core.PriceEntry{Kind: core.PriceKinds[0]}})
	}
	if err != nil {
		return err
	}
	v := url.Values{"back": {what}}
	if again {
		v.Set("again", "1")
	}
	http.Redirect(w, r, "/shop/prices?"+v.Encode(), http.StatusSeeOther)
	return nil
}
