package sdk

import (
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// unnamed puts bytes where a program that starts again leaves them.
func unnamed(t *testing.T, data []byte) {
	t.Helper()
	fd, err := unix.MemfdCreate("sheet", 0)
	require.NoError(t, err)
	_, err = unix.Pwrite(fd, data, 0)
	require.NoError(t, err)
	t.Setenv(packedKey, strconv.Itoa(fd))
}

func TestAProgramStartedAgainFindsItsSheet(t *testing.T) {
	text, err := os.ReadFile("testdata/bench.yaml")
	require.NoError(t, err)
	d, faults := load(text, true)
	require.Empty(t, faults)
	unnamed(t, d.pack())
	got, again := handedOver()
	require.True(t, again)
	require.Equal(t, d.pack(), got.pack())
	require.Empty(t, os.Getenv(packedKey), "a plugin's own children are not told")
}

// What cannot be read is read anew from the sheet, and the program does not start for ever.
func TestAProgramStartedAgainWithoutItsSheetGoesOn(t *testing.T) {
	for _, put := range []func(){
		func() { unnamed(t, []byte("no packed sheet")) },
		func() { t.Setenv(packedKey, "many") },
		func() { t.Setenv(packedKey, "9999") },
	} {
		put()
		d, again := handedOver()
		require.Nil(t, d)
		require.True(t, again)
	}
	require.NoError(t, os.Unsetenv(packedKey))
	d, again := handedOver()
	require.Nil(t, d)
	require.False(t, again)
}
