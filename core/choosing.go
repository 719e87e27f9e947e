package core

import (
	"context"
	"fmt"
	"slices"
	"time"
)

// decideWithin bounds a choice that is too wide to prove: the answer then comes with its bound. What a vehicle is made of takes
// milliseconds.
const decideWithin = 5 * time.Second

// curveWithin bounds a whole curve of money against risk. A vehicle's takes a second: a machine that is busy with other things shall not move it.
const curveWithin = 4 * decideWithin

// decide asks the Decider.
func (p *Planner) decide(ctx context.Context, sel Selection) (Selected, error) {
	out, _, err := p.decideOpen(ctx, sel)
	return out, err
}

// decideOpen is decide, with the steps that are open in the answer whatever is chosen.
func (p *Planner) decideOpen(ctx context.Context, sel Selection) (Selected, []SelectStep, error) {
	ctx, stop := context.WithTimeout(ctx, decideWithin)
	defer stop()
	return decideTwice(ctx, p.Decider, sel)
}

// pinCosts is what the pins cost over the optimum without them, together; nil if there are none or it cannot be said: the least risk within a
// sum of money costs that sum with pins and without.
func (p *Planner) pinCosts(ctx context.Context, b *bench, pinned Selected) *Money {
	if b.req.leaving || !slices.ContainsFunc(b.parts, func(x benchPart) bool { return x.pin != nil }) {
		return nil
	}
	req := b.req
	req.Job.Pins = nil
	free, err := p.decide(ctx, newBench(req, b.sheets).sel)
	if err != nil || !free.Proven {
		return nil
	}
	m := MinorMoney(pinned.Value-free.Value, b.req.Terms.Currency)
	return &m
}

// choices puts the answer in words, with the reason for each.
func (b *bench) choices(sel Selected, ch chances, pinCosts *Money) []Choice {
	inBlock := map[int]int{}
	for i, blk := range sel.Blocks {
		for _, part := range blk.Parts {
			inBlock[part] = i + 1
		}
	}
	cs := make([]Choice, len(b.parts))
	for i := range b.parts {
		if n := inBlock[i]; n > 0 {
			cs[i] = b.blockChoice(i, sel, sel.Blocks[n-1], ch.option(n-1))
		} else {
			cs[i] = b.choice(i, sel)
		}
		if b.parts[i].pin != nil {
			cs[i].Pinned, cs[i].PinCosts = b.parts[i].pin, pinCosts
		}
	}
	return cs
}

func (b *bench) named(i int) Choice {
	p := b.parts[i]
	c := Choice{Place: p.place, PartName: p.part.Name}
	if p.redo > 0 {
		m := b.money(p.redo)
		c.Later = &m
	}
	return c
}

// take fills in a remedy as chosen, with the findings' reasons before the remedy's own.
func (b *bench) take(c *Choice, i, option int) {
	p := b.parts[i]
	r := p.options[option]
	c.Kind, c.Remedy, c.Name = r.Kind, r.ID, r.Name
	c.Reasons = append(slices.Clone(p.cond.Reasons), r.Why...)
	if p.left == nil && r.Kind == LeftAsIs {
		c.Reasons = append(c.Reasons, Reason{Text: "left as it is: no sound plan that costs as little carries less risk"})
	}
	if p.left != nil {
		c.Reasons = append(c.Reasons, Reason{Text: "left as it is by the owner's word: " + p.left.Reason})
		if p.part.SafetyCritical {
			c.Reasons = append(c.Reasons, Reason{Text: "a safety item left: the vehicle leaves on a trailer"})
		}
	}
	if p.pin != nil {
		c.Reasons = append(c.Reasons, Reason{Text: fmt.Sprintf("pinned by %s: %s", p.pin.By, p.pin.Reason)})
	}
}

// marginals are those of a part, or what they are not under; nil where neither is known.
func (s Selected) marginals(part int) (row []int64, atLeast bool) {
	if s.Marginals != nil && s.Marginals[part] != nil {
		return s.Marginals[part], false
	}
	if s.AtLeast != nil && s.AtLeast[part] != nil {
		return s.AtLeast[part], true
	}
	return nil, false
}

