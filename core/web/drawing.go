package web

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// drawing is the frame and the drive line seen from above, front at the top: a shape for each subsystem that has a place there.
type drawing struct{ Shapes []shape }

// shape is one subsystem as drawn, or one corner of it.
type shape struct {
	X, Y, W, H, Round int
	Name              string
	Bench             string // where it leads; "" if it does not lie in the job
	standing
}

// TextX is where the shape's words begin.
func (s shape) TextX() int { return s.X + 18 }

// LineY is the foot of a line of words, 0 the first.
func (s shape) LineY(line int) int { return s.Y + 20 + 16*line }

// spot is where a subsystem is drawn.
type spot struct {
	subsystem, corner, name string
	x, y, w, round          int
}

// Sizes of the drawing, in units of which 360 are as wide as a phone. A shape is 15 mm high there.
const (
	drawnHigh  = 62
	rowHigh    = 66 // from the top of one row of shapes to that of the next
	topEdge    = 4
	middleLine = 180
	cornerWide = 92
	leftEdge   = 2
	rightEdge  = 266
)

// spots are where the built-in subsystems are drawn, from front to rear. What is not among them is in the list beside the drawing.
var spots = slices.Concat(
	[]spot{middle("cooling", "Radiator", 0, 148, 2), middle("front-axle", "Front axle", 1, 148, 26), middle("head", "Head", 2, 124, 4), middle("cylinders", "Cylinders", 3, 124, 4),
		middle("bottom-end", "Bottom end", 4, 124, 4), middle("clutch", "Clutch", 5, 140, 12), middle("gearbox", "Gearbox", 6, 112, 8), middle("transfer-box", "Transfer box", 7, 136, 8),
		middle("prop-shafts", "Prop shafts", 8, 104, 20), middle("rear-axle", "Rear axle", 9, 148, 26), middle("fuel", "Tank, fuel", 10, 140, 14), middle("frame", "Frame", 11, 148, 2)},
	corner(leftEdge, "LF", 0), corner(rightEdge, "RF", 0), corner(leftEdge, "LR", 8), corner(rightEdge, "RR", 8),
	[]spot{side(leftEdge, "steering", "Steering", 4), side(rightEdge, "electrics", "Electrics", 4), side(leftEdge, "body", "Body", 6)},
)

func middle(subsystem, name string, row, wide, round int) spot {
	return spot{subsystem: subsystem, name: name, x: middleLine - wide/2, y: topEdge + row*rowHigh, w: wide, round: round}
}

func side(x int, subsystem, name string, row int) spot {
	return spot{subsystem: subsystem, name: name, x: x, y: topEdge + row*rowHigh, w: cornerWide, round: 4}
}

// corner is a wheel with its hub, its brake and its spring.
func corner(x int, at string, row int) []spot {
	y := topEdge + row*rowHigh
	return []spot{{"hubs-wheels", at, "Wheel " + at, x, y, cornerWide, 16}, {"brakes", at, "Brake " + at, x, y + rowHigh, cornerWide, 4},
		{"springs", at, "Spring " + at, x, y + 2*rowHigh, cornerWide, 24}}
}

// drawingOf draws the units in work; spare ones are in the list.
func drawingOf(job core.Job, sheets []core.UnitSheet) drawing {
	var d drawing
	for _, p := range spots {
		s := shape{X: p.x, Y: p.y, W: p.w, H: drawnHigh, Round: p.round, Name: p.name, standing: standing{Pattern: patternOut}}
		i := slices.IndexFunc(sheets, func(us core.UnitSheet) bool { return us.Subsystem == p.subsystem && !spare(job, us.Unit) })
		if i >= 0 {
			s.standing, s.Bench = standingOf(sheets[i], p.corner), benchOf(sheets[i])
		}
		d.Shapes = append(d.Shapes, s)
	}
	return d
}

func spare(job core.Job, unit string) bool {
	return slices.ContainsFunc(job.Units, func(u core.Unit) bool { return u.ID == unit && u.Role != "" })
}

// benchOf is the name that a subsystem's bench is addressed by.
func benchOf(us core.UnitSheet) string {
	return core.Place{Subsystem: us.Subsystem, Unit: us.Unit}.Bench()
}
