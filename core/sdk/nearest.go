package sdk

import "strings"

// nearest gives the known name most like the one given, or "" if none is near: at most one letter in three differs, one
// of a name of two.
// Of equally near names it takes the first.
func nearest(name string, known []string) string {
	best, least := "", len(name)/3+1
	if len(name) == 2 {
		least = 2
	}
	for _, k := range known {
		if d := distance(strings.ToLower(name), strings.ToLower(k)); d < least {
			best, least = k, d
		}
	}
	return best
}

// didYouMean is an advice that names the nearest known name, or lists what is known.
func didYouMean(name string, known []string) string {
	if near := nearest(name, known); near != "" {
		return "did you mean " + near + "?"
	}
	const most = 12
	if len(known) == 0 {
		return "there are none"
	}
	if len(known) > most {
		return "known are: " + strings.Join(known[:most], ", ") + " ..."
	}
	return "known are: " + strings.Join(known, ", ")
}

// distance is the least number of letters put in, taken out or changed (Levenshtein 1966).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := diagonal
			if a[i-1] != b[j-1] {
				cost++
			}
			diagonal = row[j]
			row[j] = min(cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}
