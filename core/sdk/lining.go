package sdk

// Lining is a kind of brake lining that a regulation names.
type Lining string

// The kinds of lining.
const (
	RivetedLining  Lining = "riveted"        // over the rivets' heads
	BondedLining   Lining = "bonded"         // over the shoe
	AirStripLining Lining = "air, one strip" // air drum brake of a steering axle, continuous strip, at the shoe's centre
	AirPadsLining  Lining = "air, two pads"  // the same with two pads to a shoe
	HydraulicShoe  Lining = "hydraulic, any" // hydraulic or electric brake, either axle, for carriers
)

// LiningMinimum is the least thickness of a lining.
type LiningMinimum struct {
	Kind   Lining
	Inches float64
	MM     float64 // as the regulation prints it; 0 where it prints inches alone
	Source string
}

// liningMinima are the regulations' figures; those of 393.47 were read as quoted elsewhere.
var liningMinima = []LiningMinimum{
	{RivetedLining, 1.0 / 32, 0, "49 CFR 570.59(c)"},
	{BondedLining, 1.0 / 16, 0, "49 CFR 570.59(c)"},
	{AirStripLining, 3.0 / 16, 4.8, "49 CFR 393.47(d)(1)"},
	{AirPadsLining, 1.0 / 4, 6.4, "49 CFR 393.47(d)(1)"},
	{HydraulicShoe, 1.0 / 16, 1.6, "49 CFR 393.47(d)(1) and (2)"},
}

// MinimumLining is the least thickness of a kind of lining; ok is false for a kind that is not listed.
func MinimumLining(kind Lining) (m LiningMinimum, ok bool) {
	for _, m := range liningMinima {
		if m.Kind == kind {
			return m, true
		}
	}
	return LiningMinimum{}, false
}
