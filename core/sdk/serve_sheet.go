package sdk

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// PinnedSheet reads a bare sheet for serving and refuses it unless it is the one that was pinned; pin is its SHA-256 in
// hex. An error is of code Unavailable (it cannot be read) or Invalid (it is another).
func PinnedSheet(path, pin string) ([]byte, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, &core.Error{Code: core.Unavailable, What: "the sheet cannot be read", Where: path, Next: "put the file back", Err: err}
	}
	if sum := sha256.Sum256(data); !strings.EqualFold(hex.EncodeToString(sum[:]), pin) {
		return nil, &core.Error{Code: core.Invalid, What: "the sheet has changed since it was pinned", Where: path,
			Next: "if you changed it, pin it again; if you did not, find out who did"}
	}
	return data, nil
}
