package frame

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// linePoints are the places of the string readings of twist, in fractions of the frame's length and width: how far the points
// stand off a plane does not hang on its size.
var linePoints = []sdk.FramePoint{
	{Name: "LF", Along: 0, Across: 0}, {Name: "LM", Along: .5, Across: 0}, {Name: "LR", Along: 1, Across: 0},
	{Name: "RF", Along: 0, Across: 1}, {Name: "RM", Along: .5, Across: 1}, {Name: "RR", Along: 1, Across: 1},
}

// outOfLine tells which point of the frame stands furthest off the plane that lies best between all that were read.
func outOfLine(b *sdk.Bench) {
	t := at("frame-twist")
	var read []sdk.FramePoint
	for _, p := range linePoints {
		if q, _, ok := b.Reading(t, "twist", p.Name); ok {
			p.Height = -q.Value // measured down from the string
			read = append(read, p)
		}
	}
	if len(read) < 4 {
		return
	}
	plane, err := sdk.BestPlane(read)
	if err != nil {
		return
	}
	p, off := plane.Furthest(read)
	b.AddFact(t, core.Fact{Name: "off-the-best-plane-at-" + p.Name, Source: fmt.Sprintf("least-squares plane through %d string readings; over it is positive", len(read)),
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: math.Round(off*1e4) / 1e4, Unit: b.Sheet.Check(t.Part, "twist").Unit}}})
}

// numberStamp stops the work where the number does not read or was touched.
func numberStamp(b *sdk.Bench) {
	t := at("number-stamp")
	q, id, ok := b.Reading(t, "legible", "")
	if !ok || q.Value >= .5 {
		return
	}
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "legible", FindingID: id,
		Summary: "the frame number does not read, or was touched: stop work on the frame",
		Detail:  "it is not blasted, ground, filled or stamped by anybody here",
		Next:    "record the mark as altered, tell the owner in writing, and wait for what owner and authority decide"})
}
