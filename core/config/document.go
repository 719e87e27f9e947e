package config

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"github.com/fettle-tools/fettle/core"
)

// mark is where something stands in a file, counted from 1.
type mark struct{ line, column int }

func markOf(n *yaml.Node) mark { return mark{n.Line, n.Column} }

// document reads one YAML file into a struct that says what the file may hold, and collects what is wrong with it.
//
// A field is read from the key of its tag, `key:"id"`; `key:"id,need"` must be there. A field of type mark gets the place
// of the mapping. Scalars are of the types in scalar.go, which keep their places.
type document struct {
	file   string
	faults Faults
	told   map[Fault]bool
}

func (d *document) add(m mark, next, format string, args ...any) {
	f := Fault{File: d.file, Line: m.line, Column: m.column, What: fmt.Sprintf(format, args...), Next: next}
	if d.told[f] {
		return
	}
	if d.told == nil {
		d.told = map[Fault]bool{}
	}
	d.told[f] = true
	d.faults = append(d.faults, f)
}

// err gives all faults as one error.
func (d *document) err() error { return d.faults.sorted().Err() }

// yamlLine finds the line in an error of the YAML library, which gives it in its text only.
var yamlLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// read parses data and fills the struct that v points to; what names the file in words. Text that is no YAML at all is
// one fault, and read is false.
func (d *document) read(data []byte, what string, v any) bool {
	if !utf8.Valid(data) {
		d.add(mark{1 + bytes.Count(data[:firstInvalid(data)], []byte("\n")), 0}, "save the file as UTF-8", "this is not UTF-8 text")
		return false
	}
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var n yaml.Node
	if err := dec.Decode(&n); err != nil {
		d.syntax(err, what)
		return false
	}
	var more yaml.Node
	if err := dec.Decode(&more); err == nil {
		d.add(markOf(&more), "make it a file of its own", "a second document begins here")
	} else if !errors.Is(err, io.EOF) {
		d.syntax(err, what)
		return false
	}
	if len(n.Content) == 0 {
		d.syntax(io.EOF, what)
		return false
	}
	d.decode(n.Content[0], reflect.ValueOf(v).Elem(), what)
	return true
}

func (d *document) syntax(err error, what string) {
	if errors.Is(err, io.EOF) {
		d.add(mark{}, "write "+what, "the file is empty")
		return
	}
	m := yamlLine.FindStringSubmatch(strings.SplitN(err.Error(), "\n", 2)[0])
	line, text := 0, err.Error()
	if m != nil {
		line, _ = strconv.Atoi(m[1])
		text = m[2]
	}
	d.add(mark{line, 0}, "check indents, colons and quotes", "this cannot be read as YAML: %s", text)
}

func firstInvalid(data []byte) int {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n <= 1 {
			return i
		}
		i += n
	}
	return len(data)
}

// scalar is what reads itself from a node.
type scalar interface {
	scan(d *document, n *yaml.Node)
}

func (d *document) decode(n *yaml.Node, v reflect.Value, what string) {
	if n.Kind == yaml.AliasNode {
		d.add(markOf(n), "write it out", "an alias (*%s) is not read here", n.Value)
		return
	}
	if s, ok := v.Addr().Interface().(scalar); ok {
		s.scan(d, n)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		d.mapping(n, v, what)
	case reflect.Slice:
		if n.Kind != yaml.SequenceNode {
			d.add(markOf(n), "write a list: [a, b]", "%s: a list is wanted here, not %s", what, kindOf(n))
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content)))
		for i, e := range n.Content {
			d.decode(e, v.Index(i), "an entry of "+what)
		}
	default:
		panic(fmt.Sprintf("config: no way to read a %s", v.Type()))
	}
}

// mapping reads a mapping's keys into a struct's fields. A wrong, doubled or missing key is a fault; the rest is read.
func (d *document) mapping(n *yaml.Node, v reflect.Value, what string) {
	if n.Kind != yaml.MappingNode {
		d.add(markOf(n), "write its keys, each with a colon", "%s: keys are wanted here, not %s", what, kindOf(n))
		return
	}
	fields, keys := map[string]reflect.Value{}, []string{}
	need := map[string]bool{}
	for i := range v.NumField() {
		tag := v.Type().Field(i).Tag.Get("key")
		if v.Type().Field(i).Type == reflect.TypeFor[mark]() {
			v.Field(i).Set(reflect.ValueOf(markOf(n)))
			continue
		}
		key, option, _ := strings.Cut(tag, ",")
		fields[key], keys, need[key] = v.Field(i), append(keys, key), option == "need"
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, val := n.Content[i], n.Content[i+1]
		f, known := fields[k.Value]
		switch {
		case !known:
			d.add(markOf(k), knownKeys(k.Value, keys), "unknown key %q in %s", k.Value, what)
		case seen[k.Value]:
			d.add(markOf(k), "keep one of them", "%s stands twice in %s", k.Value, what)
		case blankNode(val):
			if need[k.Value] {
				d.add(markOf(k), "write it", "%s is blank in %s", k.Value, what)
			}
		default:
			d.decode(val, f, k.Value)
		}
		seen[k.Value] = true
	}
	for _, k := range keys {
		if need[k] && !seen[k] {
			d.add(markOf(n), "add "+k+":", "%s has no %s", what, k)
		}
	}
}

func knownKeys(word string, keys []string) string {
	if near := core.Nearest(word, keys); near != "" {
		return "did you mean " + near + "?"
	}
	return "its keys are: " + strings.Join(keys, ", ")
}

func blankNode(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && (n.Tag == "!!null" || strings.TrimSpace(n.Value) == "")
}

// kindOf names what stands where something else was wanted.
func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.SequenceNode:
		return "a list"
	case yaml.MappingNode:
		return "a set of keys"
	}
	if blankNode(n) {
		return "a blank"
	}
	return strconv.Quote(n.Value)
}
