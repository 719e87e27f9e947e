package sdk

import (
	"bytes"
	_ "embed"
)

//go:embed template.yaml
var template []byte

// NewSheet gives a small, complete sheet for a new subsystem, with comments that teach. It loads without faults if name is
// made of letters, digits and dashes.
func NewSheet(name string) []byte {
	return bytes.ReplaceAll(template, []byte("NEW-SUBSYSTEM"), []byte(name))
}
