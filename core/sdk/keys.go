package sdk

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
)

// keyed is a mapping of a sheet, read strictly: known keys once each.
type keyed struct {
	f    *faults
	at   place
	node map[string]*yaml.Node
	key  map[string]place
}

// keys reads a mapping whose required and optional keys are given as texts parted by blanks. A wrong, doubled or
// missing key is a fault; the rest is still read.
func (f *faults) keys(n *yaml.Node, what, required, optional string) keyed {
	k := keyed{f: f, at: at(n), node: map[string]*yaml.Node{}, key: map[string]place{}}
	if n == nil || n.Kind != yaml.MappingNode {
		if n != nil {
			f.add(at(n), "write its keys: "+required, "%s is wanted here, not %s", what, kindOf(n))
		}
		return k
	}
	need, known := strings.Fields(required), strings.Fields(required+" "+optional)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, val := n.Content[i], n.Content[i+1]
		switch {
		case !slices.Contains(known, key.Value):
			next := "the keys of " + what + " are: " + strings.Join(known, ", ")
			if near := nearest(key.Value, known); near != "" {
				next = "did you mean " + near + "?"
			}
			f.add(at(key), next, "unknown key %q of %s", key.Value, what)
		case k.node[key.Value] != nil:
			f.add(at(key), "keep one of them", "the key %s stands here twice", key.Value)
		default:
			k.node[key.Value], k.key[key.Value] = val, at(key)
		}
	}
	for _, r := range need {
		if k.node[r] == nil {
			f.add(k.at, "add "+r+":", "%s has no %s", what, r)
		}
	}
	return k
}

func (k keyed) has(key string) bool { return k.node[key] != nil }

// place gives the key's own place, or that of the mapping.
func (k keyed) place(key string) place {
	if p, ok := k.key[key]; ok {
		return p
	}
	return k.at
}

func (k keyed) text(key string) word            { return k.f.text(k.node[key]) }
func (k keyed) id(key string) word              { return k.f.id(k.node[key]) }
func (k keyed) yes(key string) bool             { return k.f.yes(k.node[key]) }
func (k keyed) texts(key string) []word         { return k.f.texts(k.node[key]) }
func (k keyed) entries(key string) []*yaml.Node { return k.f.entries(k.node[key]) }

// number reads a number, or gives the default where the key is absent.
func (k keyed) number(key string, low, high, absent float64) float64 {
	if !k.has(key) {
		return absent
	}
	return k.f.number(k.node[key], low, high)
}

// whole reads a whole number, or gives the default where the key is absent.
func (k keyed) whole(key string, low, high, absent int) int {
	if !k.has(key) {
		return absent
	}
	return k.f.whole(k.node[key], low, high)
}

// source reads where a figure comes from.
func (k keyed) source() string { return k.text("source").text }
