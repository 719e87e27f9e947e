// Package configs holds the data that a shop may edit, embedded: strip plans, packs, instruments, and the demo's world.
// A file of the same name in a shop's folder wins over the embedded one.
package configs

import "embed"

// Files are the embedded files, by their path in this folder.
//
//go:embed strip packs demo instruments.yaml arrival.yaml
var Files embed.FS
