package sdk

// GearDamage lists the classes of gear tooth damage in the words of ANSI/AGMA 1010-E95. The first five are its clause
// titles; fracture and bending fatigue are from memory.
func GearDamage() []string {
	return []string{"wear", "scuffing", "plastic deformation", "contact (Hertzian) fatigue", "cracking", "fracture", "bending fatigue"}
}

// GearDamageOlder lists the groups of the older AGMA 110.04, which manuals of the time use.
func GearDamageOlder() []string {
	return []string{"wear", "surface fatigue", "plastic flow", "breakage", "associated gear failures"}
}
