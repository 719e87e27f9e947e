package sdk

import (
	"bytes"
	_ "embed"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

//go:embed template.yaml
var template []byte

// NewSheet gives a small, complete sheet for a new subsystem, with comments that teach. It loads without faults if name is
// made of letters, digits and dashes.
func NewSheet(name string) []byte {
	title := core.Capital(strings.ReplaceAll(name, "-", " "))
	sheet := bytes.ReplaceAll(template, []byte("NEW-SUBSYSTEM"), []byte(name))
	return bytes.ReplaceAll(sheet, []byte("NEW-TITLE"), []byte(title))
}
