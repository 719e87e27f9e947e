package sdk

// RustGrade is a grade of the bare steel's rust.
type RustGrade struct {
	Grade string
	Words string
}

// RustGrades lists the rust grades of uncoated steel of ISO 8501-1, best first.
func RustGrades() []RustGrade {
	return []RustGrade{
		{"A", "mill scale adheres, little or no rust"},
		{"B", "rust has begun, mill scale flakes"},
		{"C", "mill scale rusted away, slight pitting visible"},
		{"D", "mill scale rusted away, general pitting visible"},
	}
}

// RustedArea is a degree of rusting of a coated surface.
type RustedArea struct {
	Degree string
	UpTo   float64 // rusted share of the area, percent
}

// RustedAreas lists the degrees of ISO 4628-3, best first, from memory: the last is printed there as 40 to 50 percent.
func RustedAreas() []RustedArea {
	return []RustedArea{{"Ri 0", 0}, {"Ri 1", .05}, {"Ri 2", .5}, {"Ri 3", 1}, {"Ri 4", 8}, {"Ri 5", 50}}
}

// DegreeOfRusting is the degree of a rusted share in percent: the first whose area is not exceeded. ok is false over
// the last or under 0.
func DegreeOfRusting(percent float64) (degree string, ok bool) {
	if percent < 0 {
		return "", false
	}
	for _, a := range RustedAreas() {
		if percent <= a.UpTo {
			return a.Degree, true
		}
	}
	return "", false
}
