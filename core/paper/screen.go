package paper

import (
	"html/template"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// ScreenInk is what the pictures of a page on a screen are drawn with. It must stand once in a page that holds one.
func ScreenInk() (template.HTML, error) {
	return picture("ink", struct{ Sand, Rust string }{sand.CSS(), rust.CSS()})
}

// ScreenGauge draws a wear gauge for a page: the same bar as on paper. Nil, a part not seen, is an empty outline; a gauge of which no bar can be drawn is
// nothing.
func ScreenGauge(g *core.Gauge) (template.HTML, error) {
	h := htmlGaugeOf(GaugeRow{Gauge: g, Unseen: g == nil})
	if !h.Drawn && !h.Unseen {
		return "", nil
	}
	return picture("bar", h)
}

// ScreenCurve draws a curve for a page: the same as on paper, narrower.
func ScreenCurve(c Curve) (template.HTML, error) {
	h := htmlCurveOf(c, screenFrame)
	for _, texts := range [][]htmlMark{h.Marks, h.Marked, h.Steps} { // a screen parts thousands by a blank
		for i := range texts {
			texts[i].Text = strings.ReplaceAll(texts[i].Text, ",", "\u00a0")
		}
	}
	return picture("curve", h)
}

func picture(name string, data any) (template.HTML, error) {
	var out strings.Builder
	if err := pageTemplate.ExecuteTemplate(&out, name, data); err != nil {
		return "", err
	}
	return template.HTML(out.String()), nil //nolint:gosec // the template has escaped what it was given
}

// ScreenLabels draws labels for a page: the same as on paper, to be cut out.
func ScreenLabels(s LabelSheet) (template.HTML, error) { return picture("labels", htmlLabels(s)) }

// ScreenCode draws a square code for a page.
func ScreenCode(text string) (template.HTML, error) {
	code, err := squareCode(text)
	if err != nil {
		return "", err
	}
	return picture("code", htmlLabels(LabelSheet{[]Label{{Number: text, Code: code}}})[0])
}

// CodeLines draws a square code as lines of text, two rows of modules in each, dark on light.
func CodeLines(text string) ([]string, error) {
	code, err := squareCode(text)
	if err != nil {
		return nil, err
	}
	var out []string
	for y := 0; y < len(code); y += 2 {
		var line strings.Builder
		for x := range code[y] {
			upper, lower := code[y][x], y+1 < len(code) && code[y+1][x]
			line.WriteString(map[[2]bool]string{{false, false}: " ", {true, false}: "▀", {false, true}: "▄", {true, true}: "█"}[[2]bool{upper, lower}])
		}
		out = append(out, line.String())
	}
	return out, nil
}
