//go:build unix

package budget

import (
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// usage is the processor's time that this process has had, and the most memory that it ever held, in MB.
func usage(tb testing.TB) (time.Duration, float64) {
	var u syscall.Rusage
	require.NoError(tb, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	peak := float64(u.Maxrss) / 1024 // in kB
	if runtime.GOOS == "darwin" || runtime.GOOS == "ios" {
		peak /= 1024 // in bytes
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()), peak
}
