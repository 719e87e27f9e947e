package sdk

import (
	"io"
	"os"
	"strconv"
	"strings"
)

// packedKey is the environment variable that tells a plugin started again the descriptor of its packed sheet.
const packedKey = "FETTLE_PACKED_SHEET"

// Reading a sheet leaves a plugin's memory in pieces that it cannot give back for as long as it lives, a megabyte of it.
// So it packs what it read and starts again with that alone.

// handedOver reports whether this program has started again, and gives the document that it packed before; nil if that
// cannot be read: then the sheet is read anew, and it does not start a third time.
func handedOver() (d *document, again bool) {
	text, again := os.LookupEnv(packedKey)
	_ = os.Unsetenv(packedKey)
	fd, err := strconv.Atoi(text)
	if !again || err != nil {
		return nil, again
	}
	file := os.NewFile(uintptr(fd), "sheet")
	if file == nil {
		return nil, again
	}
	defer func() { _ = file.Close() }()
	info, err := file.Stat()
	if err != nil || info.Size() > maxSheet {
		return nil, again
	}
	var packed strings.Builder
	packed.Grow(int(info.Size()))
	if _, err := io.Copy(&packed, io.NewSectionReader(file, 0, info.Size())); err != nil {
		return nil, again
	}
	d, err = unpack(packed.String())
	if err != nil {
		return nil, again
	}
	return d, again
}

// handOver starts this program again with a document it has read, if the host waits for it. It returns only if that cannot
// be: then this one serves.
func handOver(d *document) {
	if os.Getenv(CookieKey) != CookieValue {
		return
	}
	_ = startAgain(d.pack())
}