// choice explains a part of the optimum.
func (b *bench) choice(i int, sel Selected) Choice {
	c := b.named(i)
	k := sel.Choice[i]
	if k < 0 {
		c.Kind = Undecided
		return c
	}
	b.take(&c, i, k)
	b.whyNotReuse(&c, i, k, sel)
	row, atLeast := sel.marginals(i)
	c.Unweighed = row == nil && len(b.sel.Parts[i].States[0].Options) > 1
	if row != nil {
		best, at := Infeasible, -1
		for o, v := range row {
			if o != k && v < best {
				best, at = v, o
			}
		}
		if at >= 0 {
			r := b.parts[i].options[at]
			c.RunnerUp = &RunnerUp{Remedy: r.ID, Name: r.Name, AtLeast: atLeast}
			if atLeast {
				best = max(best, sel.Value) // of a choice that is not proven the bound may lie below it
			}
			if more := b.money(best - sel.Value); b.req.leaving {
				c.RunnerUp.RisksMore = &more
			} else {
				c.RunnerUp.CostsMore = &more
			}
		}
	}
	b.flip(&c, i, k, sel)
	return c
}

// whyNotReuse says why a part that might be reused is not: another of its set cannot be, or doing it now is cheaper than the risk
// of opening it again.
func (b *bench) whyNotReuse(c *Choice, i, k int, sel Selected) {
	reuse := slices.IndexFunc(b.parts[i].options, func(r Remedy) bool { return r.Kind == Reuse })
	open := reuse >= 0 && slices.Contains(b.sel.Parts[i].States[0].Options, reuse)
	if c.Kind == Reuse || c.Kind == LeftAsIs || !open || b.parts[i].pin != nil {
		return
	}
	if bound := b.boundBy(i, sel); bound != "" {
		c.Reasons = append(c.Reasons, Reason{Text: bound})
		return
	}
	saved := b.sel.Parts[i].Options[reuse].Risk - b.sel.Parts[i].Options[k].Risk
	if saved > 0 {
		c.Reasons = append(c.Reasons, Reason{Text: fmt.Sprintf("fit for use, but cheaper to do while it is open: reused it would carry a risk worth %s of opening it again", b.money(saved).Number())})
	}
}

// boundBy names the set and the member that keep a part from being reused; "" if no set does.
func (b *bench) boundBy(i int, sel Selected) string {
	for _, set := range b.sel.Sets {
		if !slices.Contains(set.Members, i) {
			continue
		}
		for _, m := range set.Members {
			part := b.parts[m]
			closed := !slices.ContainsFunc(b.sel.Parts[m].States, func(st SelectState) bool {
				return slices.ContainsFunc(st.Options, func(o int) bool { return part.options[o].Kind == Reuse })
			})
			if m != i && closed && sel.Choice[m] >= 0 {
				return fmt.Sprintf("goes with %s, which cannot be reused: matched set %s", part.place.Target, set.ID)
			}
		}
	}
	return ""
}

// followers says what becomes of one-use parts whose reach the extent leaves closed: new where it is opened, else not touched.
func (b *bench) followers(d *due) []Choice {
	out := make([]Choice, 0, len(b.follow))
	for _, f := range b.follow {
		open := 1.0
		for _, n := range f.reach {
			open = min(open, d.stepDue[n])
		}
		c := Choice{Place: f.place, PartName: f.part.Name, Kind: Reuse, Remedy: "reuse", Name: "Not opened, so not touched"}
		switch {
		case open > 0 && open < 1:
			c.Kind, c.Remedy, c.Name = Undecided, "", ""
			c.Reasons = []Reason{{Text: fmt.Sprintf("always new where it is opened, which is %.0f %% likely", 100*open)}}
		case open == 1 && len(f.options) > 0:
			r := f.options[0]
			c.Kind, c.Remedy, c.Name, c.Reasons = r.Kind, r.ID, r.Name, slices.Clone(f.cond.Reasons)
		default:
			c.Reasons = []Reason{{Text: "it is not opened, so it stays as it is"}}
		}
		out = append(out, c)
	}
	return out
}

