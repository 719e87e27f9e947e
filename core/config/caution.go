package config

import (
	"reflect"

	"go.yaml.in/yaml/v3"
)

// commonPractice is the source of what has no published one.
const commonPractice = "common practice, no source"

// cautionFile is a caution as written: a text, or a text with its source.
type cautionFile struct {
	Text   text `key:"text,need"`
	Source text `key:"source"`
}

func (c *cautionFile) scan(d *document, n *yaml.Node) {
	if n.Kind == yaml.MappingNode {
		d.mapping(n, reflect.ValueOf(c).Elem(), "a caution")
		return
	}
	c.Text.scan(d, n)
}
