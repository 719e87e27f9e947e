package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// CheckZero writes down a look at an instrument's zero, at the time that it gives or now. It must have been checked against the shop's instruments. What has an id
// that is in the book already is left as it is.
func (b *Book) CheckZero(ctx context.Context, id, by string, z core.ZeroCheck) error {
	at := z.At
	z.Stamp = core.Stamp{}
	body, err := json.Marshal(z)
	if err != nil {
		return err
	}
	_, err = b.Append(ctx, Entry{ID: id, Kind: KindZero, At: at, By: by, Body: body})
	return err
}

// ZeroChecks gives the last look at each instrument's zero, in the order the instruments were first looked at.
func (b *Book) ZeroChecks(ctx context.Context) (last []core.ZeroCheck, err error) {
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err := liveOf(ctx, tx, "", KindZero)
		if err != nil {
			return err
		}
		last = []core.ZeroCheck{}
		for _, e := range es {
			var z core.ZeroCheck
			if err := json.Unmarshal(e.Body, &z); err != nil {
				return badBody(e, err)
			}
			z.Stamp = core.Stamp{By: e.By, At: e.At}
			i := slices.IndexFunc(last, func(o core.ZeroCheck) bool { return strings.EqualFold(o.Instrument, z.Instrument) })
			if i < 0 {
				last = append(last, z)
				continue
			}
			if !z.At.Before(last[i].At) { // what waited on a device may be older than what came before it
				last[i] = z
			}
		}
		return nil
	})
	return last, err
}
