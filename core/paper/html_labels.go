package paper

import (
	"fmt"
	"strings"
)

// htmlLabel is a label with its code as one path, a unit a module.
type htmlLabel struct {
	Label
	Size int
	Path string
}

func htmlLabels(b LabelSheet) []htmlLabel {
	var out []htmlLabel
	for _, l := range b.Items {
		var path strings.Builder
		for _, r := range runsOf(l.Code) {
			fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", r.X, r.Y, r.Width, r.Width)
		}
		out = append(out, htmlLabel{l, len(l.Code), path.String()})
	}
	return out
}
