package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestAZeroIsCheckedOnAnInstrumentOfTheShop(t *testing.T) {
	list := []Instrument{{Name: "micrometer", Aliases: []string{"mike"}}, {Name: "dial gauge"}}
	z, err := ZeroCheck{Instrument: "Mike", Off: "+.0002 in"}.Check(list)
	require.NoError(t, err)
	require.Equal(t, ZeroCheck{Instrument: "micrometer", Off: "+.0002 in"}, z)
	_, err = ZeroCheck{Instrument: "dial gauge", Off: "a bit"}.Check(list)
	require.Equal(t, Invalid, ErrorCode(err))
	_, err = ZeroCheck{Instrument: "dial gage"}.Check(list)
	require.Equal(t, NotFound, ErrorCode(err))
	require.Contains(t, ErrorNext(err), "did you mean dial gauge")
}
