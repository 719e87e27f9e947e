package store

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// AddPrices adds rows typed one by one to the price book, as one batch.
func (b *Book) AddPrices(ctx context.Context, by string, prices []core.PriceEntry) error {
	_, err := b.addPrices(ctx, by, prices, func(core.PriceEntry, []byte) string { return "" })
	return err
}

// ImportPrices adds the rows of a price file, as one batch. Rows that the book has already change nothing.
func (b *Book) ImportPrices(ctx context.Context, by string, prices []core.PriceEntry) (Added, error) {
	seen := map[string]int{}
	return b.addPrices(ctx, by, prices, func(_ core.PriceEntry, body []byte) string {
		row := string(body)
		seen[row]++
		return ImportID("", "price "+row, seen[row]-1)
	})
}

func (b *Book) addPrices(ctx context.Context, by string, prices []core.PriceEntry, id func(core.PriceEntry, []byte) string) (a Added, err error) {
	entries := make([]Entry, len(prices))
	for i, p := range prices {
		if p.Date.IsZero() {
			p.Date = b.clock()
		}
		p.Date = p.Date.UTC()
		body, err := json.Marshal(p)
		if err != nil {
			return Added{}, err
		}
		entries[i] = Entry{ID: id(p, body), Kind: KindPrice, By: by, Body: body, Supersedes: p.Supersedes}
	}
	err = b.writing(ctx, func(tx *sql.Tx) error {
		a, err = b.add(ctx, tx, "", entries)
		return err
	})
	return a, err
}

// Prices gives the price book as it stands, by item, supplier and kind: of each the row with the latest date, and of
// one date the one that came last. Older prices stay in the book.
func (b *Book) Prices(ctx context.Context) ([]core.PriceEntry, error) {
	var es []Entry
	err := b.reading(ctx, func(tx *sql.Tx) (err error) {
		es, err = liveOf(ctx, tx, "", KindPrice)
		return err
	})
	if err != nil {
		return nil, err
	}
	rows, err := decodeAll[core.PriceEntry](es)
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(rows, func(p, q core.PriceEntry) int {
		return cmp.Or(cmp.Compare(p.Item, q.Item), cmp.Compare(p.Supplier, q.Supplier), cmp.Compare(p.Kind, q.Kind), p.Date.Compare(q.Date))
	})
	prices := []core.PriceEntry{}
	for i, p := range rows {
		if i+1 < len(rows) {
			if q := rows[i+1]; p.Item == q.Item && p.Supplier == q.Supplier && p.Kind == q.Kind {
				continue
			}
		}
		prices = append(prices, p)
	}
	return prices, nil
}
