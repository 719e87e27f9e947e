package store

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/binary"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"
)

// newID makes a UUIDv7 of a time (RFC 9562 section 5.7): 48 bits of milliseconds, 12 bits of the fraction of the
// millisecond, 62 random bits.
func newID(t time.Time) string {
	var u uuid.UUID
	_, _ = rand.Read(u[:]) // never fails: see crypto/rand.
	var head [8]byte
	binary.BigEndian.PutUint64(head[:], uint64(t.UnixMilli()))
	copy(u[:6], head[2:])
	fraction := uint16(int64(t.Nanosecond()) % 1e6 * 4096 / 1e6)
	binary.BigEndian.PutUint16(u[6:8], fraction)
	return stamp(u, 7)
}

// ImportID is the id of a row of an imported file: a UUIDv8 (RFC 9562 section 5.8) from the SHA-256 of the job's
// number, the row and how many equal rows stand before it in the file (nth counts from 0). Importing the same file
// twice therefore gives the same ids. The row is taken with its runs of blanks made one and its ends trimmed.
func ImportID(job, normalisedRow string, nth int) string {
	row := strings.Join(strings.Fields(normalisedRow), " ")
	sum := sha256.Sum256([]byte(job + "\x00" + row + "\x00" + strconv.Itoa(nth)))
	return stamp(uuid.UUID(sum[:16]), 8)
}

// stamp writes the version and the RFC 9562 variant.
func stamp(u uuid.UUID, version byte) string {
	u[6] = u[6]&0x0f | version<<4
	u[8] = u[8]&0x3f | 0x80
	return u.String()
}
