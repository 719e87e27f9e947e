package sdk

import (
	"os"
	"strconv"
	"syscall"

	"golang.org/x/sys/unix"
)

// startAgain starts this program anew in its process, with a packed sheet in an unnamed file that it finds by packedKey. It
// returns only if that cannot be.
func startAgain(packed []byte) error {
	program, err := os.Executable()
	if err != nil {
		return err
	}
	fd, err := unix.MemfdCreate("sheet", 0)
	if err != nil {
		return err
	}
	file := os.NewFile(uintptr(fd), "sheet")
	defer func() { _ = file.Close() }()
	if _, err := file.WriteAt(packed, 0); err != nil {
		return err
	}
	return syscall.Exec(program, os.Args, append(os.Environ(), packedKey+"="+strconv.Itoa(fd)))
}
