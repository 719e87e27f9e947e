package main

import (
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"
)

// table is columns of words for a terminal: left-aligned, or right-aligned where the head ends in a space of its own choosing.
type table struct {
	right []bool
	rows  [][]string
	limit []int // widest a column may get; 0: no limit
}

// newTable makes a table with a head; a head that starts with ">" aligns its column right.
func newTable(heads ...string) *table {
	t := &table{right: make([]bool, len(heads)), limit: make([]int, len(heads))}
	row := make([]string, len(heads))
	for i, h := range heads {
		row[i], t.right[i] = strings.TrimPrefix(h, ">"), strings.HasPrefix(h, ">")
	}
	t.rows = append(t.rows, row)
	return t
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// print writes the table, indented, with the last column free to run on and wrapped at width.
func (t *table) print(w io.Writer, indent string, width int) {
	wide := make([]int, len(t.right))
	for _, r := range t.rows {
		for i, c := range r {
			wide[i] = max(wide[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range t.rows {
		if blankRow(r) {
			continue
		}
		line, last := indent, len(r)-1
		for i, c := range r[:last] {
			pad := strings.Repeat(" ", wide[i]-utf8.RuneCountInString(c))
			if t.right[i] {
				line += pad + c + "  "
			} else {
				line += c + pad + "  "
			}
		}
		if t.right[last] {
			line += strings.Repeat(" ", wide[last]-utf8.RuneCountInString(r[last]))
		}
		hang := utf8.RuneCountInString(line)
		for i, part := range wrap(r[last], max(width-hang, 24)) {
			if i > 0 {
				line = strings.Repeat(" ", hang)
			}
			fmt.Fprintln(w, strings.TrimRight(line+part, " "))
		}
	}
}

func blankRow(r []string) bool { return strings.Join(r, "") == "" }

// wrap breaks a text at spaces so that no line is longer than width, where words allow.
func wrap(text string, width int) []string {
	if utf8.RuneCountInString(text) <= width {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, w := range unbroken(text) {
		switch {
		case line == "":
			line = w
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) <= width:
			line += " " + w
		default:
			lines, line = append(lines, line), w
		}
	}
	return append(lines, line)
}

// thousands finds an amount of money as it is printed: "12 255.31".
var thousands = regexp.MustCompile(`[0-9]{1,3}( [0-9]{3})+(\.[0-9]+)?\b`)

// unbroken parts a text at its spaces, but for those inside an amount.
func unbroken(text string) []string {
	const kept = "\x00"
	words := strings.Fields(thousands.ReplaceAllStringFunc(text, func(s string) string { return strings.ReplaceAll(s, " ", kept) }))
	for i, w := range words {
		words[i] = strings.ReplaceAll(w, kept, " ")
	}
	return words
}

// para writes a paragraph, wrapped and indented.
func para(w io.Writer, indent, text string) {
	for _, l := range wrap(text, screen-len(indent)) {
		fmt.Fprintln(w, indent+l)
	}
}

// screen is the width of what is printed: it fits a tablet and half a laptop.
const screen = 100
