package sdk

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Each makes an operation that is paid by the number found, such as one thread insert for each pulled stud, and gives
// the id to put into remedies. Hours, items and outwork are n times those of the sheet's operation; lead time is not.
func (b *Bench) Each(operation, position string, n int) string {
	id := b.Operation(operation, position)
	o, ok := b.r.instances.operation(id)
	if !ok || n == 1 {
		return id
	}
	o.ID = fmt.Sprintf("%s-x%d", id, n)
	if !slices.ContainsFunc(b.Result.Operations, func(x core.Operation) bool { return x.ID == o.ID }) {
		b.AddOperation(Times(o, n))
	}
	return o.ID
}

// Times is an operation done n times over; its name says so.
func Times(o core.Operation, n int) core.Operation {
	k := float64(n)
	o.Name = fmt.Sprintf("%s, %d times", o.Name, n)
	o.Hours = core.Range3{Low: o.Hours.Low * k, Likely: o.Hours.Likely * k, High: o.Hours.High * k}
	o.Items = slices.Clone(o.Items)
	for i := range o.Items {
		o.Items[i].Count *= k
	}
	o.Outwork.Low, o.Outwork.Likely, o.Outwork.High = timesAmount(o.Outwork.Low, n), timesAmount(o.Outwork.Likely, n), timesAmount(o.Outwork.High, n)
	return o
}

// timesAmount multiplies an amount of money exactly, with the decimals it has; an empty one stays empty.
func timesAmount(amount string, n int) string {
	r, ok := new(big.Rat).SetString(amount)
	if !ok {
		return amount
	}
	_, decimals, _ := strings.Cut(amount, ".")
	return r.Mul(r, big.NewRat(int64(n), 1)).FloatString(len(decimals))
}
