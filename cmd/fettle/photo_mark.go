package main

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// tie is what pictures are of: their title and findings, the tag they belong to, the view of the as-found list, the mark they show.
type tie struct {
	photo store.Photo
	tag   *core.Tag
	view  string
	mark  func(hash string) store.Change // nil: they show no mark
}

// markCalled finds an identity mark by what it stands on and where, like "vehicle frame stamp", and gives how a picture is put to it.
func markCalled(job core.Job, typed string) (func(hash string) store.Change, error) {
	var known []string
	is := func(on string, m core.Mark) bool {
		known = append(known, on+" "+m.Where)
		return strings.EqualFold(known[len(known)-1], strings.Join(strings.Fields(typed), " "))
	}
	if v := job.Vehicle; v != nil {
		for i, m := range v.Marks {
			if is(wholeVehicle, m) {
				return func(hash string) store.Change {
					with := *v
					with.Marks = pictured(v.Marks, i, hash)
					return store.Change{Vehicle: &with}
				}, nil
			}
		}
	}
	for _, u := range job.Units {
		for i, m := range u.Marks {
			if is(u.ID, m) {
				return func(hash string) store.Change {
					u.Marks = pictured(u.Marks, i, hash)
					return store.Change{Units: []core.Unit{u}}
				}, nil
			}
		}
	}
	next := "write it down first: fettle job mark " + job.Number + " UNIT WHERE TEXT"
	if len(known) > 0 {
		next = "name one of: " + strings.Join(known, "; ") + "; or " + next
	}
	return nil, core.Errorf(core.NotFound, next, "no mark of %s is called %q", job.Number, typed)
}

func pictured(marks []core.Mark, i int, hash string) []core.Mark {
	marks = slices.Clone(marks)
	marks[i].Photo = hash
	return marks
}
