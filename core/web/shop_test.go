package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// officeActs is what was written down of the shop.
type officeActs struct {
	parties []core.Party
	prices  []core.PriceEntry
	zeros   []core.ZeroCheck
	figures []Figures
	faulty  error
	undone  []bool
}

func (s *shop) House() House {
	return House{File: "fettle.yaml", Currency: "USD", Rates: []core.Rate{{Skill: "mechanic", Hour: core.MinorMoney(8500, "USD")}}, Taxes: []core.Tax{{Class: "parts", Percent: "8.25", Name: "Sales tax"}}, ValidDays: 30, People: 2, WeeklyHours: 45.5, Faulty: s.faulty}
}
func (s *shop) Skills(context.Context) []string { return []string{"mechanic", "welder"} }
func (s *shop) SetFigures(_ context.Context, _ string, f Figures) error {
	if f.People == "some" {
		return core.Errorf(core.Invalid, "write a number", "%q is not how many", f.People)
	}
	s.figures = append(s.figures, f)
	return nil
}

func (s *shop) UndoPrice(_ context.Context, _ string, again bool) (string, error) {
	if len(s.undone) == 2 {
		return "", core.Errorf(core.Conflict, "nothing is to be done", "there is no price to take back")
	}
	s.undone = append(s.undone, again)
	return "1 price: gear-pair 300", nil
}

func (s *shop) Parties(context.Context) ([]core.Party, error) { return s.parties, nil }
func (s *shop) SetParty(_ context.Context, _ string, p core.Party, may, hour string) error {
	if may == "lots" {
		return core.Errorf(core.Invalid, "write an amount", "%q is no amount", may)
	}
	p.Note += may + "/" + hour
	s.parties = append(s.parties, p)
	return nil
}
func (s *shop) Prices(context.Context) ([]core.PriceEntry, error) { return s.prices, nil }
func (s *shop) SetPrice(_ context.Context, _ string, p core.PriceEntry) (string, string, error) {
	if p.Price.Likely == "dear" {
		return "", "", core.Errorf(core.Invalid, "write an amount", "%q is no amount", "dear")
	}
	s.prices = append(s.prices, p)
	return strings.ReplaceAll(strings.ToLower(p.Item), " ", "-"), "no sheet here asks for it", nil
}

func (s *shop) Priced(context.Context) []Named {
	return []Named{{Key: "gear-pair", Name: "Pair of gears"}, {Key: "hub-seal", Name: "Seal"}, {Key: "box-seal", Name: "seal"}}
}

func (s *shop) Unasked(context.Context, string) ([]Unasked, error) {
	return []Unasked{{"gear-pair", "Pair of gears", 2, core.MinorMoney(30000, "USD"), "typical, not asked"}}, nil
}

func (s *shop) Zeroed(context.Context) ([]Zeroed, error) {
	out := []Zeroed{{Instrument: core.Instrument{Name: "micrometer", Unit: "in", Bound: .0001, BoundUnit: "in"}}, {Instrument: core.Instrument{Name: "rule"}}}
	for i := range s.zeros {
		out[0].Zero = &s.zeros[i]
	}
	return out, nil
}

func (s *shop) CheckZero(_ context.Context, _, by string, z core.ZeroCheck) error {
	z, err := z.Check([]core.Instrument{{Name: "micrometer"}})
	if err == nil {
		z.Stamp = core.Stamp{By: by, At: time.Now()}
		s.zeros = append(s.zeros, z)
	}
	return err
}
func (s *shop) Plugins() []Plugin {
	return []Plugin{{"gearbox", "built in", "0123456789ab", "running"}}
}
func (s *shop) Backup(_ context.Context, to string) error {
	return os.WriteFile(to, []byte("the whole book"), 0o600)
}

