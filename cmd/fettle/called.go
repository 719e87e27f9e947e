package main

import (
	"context"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// parts are those of the sheets that lie in the job's extent, by the addresses that a tag takes.
func parts(job core.Job, sheets []core.UnitSheet) (out []web.Named) {
	for _, us := range core.InExtent(job, sheets) {
		for _, p := range us.Sheet.Parts {
			at := core.Place{Subsystem: us.Subsystem, Unit: us.Unit, Target: core.Target{Part: p.ID}}
			out = append(out, web.Named{Key: at.String(), Name: p.Name})
		}
	}
	return out
}

// addressOf is the address of a part that is called by its name or by what its address ends with, with or without a position behind a slash or a
// blank. What is none of the parts is as it was typed.
func addressOf(typed string, parts []web.Named) (string, error) {
	called := append(slices.Clone(parts), ends(parts)...)
	for _, parted := range []string{"/", " "} { // crankpin/P4, Crankpin P4
		name, position := strings.TrimSpace(typed), ""
		for {
			key, err := keyOf(name, called, "parts")
			if err != nil || key != name {
				return key + position, err
			}
			i := strings.LastIndex(name, parted)
			if i < 0 {
				break
			}
			name, position = strings.TrimSpace(name[:i]), "/"+name[i+1:]+position
		}
	}
	return strings.TrimSpace(typed), nil
}

// ends are the parts by the last piece of their addresses.
func ends(parts []web.Named) []web.Named {
	out := slices.Clone(parts)
	for i := range out {
		out[i].Name = out[i].Key[strings.LastIndexByte(out[i].Key, '/')+1:]
	}
	return out
}

// addressIn is addressOf among the parts of a job. An address is taken as it is, and nothing is started for it.
func (s *shop) addressIn(ctx context.Context, job core.Job, typed string) (string, error) {
	head, _, part := strings.Cut(typed, "/")
	if subsystem, _, _ := strings.Cut(head, "@"); part && slices.Contains(s.names, subsystem) {
		return typed, nil
	}
	r, err := s.recorder(ctx, job)
	if err != nil {
		return "", err
	}
	return addressOf(typed, parts(job, r.Sheets))
}
