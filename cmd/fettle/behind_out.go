package main

import (
	"context"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// orderOf reads what an order is made from: the story as it now is, and the plan that holds.
func (b *behind) orderOf(ctx context.Context, job string) (core.Story, core.Plan, error) {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return story, core.Plan{}, err
	}
	p, err := b.Plan(ctx, job)
	return story, p, err
}

// Send sends work out.
func (b *behind) Send(ctx context.Context, job, by string, t web.Sending) (string, error) {
	story, p, err := b.orderOf(ctx, job)
	if err != nil {
		return "", err
	}
	f := sendFlags{o: core.Outwork{To: t.To, Work: t.Work, Parts: t.Parts}, served: t.For, tags: t.Tags, sizes: t.Sizes, price: t.Price, due: t.Due, estimated: t.Estimated}
	o, _, err := f.outwork(b.s, story, p)
	if err != nil {
		return "", err
	}
	_, err = b.s.book.Act(ctx, job, by, &o)
	return o.ID, err
}

// Receive takes outwork in, or refuses it.
func (b *behind) Receive(ctx context.Context, job, by string, t web.Receiving) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	o := story.Sent(t.Outwork)
	if o == nil {
		return core.Errorf(core.NotFound, "see: fettle send "+job, "%s has no outwork %s", job, t.Outwork)
	}
	r := core.Received{Outwork: o.ID, Accepted: !t.Refused, Why: t.Why, Lies: t.Lies}
	var sizes []string
	for i, a := range o.Asked {
		if got := strings.TrimSpace(t.Size(i)); got != "" {
			sizes = append(sizes, a.What+" "+got)
		}
	}
	if err := readBack(b.s, *o, &r, sizes, t.Charged); err != nil {
		return err
	}
	_, err = b.s.book.Act(ctx, job, by, &r)
	return err
}

// Buy orders goods.
func (b *behind) Buy(ctx context.Context, job, by string, t web.Buying) (string, error) {
	story, p, err := b.orderOf(ctx, job)
	if err != nil {
		return "", err
	}
	f := buyFlags{p: core.Purchase{From: t.From, Item: t.Item}, served: t.For, count: t.Count, price: t.Price, exchange: t.Exchange, due: t.Due}
	order, err := f.purchase(ctx, b.s, story, p)
	if err != nil {
		return "", err
	}
	_, err = b.s.book.Act(ctx, job, by, &order)
	return order.ID, err
}

// Delivered says what became of an order.
func (b *behind) Delivered(ctx context.Context, job, by string, d core.Delivery) error {
	_, err := b.s.book.Act(ctx, job, by, &d)
	return err
}