func TestTheShopIsShown(t *testing.T) {
	x := &shop{officeActs: officeActs{parties: []core.Party{{Name: "Tern Lane"}}, prices: []core.PriceEntry{{Item: "a", Date: time.Now().AddDate(-1, 0, 0)}, {Item: "b", Date: time.Now()}}}}
	h := handlerOf(t, x)
	page := askOf(t, x, "GET", "/shop", "").Body.String()
	for _, s := range []string{"2 prices, 1 asked too long ago", "85.00 USD an hour", "8.25 % Sales tax", "0123456789ab"} {
		require.Contains(t, page, s)
	}
	require.Contains(t, askOf(t, x, "GET", "/shop/instruments", "").Body.String(), "Zero never looked at")
	require.Equal(t, http.StatusSeeOther, postTo(t, h, "/shop/zero", url.Values{"instrument": {"micrometer"}}).Code)
	require.Contains(t, askOf(t, x, "GET", "/shop/instruments", "").Body.String(), "Zero looked at today")
	w := postTo(t, h, "/shop/zero", url.Values{"instrument": {"micrometer"}, "off": {"a bit"}})
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	require.Contains(t, w.Body.String(), `value="a bit"`)
	x.zeros[0].At = time.Now().AddDate(0, 0, -3)
	require.Contains(t, askOf(t, x, "GET", "/shop/instruments", "").Body.String(), "Zero last looked at")

	w = ask(t, "GET", "/shop/backup", "", "Accept-Encoding", "gzip")
	require.Equal(t, "the whole book", w.Body.String())
	require.Equal(t, "no-store", w.Header().Get("Cache-Control"))
	require.Regexp(t, `attachment; filename="book-\d{4}-\d\d-\d\d\.db"`, w.Header().Get("Content-Disposition"))
}

func TestPartiesAndPricesAreKept(t *testing.T) {
	x := &shop{}
	h := handlerOf(t, x)
	w := postTo(t, h, "/shop/parties", url.Values{"name": {"Moorside Mutual"}, "role": {"payer", "owner"}, "address": {"1 Hill\n Moorside "}, "may": {"6000"}, "no-tax": {"yes"}, "tax-why": {"charity 1"}})
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	require.Equal(t, core.Party{Name: "Moorside Mutual", Roles: []string{"payer", "owner"}, Address: []string{"1 Hill", "Moorside"}, TaxExempt: true, TaxWhy: "charity 1", Note: "6000/"}, x.parties[0])
	page := askOf(t, x, "GET", "/shop/parties?name=moorside+mutual", "").Body.String()
	require.Contains(t, page, `value="payer" checked`)
	require.NotContains(t, page, `value="supplier" checked`)
	require.Equal(t, 404, askOf(t, x, "GET", "/shop/parties?name=nobody", "").Code)
	w = postTo(t, h, "/shop/parties", url.Values{"name": {"X"}, "may": {"lots"}})
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	require.Contains(t, w.Body.String(), `value="lots"`)

	w = postTo(t, h, "/shop/prices", url.Values{"item": {"gear-pair"}, "likely": {"300"}, "from": {"Birch Yard"}, "kind": {"used"}, "weeks": {"1.5"}})
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	require.Equal(t, core.PriceEntry{Item: "gear-pair", Supplier: "Birch Yard", Kind: "used", Price: core.Money3{Likely: "300"}, LeadWeeks: core.Range3{Likely: 1.5}}, x.prices[0])
	require.Contains(t, askOf(t, x, "GET", w.Header().Get("Location"), "").Body.String(), "No sheet here asks for it")
	// It may be named in words: its key is looked for then. Items are offered by name; where two have one name, by key.
	w = postTo(t, h, "/shop/prices", url.Values{"item": {"Gear pair"}, "likely": {"300"}})
	require.Contains(t, w.Header().Get("Location"), "q=gear-pair")
	page = askOf(t, x, "GET", "/shop/prices", "").Body.String()
	for _, s := range []string{`<option value="Pair of gears">gear-pair</option>`, `<option value="hub-seal">Seal</option>`, `<option value="box-seal">seal</option>`} {
		require.Contains(t, page, s)
	}
	require.Contains(t, askOf(t, x, "GET", "/shop/prices?q=pair+of+gears", "").Body.String(), "<strong>Gear pair</strong>")
	for _, wrong := range []url.Values{{"item": {"x"}, "likely": {"dear"}}, {"item": {"x"}, "likely": {"3"}, "weeks": {"soon"}}} {
		w = postTo(t, h, "/shop/prices", wrong)
		require.Equal(t, http.StatusUnprocessableEntity, w.Code)
		require.Contains(t, w.Body.String(), `role="alert"`)
	}

	for i := range 120 {
		x.prices = append(x.prices, core.PriceEntry{Item: fmt.Sprint("bolt-", i), Supplier: "Wold", Price: core.Money3{Low: "1", Likely: "2", High: "3", Currency: "USD"}, Date: time.Now()})
	}
	page = askOf(t, x, "GET", "/shop/prices", "").Body.String()
	require.Contains(t, page, "22 more are not shown")
	page = askOf(t, x, "GET", "/shop/prices?q=WOLD+bolt-11", "").Body.String()
	require.Equal(t, 11, strings.Count(page, "1, 2, 3 USD")) // 11 and 110 to 119
	page = askOf(t, x, "GET", "/shop/prices?job=J-001", "").Body.String()
	require.Contains(t, page, "Not asked, for J-001")
	require.Contains(t, page, "2 × 300.00 · typical, not asked")
}

