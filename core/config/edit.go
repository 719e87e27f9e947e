package config

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"github.com/fettle-tools/fettle/core"
)

// Edit is one value to be written into a settings file.
type Edit struct {
	In    string // the set of keys that it stands in, like rates; "": it stands at the top
	Key   string
	Value string // a figure or a word; "" takes the line out
}

// EditSettings writes values into the text of a settings file and changes nothing else of it: comments, order and blanks stay as a person wrote them. The
// file must be sound before, and what comes of it is read as ReadSettings does. It is Invalid where a value cannot be meant, and a Conflict where it is
// written in a way that only a person can change.
func EditSettings(data []byte, file string, edits []Edit) ([]byte, error) {
	if _, err := ReadSettings(data, file, nil); err != nil {
		return nil, err
	}
	for _, e := range edits {
		out, err := e.into(string(data), file)
		if err != nil {
			return nil, err
		}
		data = []byte(out)
	}
	if _, err := ReadSettings(data, file, nil); err != nil {
		return nil, err
	}
	return data, nil
}

func (e Edit) into(data, file string) (string, error) {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(data), &doc); err != nil {
		return "", err
	}
	f := &edited{lines: strings.SplitAfter(data, "\n"), end: "\n"}
	if strings.Contains(data, "\r\n") {
		f.end = "\r\n"
	}
	top := doc.Content[0]
	if e.In == "" {
		return f.done(f.set(top, e, file))
	}
	_, in := entry(top, e.In)
	switch {
	case in == nil && e.Value != "":
		f.add(len(f.lines), e.In+":", "  "+e.line())
	case in == nil:
	case blankNode(in) && e.Value != "":
		key, _ := entry(top, e.In)
		f.add(key.Line, "  "+e.line())
	case blankNode(in):
	default:
		return f.done(f.set(in, e, file))
	}
	return f.done(nil)
}

func (e Edit) line() string { return e.Key + ": " + e.Value }

// entry finds a key of a mapping and its value; nil, if it is not there.
func entry(m *yaml.Node, key string) (k, v *yaml.Node) {
	for i := 0; i+1 < len(m.Content); i += 2 {
		if m.Content[i].Value == key {
			return m.Content[i], m.Content[i+1]
		}
	}
	return nil, nil
}

// edited is a file's text, line by line, each with its end.
type edited struct {
	lines []string
	end   string
}

func (f *edited) done(err error) (string, error) { return strings.Join(f.lines, ""), err }

// add puts whole lines behind the first n.
func (f *edited) add(n int, lines ...string) {
	if n > 0 && f.lines[n-1] == "" {
		n-- // behind the end of the last line
	}
	if n > 0 && !strings.HasSuffix(f.lines[n-1], "\n") {
		f.lines[n-1] += f.end
	}
	for i := range lines {
		lines[i] += f.end
	}
	f.lines = slices.Insert(f.lines, n, lines...)
}

// set writes a value into a mapping that has entries or braces.
func (f *edited) set(m *yaml.Node, e Edit, file string) error {
	hand := func(n *yaml.Node) error {
		err := core.Errorf(core.Conflict, "change it there by hand", "%s is written in a way that only a person can change", e.Key)
		err.Where = fmt.Sprintf("%s:%d", file, n.Line)
		return err
	}
	flow := m.Style&yaml.FlowStyle != 0
	key, value := entry(m, e.Key)
	switch {
	case key == nil && e.Value == "":
		return nil
	case key == nil && flow && len(m.Content) == 0:
		return f.splice(m.Line, m.Column+1, 0, e.line(), hand(m))
	case key == nil && flow:
		last := m.Content[len(m.Content)-1]
		n, ok := f.length(last)
		if !ok {
			return hand(last)
		}
		return f.splice(last.Line, last.Column+n, 0, ", "+e.line(), hand(last))
	case key == nil:
		last := m.Content[len(m.Content)-1]
		if e.In == "" {
			f.add(len(f.lines), e.line())
			return nil
		}
		f.add(last.Line, strings.Repeat(" ", m.Content[0].Column-1)+e.line())
		return nil
	case e.Value == "" && flow:
		return hand(key)
	case e.Value == "":
		f.lines = slices.Delete(f.lines, key.Line-1, key.Line)
		return nil
	case blankNode(value) && value.Value == "":
		return f.splice(key.Line, key.Column+utf8.RuneCountInString(key.Value)+1, 0, " "+e.Value, hand(key))
	}
	n, ok := f.length(value)
	if !ok {
		return hand(value)
	}
	return f.splice(value.Line, value.Column, n, e.Value, hand(value))
}

// length is how many characters a scalar takes in its line; ok is false if it is not of one line.
func (f *edited) length(n *yaml.Node) (length int, ok bool) {
	if n.Kind != yaml.ScalarNode {
		return 0, false
	}
	line := []rune(f.lines[n.Line-1])
	if n.Column-1 > len(line) {
		return 0, false
	}
	rest := string(line[n.Column-1:])
	switch {
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle|yaml.TaggedStyle) != 0:
		return 0, false
	case n.Style&yaml.SingleQuotedStyle != 0, n.Style&yaml.DoubleQuotedStyle != 0:
		end := strings.IndexByte(rest[1:], rest[0])
		if end < 0 || strings.ContainsAny(rest[1:1+end], `\`) || strings.HasPrefix(rest[end+2:], rest[:1]) {
			return 0, false
		}
		return utf8.RuneCountInString(rest[:end+2]), true
	}
	return utf8.RuneCountInString(n.Value), strings.HasPrefix(rest, n.Value)
}

// splice writes text in place of some characters of a line, counted from 1.
func (f *edited) splice(line, column, length int, text string, otherwise error) error {
	was := []rune(f.lines[line-1])
	if column-1+length > len(was) {
		return otherwise
	}
	f.lines[line-1] = string(was[:column-1]) + text + string(was[column-1+length:])
	return nil
}
