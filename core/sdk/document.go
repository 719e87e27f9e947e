package sdk

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// document is a sheet as written, each noun with its place.
type document struct {
	subsystem, title, version, unitKind word
	currency                            string
	outlookWeight                       float64

	facts      []factDoc
	parts      []partDoc
	sets       []setDoc
	noReuse    []noReuseDoc
	register   []registerDoc
	operations []operationDoc
	steps      []stepDoc
	cautions   []cautionDoc
}

// maxSheet bounds a sheet, in bytes.
const maxSheet = 2 << 20

// load reads a sheet. hasRules: rules in Go go with it, which may use operations that no remedy of the sheet names.
func load(data []byte, hasRules bool) (*document, []Fault) {
	f := &faults{}
	root := f.parse(data)
	if root == nil {
		return nil, f.sorted()
	}
	d := f.document(root)
	d.resolve(f, hasRules)
	if len(f.list) > 0 {
		return nil, f.sorted()
	}
	return d, nil
}

// What the YAML library's errors say. fromParser matches those whose line it counts from 0; those of its scanner count
// from 1. Few sheets need them.
var (
	yamlLine   = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`line (\d+): (.*)`) })
	fromParser = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile("^did not find expected (<|node content|key|'-'|',')")
	})
)

// parse reads the YAML. A sheet is one document without anchors.
func (f *faults) parse(data []byte) *yaml.Node {
	if len(data) > maxSheet {
		f.add(place{1, 1}, "split the subsystem", "the sheet is larger than %d bytes", maxSheet)
		return nil
	}
	var doc, more yaml.Node
	dec := yaml.NewDecoder(bytes.NewReader(data))
	if err := dec.Decode(&doc); err != nil {
		f.syntax(err)
		return nil
	}
	if err := dec.Decode(&more); err == nil {
		f.add(at(&more), "keep one sheet in a file", "a second document starts here")
	} else if !errors.Is(err, io.EOF) {
		f.syntax(err)
	}
	if len(doc.Content) != 1 {
		f.add(place{1, 1}, "start from a new sheet", "the sheet is empty")
		return nil
	}
	f.anchors(doc.Content[0])
	return doc.Content[0]
}

func (f *faults) syntax(err error) {
	if errors.Is(err, io.EOF) {
		f.add(place{1, 1}, "start from a new sheet", "the sheet is empty")
		return
	}
	p, what := place{1, 1}, strings.TrimPrefix(err.Error(), "yaml: ")
	if m := yamlLine().FindStringSubmatch(what); m != nil {
		n, _ := strconv.Atoi(m[1])
		p.line = max(1, n)
		if what = m[2]; fromParser().MatchString(what) {
			p.line++
		}
	}
	f.add(p, `look at this line and the one before: indents, and quotes around texts with { } [ ] : or #, as in ["M1..M{mains}"]`, "this is no YAML: %s", what)
}

// anchors refuses & and *: they can make a small file huge.
func (f *faults) anchors(n *yaml.Node) {
	if n.Anchor != "" {
		f.add(at(n), "write it out where it is wanted", "the anchor &%s: sheets have none", n.Anchor)
	}
	for _, c := range n.Content {
		f.anchors(c)
	}
}

func (f *faults) document(root *yaml.Node) *document {
	k := f.keys(root, "a sheet", "subsystem title version unit_kind currency parts operations",
		"outlook_weight facts sets no_reuse register steps cautions")
	d := &document{
		subsystem: k.id("subsystem"), title: k.text("title"), version: k.text("version"), unitKind: k.id("unit_kind"),
		outlookWeight: k.number("outlook_weight", .01, 1000, 4),
	}
	currency := k.text("currency")
	if d.currency = currency.text; d.currency != "" && !core.ValidCurrency(d.currency) {
		f.add(currency.place, "write a code such as USD, GBP or EUR", "%q is no currency", d.currency)
		d.currency = ""
	}
	for _, n := range k.entries("facts") {
		d.facts = append(d.facts, f.factDoc(n))
	}
	for _, n := range k.entries("parts") {
		d.parts = append(d.parts, f.partDoc(n))
	}
	for _, n := range k.entries("operations") {
		d.operations = append(d.operations, f.operationDoc(n, d.currency))
	}
	for _, n := range k.entries("steps") {
		d.steps = append(d.steps, f.stepDoc(n, d.currency))
	}
	for _, n := range k.entries("sets") {
		d.sets = append(d.sets, f.setDoc(n))
	}
	for _, n := range k.entries("no_reuse") {
		d.noReuse = append(d.noReuse, f.noReuseDoc(n))
	}
	for _, n := range k.entries("register") {
		d.register = append(d.register, f.registerDoc(n))
	}
	for _, n := range k.entries("cautions") {
		d.cautions = append(d.cautions, f.cautionDoc(n))
	}
	if k.has("parts") && len(d.parts) == 0 {
		f.add(k.place("parts"), "add a part", "the sheet has no parts")
	}
	return d
}

// part finds a part by id; nil if there is none.
func (d *document) part(id string) *partDoc {
	for i := range d.parts {
		if d.parts[i].id.text == id {
			return &d.parts[i]
		}
	}
	return nil
}

func (d *document) partIDs() []string {
	ids := make([]string, len(d.parts))
	for i, p := range d.parts {
		ids[i] = p.id.text
	}
	return ids
}

// operation finds an operation by id; nil if there is none.
func (d *document) operation(id string) *operationDoc {
	for i := range d.operations {
		if d.operations[i].id.text == id {
			return &d.operations[i]
		}
	}
	return nil
}

func (d *document) operationIDs() []string {
	ids := make([]string, len(d.operations))
	for i, o := range d.operations {
		ids[i] = o.id.text
	}
	return ids
}

// fact finds a fact by name; nil if there is none.
func (d *document) fact(name string) *factDoc {
	for i := range d.facts {
		if d.facts[i].name.text == name {
			return &d.facts[i]
		}
	}
	return nil
}
