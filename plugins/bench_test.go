package plugins_test

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
)

// BenchmarkAssess is one unit of each subsystem judged, every part of it found sound.
func BenchmarkAssess(b *testing.B) {
	for _, in := range builtIns() {
		b.Run(in.name, func(b *testing.B) {
			plugin, sheet := in.described(b)
			var found []core.Finding
			for _, part := range sheet.Parts {
				found = append(found, sound(part, "")...)
			}
			req := core.AssessRequest{Unit: in.name, Facts: in.facts, Findings: found}
			for b.Loop() {
				if _, err := plugin.Assess(b.Context(), req); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
