package web

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatIsPrintedIsInWords(t *testing.T) {
	require.Equal(t, "up to 107\u00a0000.00 USD, not 120.00 of T-1042", parted("up to 107000.00 USD, not 120.00 of T-1042"))
	require.Equal(t, "1\u00a0234\u00a0567.00", parted("1234567.00"))
	require.Equal(t, "374\u00a0kB", bytesOf(373926))
	require.Equal(t, "1\u00a0kB", bytesOf(12))
	require.Equal(t, "small end bush 4 is T-001, off", ofSet("small-end-bush/4 is T-001, off"))
}

// What is found has a name in words, and leads to where it can be seen.
func TestFoundHasANameAndAPage(t *testing.T) {
	for _, x := range []struct {
		found      Found
		called, to string
	}{
		{Found{Job: "J-001", Kind: "finding", Name: "electrics@vehicle/lamp/head-LF reflector-and-lens"}, "Lamp head-LF, reflector and lens", "/jobs/J-001/bench/electrics@vehicle"},
		{Found{Job: "J-001", Kind: "finding", Name: "rear-axle/depth-pack old-mark"}, "Depth pack, old mark", "/jobs/J-001/bench/rear-axle"},
		{Found{Job: "J-001", Kind: "tag", Name: "T-014"}, "T-014", "/tags/T-014"},
		{Found{Job: "J-002", Kind: "unit", Name: "gearbox-2"}, "gearbox-2", "/jobs/J-002"},
	} {
		require.Equal(t, x.called, x.found.Called())
		require.Equal(t, x.to, x.found.To())
	}
}
