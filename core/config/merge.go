package config

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// MergeStrip lays a vehicle's own steps over the generic plan: a step with the id of one there takes its place, the
// others come after, in their order. "x/*" then means x at every position of the whole. Errors are of code Invalid and
// tell at once every predecessor that does not exist and every circle.
func MergeStrip(generic core.StripPlan, steps []core.Step) (core.StripPlan, error) {
	merged := core.StripPlan{ID: generic.ID, Title: generic.Title, Steps: slices.Clone(generic.Steps), BeforeAgreement: generic.BeforeAgreement}
	for _, s := range steps {
		if i := slices.IndexFunc(merged.Steps, func(g core.Step) bool { return g.ID == s.ID }); i >= 0 {
			merged.Steps[i] = s
		} else {
			merged.Steps = append(merged.Steps, s)
		}
	}
	var faults Faults
	merged.Steps = resolve(merged.Steps, func(id, _, next, format string, args ...any) {
		faults = append(faults, Fault{Field: "step " + id, What: fmt.Sprintf(format, args...), Next: next})
	})
	if err := faults.Err(); err != nil {
		return core.StripPlan{}, err
	}
	return merged, nil
}

// tell takes a fault of the step with the id; ref is the reference it is about, "" for the step as a whole.
type tell func(id, ref, next, format string, args ...any)

// resolve writes out "x/*" and tells predecessors that do not exist and circles.
func resolve(steps []core.Step, tell tell) []core.Step {
	var ids []string
	instances := map[string][]string{}
	known := map[string]bool{}
	for _, s := range steps {
		ids, known[s.ID] = append(ids, s.ID), true
		if base, _, positioned := strings.Cut(s.ID, "/"); positioned {
			instances[base] = append(instances[base], s.ID)
		}
	}
	steps = slices.Clone(steps)
	for i := range steps {
		s := &steps[i]
		var all []string
		for _, ref := range s.AllOf {
			base, every := strings.CutSuffix(ref, "/*")
			switch {
			case every && len(instances[base]) == 0:
				tell(s.ID, ref, advice(base, ids, instances), "%s waits for %s, but %s has no positions", s.ID, ref, base)
			case every:
				all = append(all, instances[base]...)
			default:
				all = append(all, ref)
			}
		}
		s.AllOf = all
		for _, ref := range predecessors(*s) {
			switch {
			case strings.HasSuffix(ref, "/*"):
				tell(s.ID, ref, "write it in all_of, or name the positions", "%s waits for one of several, but %s means every position", s.ID, ref)
			case !known[ref]:
				tell(s.ID, ref, advice(ref, ids, instances), "%s waits for %q, which is no step", s.ID, ref)
			}
		}
	}
	tellCircles(steps, tell)
	return steps
}

func predecessors(s core.Step) []string {
	return append(slices.Clone(s.AllOf), slices.Concat(s.AnyOf...)...)
}

// advice says what may have been meant by a step that does not exist.
func advice(ref string, ids []string, instances map[string][]string) string {
	if at := instances[ref]; len(at) > 0 {
		return "name the position, like " + at[0] + ", or " + ref + "/* for every one"
	}
	if near := core.Nearest(ref, ids); near != "" {
		return "did you mean " + near + "?"
	}
	return "write that step, or take the reference out"
}

// tellCircles tells of each step that it waits for itself, by one circle, whether that runs through all_of or any_of: a
// step must never be its own reason.
func tellCircles(steps []core.Step, tell tell) {
	index := map[string]int{}
	for i, s := range steps {
		index[s.ID] = i
	}
	state := make([]int, len(steps)) // 0 not looked at, 1 on the path, 2 done
	told := map[string]bool{}
	var path []string
	var visit func(i int)
	visit = func(i int) {
		state[i] = 1
		path = append(path, steps[i].ID)
		for _, ref := range predecessors(steps[i]) {
			j, ok := index[ref]
			if !ok {
				continue
			}
			switch state[j] {
			case 0:
				visit(j)
			case 1:
				if told[ref] {
					continue
				}
				told[ref] = true
				circle := append(slices.Clone(path[slices.Index(path, ref):]), ref)
				tell(ref, "", "take one of these out of all_of or any_of", "steps wait for each other in a circle: %s", strings.Join(circle, ", "))
			}
		}
		path = path[:len(path)-1]
		state[i] = 2
	}
	for i := range steps {
		if state[i] == 0 {
			visit(i)
		}
	}
}
