package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestExpand(t *testing.T) {
	counts := func(name string) (int, bool) { n, ok := map[string]int{"mains": 3, "none": 0}[name]; return n, ok }
	for _, c := range []struct {
		entry string
		want  []string
		err   string
	}{
		{"LF", []string{"LF"}, ""},
		{"M1..M{mains}", []string{"M1", "M2", "M3"}, ""},
		{"2..{mains}", []string{"2", "3"}, ""},
		{"1..{none}", nil, ""},
		{"P{mains}", []string{"P3"}, ""},
		{"M1..M{more}", nil, "more is no count"},
		{"{mains}{{mains}", []string{"3{3"}, ""},
		{"{a b}{}{", []string{"{a b}{}{"}, ""},
		{"M1..N2", nil, "does not run"},
		{"M1..", nil, "does not run"},
		{"M1..M1000", nil, "more than 200 positions"},
		{"M1..M99999999999999999999", nil, "more than 200 positions"},
	} {
		t.Run(c.entry, func(t *testing.T) {
			got, err := expand(c.entry, counts)
			if c.err != "" {
				require.ErrorContains(t, err, c.err)
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}
