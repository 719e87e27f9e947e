package sdk

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// instances are the concrete operations of a sheet for one unit: "regrind-pin/P1", "turn-drums/front".
type instances struct {
	doc  *document
	list map[string][]instance // by operation
}

// instance is one operation as it is paid: suffix "" for the job.
type instance struct {
	suffix  string
	members []string // positions served; nil: all
}

// id gives the concrete id.
func (i instance) id(operation string) string {
	if i.suffix == "" {
		return operation
	}
	return operation + "/" + i.suffix
}

func (d *document) instances(r *described) *instances {
	in := &instances{doc: d, list: map[string][]instance{}}
	for i := range d.operations {
		o := &d.operations[i]
		in.list[o.id.text] = o.instances(r)
	}
	return in
}

// instances lists what an operation is paid for: once, for each group, or for each position of the parts that name it.
func (o *operationDoc) instances(r *described) []instance {
	if o.per == "job" || o.per == "unit" || o.per == "set" && len(o.groups) == 0 {
		return []instance{{}}
	}
	var is []instance
	if o.per != "piece" {
		for _, g := range o.groups {
			members, _ := expandAll(g.members, r.count)
			is = append(is, instance{g.name.text, members})
		}
	}
	for i, p := range r.parts {
		names := slices.ContainsFunc(p.remedies, func(m remedyDoc) bool {
			return slices.ContainsFunc(append(slices.Clone(m.operations), m.collateral...), func(w word) bool { return w.text == o.id.text })
		})
		if !names && !o.byRule {
			continue
		}
		for _, t := range r.sheet.Parts[i].Targets() {
			if !slices.ContainsFunc(is, func(x instance) bool { return slices.Contains(x.members, t.Position) }) {
				is = append(is, instance{t.Position, []string{t.Position}})
			}
		}
	}
	if len(is) == 0 {
		return []instance{{}}
	}
	return is
}

// serving gives the concrete id of an operation for one position.
func (in *instances) serving(operation, position string) string {
	is := in.list[operation]
	for _, i := range is {
		if i.members == nil || slices.Contains(i.members, position) {
			return i.id(operation)
		}
	}
	if position == "" {
		return operation
	}
	return operation + "/" + position
}

// copy gives the operation with lists of its own, without what it includes.
func (o *operationDoc) copy() core.Operation {
	op := o.op
	op.Items, op.Cautions, op.After, op.Includes = slices.Clone(op.Items), slices.Clone(op.Cautions), slices.Clone(op.After), nil
	return op
}

// operation makes the concrete operation of an id; ok is false if the sheet has none such.
func (in *instances) operation(id string) (core.Operation, bool) {
	for i := range in.doc.operations {
		o := &in.doc.operations[i]
		for _, x := range in.list[o.id.text] {
			if x.id(o.id.text) != id {
				continue
			}
			op := o.copy()
			op.ID = id
			if x.suffix != "" {
				op.Name += " (" + x.suffix + ")"
			}
			for _, inc := range o.includes {
				op.Includes = append(op.Includes, in.within(inc.text, x.members)...)
			}
			return op, true
		}
		if o.id.text == id {
			return o.copy(), true // a register entry names it as a whole
		}
	}
	return core.Operation{}, false
}

// within lists the instances of an operation that serve none but these positions (nil: any).
func (in *instances) within(operation string, members []string) []string {
	var ids []string
	for _, x := range in.list[operation] {
		inside := x.members == nil || members == nil
		if !inside {
			inside = !slices.ContainsFunc(x.members, func(p string) bool { return !slices.Contains(members, p) })
		}
		if inside {
			ids = append(ids, x.id(operation))
		}
	}
	return ids
}
