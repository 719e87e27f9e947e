package sdk

import (
	"math"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Thread is a screw thread by its size: inch threads by diameter in inches and threads per inch, metric ones by diameter
// and pitch in millimetres.
type Thread struct {
	Diameter float64 // in, or mm
	PerInch  float64 // 0 for a metric thread
	Pitch    float64 // mm; 0 for an inch thread
}

// ParseThread reads a thread as it is written: "3/8-16", "7/16-14", "1 1/8-7", "10-32", "M8x1.25". A metric thread names
// its pitch.
func ParseThread(text string) (Thread, error) {
	s := strings.ToUpper(strings.Join(strings.Fields(text), " "))
	if metric, ok := strings.CutPrefix(s, "M"); ok {
		d, p, _ := strings.Cut(metric, "X")
		t := Thread{Diameter: sizeFigure(d), Pitch: sizeFigure(p)}
		if t.Diameter > 0 && t.Pitch > 0 && t.Pitch < t.Diameter {
			return t, nil
		}
	} else if at := strings.LastIndex(s, "-"); at > 0 {
		t := Thread{Diameter: threadDiameter(s[:at]), PerInch: sizeFigure(s[at+1:])}
		if t.Diameter > 0 && t.PerInch > 0 && t.PerInch*t.Diameter > 1 {
			return t, nil
		}
	}
	return Thread{}, core.Errorf(core.Invalid, "write it like 3/8-16 or M8x1.25", "%q is no thread", text)
}

// threadDiameter is a diameter in inches: a fraction, or the number of a small screw (ASME B1.1: .060 + .013 n).
func threadDiameter(s string) float64 {
	if n, err := strconv.Atoi(s); err == nil && n >= 4 && n <= 12 {
		return .060 + .013*float64(n)
	}
	whole, fraction, mixed := strings.Cut(s, " ")
	if !mixed {
		whole, fraction = "0", s
	}
	top, under, ok := strings.Cut(fraction, "/")
	if !ok {
		return sizeFigure(s)
	}
	w, err := strconv.Atoi(whole)
	if b := sizeFigure(under); err == nil && w >= 0 && b > 0 {
		return float64(w) + sizeFigure(top)/b
	}
	return 0
}

// sizeFigure reads a positive figure; 0 if it is none.
func sizeFigure(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// Metric reports whether the thread is metric, with sizes in mm, MPa and N; else they are in, psi and lbf.
func (t Thread) Metric() bool { return t.Pitch > 0 }

// StressArea is the tensile stress area: pi/4 (d - .9743/n)^2 in square inches to four decimals as tables print it
// (ASME B1.1, SAE J429), or pi/4 (d - .9382 P)^2 in mm2 (ISO 898-1).
func (t Thread) StressArea() float64 {
	if t.Metric() {
		return math.Pi / 4 * math.Pow(t.Diameter-.9382*t.Pitch, 2)
	}
	return math.Round(math.Pi/4*math.Pow(t.Diameter-.9743/t.PerInch, 2)*1e4) / 1e4
}

// Strength is what a strength grade promises: psi for inch grades, MPa for metric classes.
type Strength struct {
	Proof, Tensile float64
}

// FastenerStrength gives the strength of a grade at a diameter: SAE J429 grades "2", "5" and "8" to 1 in (grade 2 to 3/4 in;
// one print of it has 72 ksi where the standard has 74), ISO 898-1 classes "8.8" (to M16) and "10.9". Sizes outside are an
// Invalid error: the standards give other figures for them.
func FastenerStrength(grade string, t Thread) (Strength, error) {
	type row struct {
		metric   bool
		from, to float64
		Strength
	}
	rows := map[string]row{
		"2":    {false, .25, .75, Strength{55000, 74000}},
		"5":    {false, .25, 1, Strength{85000, 120000}},
		"8":    {false, .25, 1.5, Strength{120000, 150000}},
		"8.8":  {true, 3, 16, Strength{580, 800}},
		"10.9": {true, 5, 39, Strength{830, 1040}},
	}
	r, ok := rows[grade]
	if !ok || r.metric != t.Metric() {
		return Strength{}, core.Errorf(core.Invalid, "use 2, 5 or 8 for inch threads, 8.8 or 10.9 for metric ones", "no strength is held of a fastener %q", grade)
	}
	if t.Diameter < r.from-1e-9 || t.Diameter > r.to+1e-9 {
		return Strength{}, core.Errorf(core.Invalid, "look it up in the standard", "grade %s is held from %s to %s only", grade, core.FormatNumber(r.from), core.FormatNumber(r.to))
	}
	return r.Strength, nil
}

// ProofLoad is the load that a fastener bears without a lasting stretch, lbf or N: stress area by proof stress.
func ProofLoad(grade string, t Thread) (float64, error) {
	s, err := FastenerStrength(grade, t)
	return s.Proof * t.StressArea(), err
}

// TensileLoad is the load that a fastener may break at, lbf or N.
func TensileLoad(grade string, t Thread) (float64, error) {
	s, err := FastenerStrength(grade, t)
	return s.Tensile * t.StressArea(), err
}

// Nut factors K of T = K D F (common practice, no source): dry steel, and oiled.
const (
	DryNut   = .20
	OiledNut = .15
)

// ClampShare is the share of the proof load that a joint which is opened again is tightened to (common practice, no source).
const ClampShare = .75

// TighteningTorque is T = K D F: the torque in unit of diameter by unit of clamp load, lbf-in for inches and lbf, N mm for
// millimetres and newtons. K is the nut factor.
func TighteningTorque(k, diameter, clamp float64) float64 { return k * diameter * clamp }

// FastenerTorque is the torque for a fastener at ClampShare of its proof load, in lbf-ft for inch threads, N m for metric.
func FastenerTorque(grade string, t Thread, k float64) (torque, clamp float64, err error) {
	proof, err := ProofLoad(grade, t)
	if err != nil {
		return 0, 0, err
	}
	per := 12.0
	if t.Metric() {
		per = 1000
	}
	clamp = ClampShare * proof
	return TighteningTorque(k, t.Diameter, clamp) / per, clamp, nil
}
