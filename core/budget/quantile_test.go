package budget

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// NIST StRD, univariate summary statistics: NumAcc1, NumAcc3, Michelso. Certified standard deviations are those of a sample; moments gives that
// of the trials as they are.
func TestMomentsAgainstNIST(t *testing.T) {
	sample := func(v []float64) (mean, sd float64) {
		mean, sd = moments(v)
		return mean, sd * math.Sqrt(float64(len(v))/float64(len(v)-1))
	}
	mean, sd := sample([]float64{10000001, 10000003, 10000002})
	require.InDelta(t, 10000002, mean, 1e-12)
	require.InDelta(t, 1, sd, 1e-12)

	accuracy := []float64{1000000.2}
	for range 500 {
		accuracy = append(accuracy, 1000000.1, 1000000.3)
	}
	mean, sd = sample(accuracy)
	require.InEpsilon(t, 1000000.2, mean, 1e-12)
	require.InEpsilon(t, .1, sd, 1e-8)

	light := make([]float64, len(michelso))
	for i, v := range michelso {
		light[i] = 299 + float64(v)/100
	}
	mean, sd = sample(light)
	require.InDelta(t, 299.8524, mean, 1e-12)
	require.InDelta(t, .0790105478190518, sd, 1e-12)

	// The neighbours of a stratum are what standard errors rest on: the first autocorrelation, about the mean that moments gives.
	var with float64
	for i := range light[1:] {
		with += (light[i] - mean) * (light[i+1] - mean)
	}
	require.InDelta(t, .535199668621283, with/(sd*sd*float64(len(light)-1)), 1e-12)
}

// michelso holds the set's 100 values, in hundredths over 299.
var michelso = [...]int{
	85, 74, 90, 107, 93, 85, 95, 98, 98, 88, 100, 98, 93, 65, 76, 81, 100, 100, 96, 96,
	96, 94, 96, 94, 88, 80, 85, 88, 90, 84, 83, 79, 81, 88, 88, 83, 80, 79, 76, 80,
	88, 88, 88, 86, 72, 72, 62, 86, 97, 95, 88, 91, 85, 87, 84, 84, 85, 84, 84, 84,
	89, 81, 81, 82, 80, 77, 76, 74, 75, 76, 91, 92, 89, 86, 88, 72, 84, 85, 85, 78,
	89, 84, 78, 81, 76, 81, 79, 81, 82, 85, 87, 87, 81, 74, 81, 94, 95, 80, 81, 87,
}
