package web

import (
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// partiesPage lists people and firms, and asks for one.
type partiesPage struct {
	frame
	Parties   []core.Party
	Faults    []told
	Form      core.Party
	May, Hour string // as typed
	Open      bool   // the form is
}

// Roles are what a party may be to the shop.
func (partiesPage) Roles() []string { return core.PartyRoles }

// Is reports that the party in the form has a role.
func (p partiesPage) Is(role string) bool { return slices.Contains(p.Form.Roles, role) }

// Address is that of the party in the form, a line each.
func (p partiesPage) Address() string { return strings.Join(p.Form.Address, "\n") }

func (s *Server) showParties(w http.ResponseWriter, r *http.Request) error {
	parties, err := s.Office.Parties(r.Context())
	if err != nil {
		return err
	}
	p := partiesPage{frame: s.frame(r, "Parties"), Parties: parties}
	if name := r.FormValue("name"); name != "" {
		i := slices.IndexFunc(parties, func(x core.Party) bool { return strings.EqualFold(x.Name, name) })
		if i < 0 {
			return core.Errorf(core.NotFound, "see: the shop's parties", "there is no party %q", name)
		}
		p.Form, p.Open = parties[i], true
		p.May, p.Hour = asTyped(p.Form.MayAuthorise), asTyped(p.Form.HourRate)
	}
	return s.show(w, http.StatusOK, "parties", p)
}

// asTyped is an amount as it is typed; "" is none.
func asTyped(m *core.Money) string {
	if m == nil {
		return ""
	}
	return m.Number()
}

// setParty keeps a party, or asks again with what was typed.
func (s *Server) setParty(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read: %v", err)
	}
	f := core.Party{Name: typed(r, "name"), Contact: typed(r, "contact"), Roles: r.PostForm["role"], Standing: typed(r, "standing"), TaxWhy: typed(r, "tax-why"), TaxExempt: typed(r, "no-tax") != "", Note: typed(r, "note")}
	for line := range strings.Lines(typed(r, "address")) {
		if line = strings.TrimSpace(line); line != "" {
			f.Address = append(f.Address, line)
		}
	}
	err := s.Office.SetParty(r.Context(), s.by(r), f, typed(r, "may"), typed(r, "hour"))
	if err == nil {
		http.Redirect(w, r, "/shop/parties", http.StatusSeeOther)
		return nil
	}
	if core.ErrorCode(err) != core.Invalid {
		return err
	}
	parties, bad := s.Office.Parties(r.Context())
	if bad != nil {
		return bad
	}
	return s.show(w, http.StatusUnprocessableEntity, "parties", partiesPage{s.frame(r, "Parties"), parties, faultsOf(err), f, typed(r, "may"), typed(r, "hour"), true})
}
