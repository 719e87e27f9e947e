package sdk

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Pressed is what the compression gauge said of one cylinder, in any one unit; nil was not read.
type Pressed struct {
	Position string
	Dry, Wet *float64 // before and after a spoonful of oil
}

// Sealing is what one cylinder's pressures say. Shares are in per cent.
type Sealing struct {
	Position string
	OfBest   float64  // of the best cylinder, dry
	Rise     *float64 // from dry to wet, of dry
	Low      bool
	Points   string // "rings", "valves", "" if it is not low or was not tried with oil
}

// CompressionPattern reads a row of cylinders in their order.
type CompressionPattern struct {
	LeastOfBest float64 // under this share of the best a cylinder is low
	MostRise    float64 // over this rise with oil it is the rings, up to it the valves
}

// UsualCompression is 75 per cent of the best, and a rise of 15 per cent with oil (from memory).
func UsualCompression() CompressionPattern { return CompressionPattern{75, 15} }

// Read judges every cylinder that has a dry pressure, in the order given. neighbours lists pairs of low cylinders side by
// side that oil does not raise: the joint between them is looked at first.
func (c CompressionPattern) Read(row []Pressed) (all []Sealing, neighbours [][2]string) {
	best := 0.0
	for _, p := range row {
		if p.Dry != nil {
			best = max(best, *p.Dry)
		}
	}
	if best <= 0 {
		return nil, nil
	}
	last := Sealing{}
	for _, p := range row {
		if p.Dry == nil {
			last = Sealing{}
			continue
		}
		s := Sealing{Position: p.Position, OfBest: *p.Dry / best * 100}
		s.Low = !core.LessOrEqual(c.LeastOfBest, s.OfBest)
		if p.Wet != nil && *p.Dry > 0 {
			rise := (*p.Wet - *p.Dry) / *p.Dry * 100
			s.Rise = &rise
			if s.Low {
				s.Points = "valves"
				if !core.LessOrEqual(rise, c.MostRise) {
					s.Points = "rings"
				}
			}
		}
		if s.Low && last.Low && s.Points != "rings" && last.Points != "rings" {
			neighbours = append(neighbours, [2]string{last.Position, s.Position})
		}
		all, last = append(all, s), s
	}
	return all, neighbours
}

// Words tells what a cylinder's pressures say: "70.2 % of the best, 4.3 % more with oil: valves, not rings".
func (s Sealing) Words() string {
	w := fmt.Sprintf("%.1f %% of the best", s.OfBest)
	if s.Rise != nil {
		w += fmt.Sprintf(", %.1f %% more with oil", *s.Rise)
	}
	switch s.Points {
	case "valves":
		w += ": valves, not rings"
	case "rings":
		w += ": rings and bore"
	}
	return w
}

// LeakPath is where air is heard in a leak-down test, and what lets it out.
type LeakPath struct{ Heard, Says string }

// LeakPaths lists where to listen with air in the cylinder and its piston at top dead centre (common practice, no source).
func LeakPaths() []LeakPath {
	return []LeakPath{
		{"exhaust pipe", "exhaust valve"},
		{"carburettor", "inlet valve"},
		{"oil filler", "rings and bore"},
		{"radiator", "head joint or a crack"},
		{"next plug hole", "head joint between two cylinders"},
	}
}

// LeakSays is what lets air out where it is heard; ok is false for a place not listed. A place is known by any of its words.
func LeakSays(heard string) (says string, ok bool) {
	for _, p := range LeakPaths() {
		for _, w := range strings.Fields(strings.ToLower(heard)) {
			if strings.Contains(" "+p.Heard+" ", " "+w+" ") {
				return p.Says, true
			}
		}
	}
	return "", false
}

// SpringLoss is how far a spring's load is from new, in per cent: -11.4 is weaker.
func SpringLoss(found, asNew float64) float64 { return (found - asNew) / asNew * 100 }
