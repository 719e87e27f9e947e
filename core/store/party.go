package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// SetParty keeps a party of the shop, in place of the one of its name.
func (b *Book) SetParty(ctx context.Context, by string, p core.Party) error {
	if blank(p.Name) {
		return core.Errorf(core.Invalid, "give the name", "a party has no name")
	}
	for _, r := range p.Roles {
		if !slices.Contains(core.PartyRoles, r) {
			return core.Errorf(core.Invalid, "use one of: "+strings.Join(core.PartyRoles, ", "), "%q is not what a party is to the shop", r)
		}
	}
	body, err := json.Marshal(p)
	if err != nil {
		return err
	}
	_, err = b.Append(ctx, Entry{Kind: KindParty, By: by, Body: body})
	return err
}

// Parties gives the parties of the shop as they stand, in the order they were first named.
func (b *Book) Parties(ctx context.Context) (ps []core.Party, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		ps, err = partiesOf(ctx, tx)
		return err
	})
	return ps, err
}

func partiesOf(ctx context.Context, tx *sql.Tx) ([]core.Party, error) {
	es, err := liveOf(ctx, tx, "", KindParty)
	if err != nil {
		return nil, err
	}
	ps := []core.Party{}
	for _, e := range es {
		if err := layParty(&ps, e); err != nil {
			return nil, err
		}
	}
	return ps, nil
}

// layParty puts a party in the place of the one of its name, or last.
func layParty(ps *[]core.Party, e Entry) error {
	if err := keyed(ps, e.Body, func(p core.Party) string { return strings.ToLower(p.Name) }, func(core.Party) bool { return false }); err != nil {
		return badBody(e, err)
	}
	return nil
}
