package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestReadAsked(t *testing.T) {
	low, high, only := 2.4790, 2.4795, .002
	half, more := 1.5, 1.5625
	for text, want := range map[string]Asked{
		"M1 diameter 2.4790..2.4795 in": {What: "M1 diameter", Low: &low, High: &high, Unit: "in"},
		"runout ..0.002 in":             {What: "runout", High: &only, Unit: "in"},
		"M1 diameter 2.4790.. in":       {What: "M1 diameter", Low: &low, Unit: "in"},
		"width 1 1/2..1 9/16 in":        {What: "width", Low: &half, High: &more, Unit: "in"},
		"bore 2 2.4790..2.4795 in":      {What: "bore 2", Low: &low, High: &high, Unit: "in"},
		"no cracks, paper with it":      {What: "no cracks, paper with it"},
	} {
		got, err := ReadAsked(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "M1 diameter 2.4790 in", "2.4790..2.4795 in", "M1 diameter 2.4795..2.4790 in", "M1 diameter 2.4790..2.4795", "M1 diameter .. in", "M1 diameter 2.4790..2.4795 furlongs"} {
		_, err := ReadAsked(text)
		require.Equal(t, Invalid, ErrorCode(err), text)
		require.NotEmpty(t, ErrorNext(err), text)
	}
}

// Worked by hand: 62.975 mm / 25.4 = 2.47933 in, between 2.4790 and 2.4795; the inch is 25.4 mm exactly (NIST SP 811).
func TestReadResult(t *testing.T) {
	asked := []Asked{}
	for _, text := range []string{"M1 diameter 2.4790..2.4795 in", "M1 2..3 mm", "no cracks"} {
		a, err := ReadAsked(text)
		require.NoError(t, err)
		asked = append(asked, a)
	}
	for text, ok := range map[string]bool{"m1 diameter 62.975 mm": true, "M1 diameter 2.4790": true, "M1 diameter 2.4796 in": false, "M1: 2.5": true, "No cracks passes, paper 31": true, "no cracks fails: one at the web": false} {
		r, err := ReadResult(text, asked)
		require.NoError(t, err, text)
		require.Equal(t, ok, r.OK, text)
		require.NotEmpty(t, r.As, text)
	}
	for _, text := range []string{"M2 diameter 2.4790 in", "M1 diameter", "M1 diameter 3 psi", "no cracks", "no cracks perhaps"} {
		_, err := ReadResult(text, asked)
		require.Equal(t, Invalid, ErrorCode(err), text)
	}
}
