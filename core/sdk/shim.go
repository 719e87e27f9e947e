package sdk

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// ShimConvention says which way a pack works. It is stored with each joint and shown with each pack: two makers
// of one kind of joint may be opposite.
type ShimConvention string

// The conventions. For a bearing under preload, end float below nothing is preload.
const (
	ThickerIsLooser  ShimConvention = "thicker pack = more end float, less preload"
	ThickerIsTighter ShimConvention = "thicker pack = less end float, more preload"
)

// ShimJoint is one place where shims set an end float or a preload. Lengths are in one unit, inches in the defaults.
type ShimJoint struct {
	Name       string
	Convention ShimConvention
	Exact      float64 // a made-up pack is within half of this of the pack wanted; 0: .0005
	Thinnest   float64 // no shim thinner than this lies alone in a pack; 0: .003
	Proof      string  // the check that proves the pack, "rolling torque 40 to 60 lbf-in, seal and link off"
}

// Shim is a thickness and how many of it there are; Count below 0 means as many as needed.
type Shim struct {
	Thickness float64
	Count     int
}

// ShimPack is a pack made up of shims.
type ShimPack struct {
	Wanted  float64 // the pack worked out
	Total   float64 // the pack made up
	Pieces  []Shim  // thickest first, each with how many
	Words   string  // the pack in the trade's words
	Meaning string  // the convention sentence and the check that proves the pack
}

// Wanted is the pack for the float wanted, from the pack that was in when a float was found; preload is a negative
// float. A joint measured without shims has the pack 0. The convention must be known: the sign turns with it.
func (j ShimJoint) Wanted(pack, found, wanted float64) (float64, error) {
	switch j.Convention {
	case ThickerIsLooser:
		return pack + wanted - found, nil
	case ThickerIsTighter:
		return pack + found - wanted, nil
	}
	return 0, core.Errorf(core.Invalid, fmt.Sprintf("store %q or %q with the joint", ThickerIsLooser, ThickerIsTighter),
		"%s: it is not known which way its shims work", j.Name)
}

// Pack makes up a pack from the shims there are: the fewest pieces, then the nearest to what is wanted, then the
// thickest first (common practice, no source). The total is exact to j.Exact. An error says what would be nearest.
func (j ShimJoint) Pack(wanted float64, shims []Shim) (ShimPack, error) {
	if j.Convention != ThickerIsLooser && j.Convention != ThickerIsTighter {
		_, err := j.Wanted(0, 0, 0)
		return ShimPack{}, err
	}
	exact := j.Exact
	if exact == 0 {
		exact = .0005
	}
	if math.IsNaN(wanted) || wanted < -exact/2 {
		return ShimPack{}, core.Errorf(core.Invalid, "without shims it is loose already or tight already: check the readings and the parts",
			"%s: a pack of %s cannot be made", j.Name, core.FormatNumber(round5(wanted)))
	}
	thinnest := j.Thinnest
	if thinnest == 0 {
		thinnest = .003
	}
	s := newShimSearch(wanted, exact/2, thinnest, shims)
	counts, ok := s.fewest()
	if !ok {
		return ShimPack{}, core.Errorf(core.NotFound, "get other shims, or have one ground; the nearest packs: "+s.nearest(),
			"%s: no pack of %s from the shims there are", j.Name, core.FormatNumber(round5(wanted)))
	}
	return j.made(wanted, s.sizes, counts), nil
}

func (j ShimJoint) made(wanted float64, sizes []Shim, counts []int) ShimPack {
	p := ShimPack{Wanted: wanted, Meaning: string(j.Convention)}
	var parts []string
	for i, n := range counts {
		if n == 0 {
			continue
		}
		p.Pieces = append(p.Pieces, Shim{sizes[i].Thickness, n})
		p.Total += float64(n) * sizes[i].Thickness
		parts = append(parts, fmt.Sprintf("%d x %s", n, core.FormatNumber(sizes[i].Thickness)))
	}
	p.Words = fmt.Sprintf("pack %s = %s", core.FormatNumber(round5(p.Total)), strings.Join(parts, " + "))
	if len(parts) == 0 {
		p.Words = "no shims"
	}
	if j.Proof != "" {
		p.Meaning += "; prove it: " + j.Proof
	}
	return p
}

// sortedShims drops what is not there and puts the thickest first.
func sortedShims(shims []Shim) []Shim {
	var ss []Shim
	for _, s := range shims {
		if s.Thickness > 0 && s.Count != 0 {
			ss = append(ss, s)
		}
	}
	slices.SortStableFunc(ss, func(a, b Shim) int { return cmp.Compare(b.Thickness, a.Thickness) })
	return ss
}
