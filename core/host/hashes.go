package host

import (
	"bytes"
	"crypto/sha256"
	"io"
	"io/fs"
	"os"
	"sync"
	"time"
)

// hashes remembers the SHA-256 of files that were hashed already, so that one program that serves many subsystems is read once. A file
// that has another size, time or inode since is hashed again.
type hashes struct {
	mu    sync.Mutex
	known map[hashed][]byte
}

// hashed is a file as it was when it was hashed.
type hashed struct {
	path string
	size int64
	at   time.Time
	file string // the file's own number where the system has one
}

// same reports whether a file has the sum. One is hashed at a time: those who wait for the same file then find it here.
func (h *hashes) same(path string, want []byte) (bool, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	info, err := os.Stat(path)
	if err != nil {
		return false, err
	}
	key := keyOf(path, info)
	sum, ok := h.known[key]
	if !ok {
		if sum, err = sumOf(path); err != nil {
			return false, err
		}
		if h.known == nil {
			h.known = map[hashed][]byte{}
		}
		h.known[key] = sum
	}
	return bytes.Equal(sum, want), nil
}

func keyOf(path string, info fs.FileInfo) hashed {
	return hashed{path: path, size: info.Size(), at: info.ModTime(), file: fileNumber(info)}
}

func sumOf(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, f); err != nil {
		return nil, err
	}
	return hash.Sum(nil), nil
}
