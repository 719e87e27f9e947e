package config

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// told gives the faults in an error as "line:column what", and checks that each says what to do and the error is Invalid.
func told(t *testing.T, err error) []string {
	t.Helper()
	if err == nil {
		return nil
	}
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	var fs Faults
	require.True(t, errors.As(err, &fs), "%v", err)
	return places(t, fs)
}

func places(t *testing.T, fs Faults) []string {
	t.Helper()
	out := []string{}
	for _, f := range fs {
		require.NotEmpty(t, f.Next, f.String())
		f.Next = ""
		out = append(out, strings.TrimPrefix(f.String(), "x:"))
	}
	return out
}

func TestFaultsSayHowManyAndWhere(t *testing.T) {
	fs := Faults{{File: "fettle.yaml", Line: 3, Column: 5, What: "unknown key", Next: "take it out"}, {File: "fettle.yaml", Line: 9, What: "blank"}}
	err := fs.Err()
	require.EqualError(t, err, "2 faults in fettle.yaml: fettle.yaml:3:5: unknown key; take it out\nfettle.yaml:9: blank")
	require.NoError(t, Faults{}.Err())
	require.Equal(t, "--people: no number", Fault{Field: "--people", What: "no number"}.String())
	require.Equal(t, "f.csv:4, at: bad", Fault{File: "f.csv", Line: 4, Field: "at", What: "bad"}.String())
}