// flip is the price of the remedy's dearest operation at which the choice would turn.
func (b *bench) flip(c *Choice, i, k int, sel Selected) {
	dearest := -1
	for _, o := range b.sel.Parts[i].Options[k].Operations {
		if sel.Operations[o] && (dearest < 0 || b.sel.Operations[o].Cost > b.sel.Operations[dearest].Cost) {
			dearest = o
		}
	}
	if dearest < 0 || sel.Without == nil || sel.Without[dearest] >= Infeasible {
		return
	}
	m := b.money(b.sel.Operations[dearest].Cost + sel.Without[dearest] - sel.Value)
	c.FlipPrice, c.FlipOn = &m, b.ops[dearest].op.Name
}

// blockChoice explains a part that is not yet known, or is bound to one.
func (b *bench) blockChoice(i int, sel Selected, blk Block, chance []float64) Choice {
	c := b.named(i)
	m := slices.Index(blk.Parts, i)
	options, weights := b.tally(blk, m, chance)
	if len(options) == 0 {
		c.Kind = Undecided
		return c
	}
	likeliest := 0
	sameKind := true
	for n := range options {
		if weights[n] > weights[likeliest]+Slack {
			likeliest = n
		}
		if b.parts[i].options[options[n]].Kind != b.parts[i].options[options[0]].Kind {
			sameKind = false
		}
	}
	if sameKind {
		b.take(&c, i, options[likeliest])
		if len(options) > 1 {
			c.Reasons = append(c.Reasons, Reason{Text: fmt.Sprintf("which one is not settled yet: %s is the likeliest, %.0f %%", c.Name, 100*weights[likeliest])})
		}
		b.blockRunnerUp(&c, i, m, blk)
		return c
	}
	c.Kind = Undecided
	c.Reasons = slices.Clone(b.parts[i].cond.Reasons)
	for n, o := range options {
		r := b.parts[i].options[o]
		c.Reasons = append(c.Reasons, Reason{Text: fmt.Sprintf("%.0f %%: %s (%s)", 100*weights[n], r.Name, r.Kind)})
	}
	for _, st := range b.sel.Parts[i].States {
		var ids []string
		for _, o := range st.Options {
			ids = append(ids, b.parts[i].options[o].ID)
		}
		c.States = append(c.States, State{Chance: st.Chance, Grade: st.Grade, Remedies: ids})
	}
	return c
}

// tally gives the options that a member may end with and their chances, in order of option.
func (b *bench) tally(blk Block, member int, chance []float64) (options []int, weights []float64) {
	for k, o := range blk.Options {
		if chance[k] <= Slack {
			continue
		}
		n := slices.Index(options, o.Choice[member])
		if n < 0 {
			n = len(options)
			options, weights = append(options, o.Choice[member]), append(weights, 0)
		}
		weights[n] += chance[k]
	}
	return options, weights
}

// blockRunnerUp is the block's next joint option with another remedy for this part.
func (b *bench) blockRunnerUp(c *Choice, i, member int, blk Block) {
	chosen := slices.IndexFunc(blk.Options, func(o BlockOption) bool { return b.parts[i].options[o.Choice[member]].ID == c.Remedy })
	for _, o := range blk.Options {
		r := b.parts[i].options[o.Choice[member]]
		openInAll := !slices.ContainsFunc(b.sel.Parts[i].States, func(st SelectState) bool { return !slices.Contains(st.Options, o.Choice[member]) })
		if r.ID != c.Remedy && openInAll && o.Value >= blk.Options[chosen].Value {
			c.RunnerUp = &RunnerUp{Remedy: r.ID, Name: r.Name, CostsMore: new(b.money(o.Value - blk.Options[chosen].Value))}
			return
		}
	}
	c.Unweighed = len(b.sel.Parts[i].States[0].Options) > 1
}

func (b *bench) money(minor int64) Money { return MinorMoney(minor, b.req.Terms.Currency) }