// What an hour costs, how many hands there are and how long they work is said on the page of the shop.
func TestTheFiguresOfTheShopAreWritten(t *testing.T) {
	x := &shop{}
	page := askOf(t, x, "GET", "/shop", "").Body.String()
	require.Contains(t, page, `name="skill" value="mechanic"><input name="hour" value="85.00"`)
	require.Contains(t, page, `name="skill" value="welder"><input name="hour" value=""`)
	require.Contains(t, page, `name="people" value="2"`)
	require.Contains(t, page, `name="weekly-hours" value="45.5"`)
	require.NotContains(t, page, "cannot be read")

	code, _, to := postOf(t, x, "/shop", "skill", "mechanic", "hour", " 95 ", "skill", "welder", "hour", "", "people", "3", "weekly-hours", "40")
	require.Equal(t, 303, code)
	require.Equal(t, "/shop#figures", to)
	require.Equal(t, []Figures{{Hours: []SkillHour{{"mechanic", "95"}, {"welder", ""}}, People: "3", WeeklyHours: "40"}}, x.figures)

	code, page, _ = postOf(t, x, "/shop", "skill", "mechanic", "hour", "99", "people", "some")
	require.Equal(t, 422, code)
	require.Contains(t, page, "is not how many")
	require.Contains(t, page, `value="99"`)
	require.Contains(t, page, `value="some"`)

	x.faulty = core.Errorf(core.Invalid, "write an amount", "“much” is no hourly rate")
	page = askOf(t, x, "GET", "/shop", "").Body.String()
	require.Contains(t, page, "fettle.yaml was changed, and what it says cannot be read")
	require.Contains(t, page, "“much” is no hourly rate")
}

func TestAPriceIsTakenBack(t *testing.T) {
	x := &shop{}
	require.NotContains(t, askOf(t, x, "GET", "/shop/prices", "").Body.String(), "Take back", "there is none")
	x.prices = []core.PriceEntry{{Item: "gear-pair", Price: core.Money3{Low: "300", Likely: "300", High: "300", Currency: "USD"}, Kind: "new"}}
	require.Contains(t, askOf(t, x, "GET", "/shop/prices", "").Body.String(), "Take back what was last written")
	code, _, to := postOf(t, x, "/shop/prices/back")
	require.Equal(t, 303, code)
	page := askOf(t, x, "GET", to, "").Body.String()
	require.Contains(t, page, "Taken back: 1 price: gear-pair 300")
	require.Contains(t, page, "Bring it back")
	_, _, to = postOf(t, x, "/shop/prices/back", "again", "1")
	page = askOf(t, x, "GET", to, "").Body.String()
	require.Contains(t, page, "Brought back: 1 price: gear-pair 300")
	require.NotContains(t, page, "Bring it back")
	code, page, _ = postOf(t, x, "/shop/prices/back")
	require.Equal(t, 409, code)
	require.Contains(t, page, "here is no price to take back")
	require.Equal(t, []bool{false, true}, x.undone)
}
