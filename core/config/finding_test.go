package config

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const header = "subsystem,part,position,check,station,value,instrument,by,at,note"

func TestReadFindings(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	tests := map[string]string{
		"plain":          header + "\nbottom-end,main-journal,M1,diameter,FV,2.4985 in,micrometer,Wren,2026-03-02 10:15,\"again, \"\"clean\"\"\"\n",
		"byte order":     "\ufeff" + header + "\nbottom-end,main-journal,M1,diameter,FV,2.4985 in,micrometer,Wren,2026-03-02T10:15,\"again, \"\"clean\"\"\"\n",
		"cr lf":          header + "\r\nbottom-end,main-journal,M1,diameter,FV,2.4985 in,micrometer,Wren,2026-03-02 10:15:00,\"again, \"\"clean\"\"\"\r\n",
		"cr":             header + "\rbottom-end,main-journal,M1,diameter,FV,2.4985 in,micrometer,Wren,2026-03-02T10:15:00-05:00,\"again, \"\"clean\"\"\"\r",
		"no last end":    header + "\nbottom-end,main-journal,M1,diameter,FV,2.4985 in,micrometer,Wren,2026-03-02T15:15:00Z,\"again, \"\"clean\"\"\"",
		"semicolons":     strings.ReplaceAll(header, ",", ";") + ";unit\nbottom-end;main-journal;M1;diameter;FV;2.4985 in;micrometer;Wren;2026-03-02 10:15;again, \"clean\";\n",
		"tabs":           strings.ReplaceAll(header, ",", "\t") + "\nbottom-end\tmain-journal\tM1\tdiameter\tFV\t2.4985 in\tmicrometer\tWren\t2026-03-02 10:15\tagain, \"clean\"\n",
		"told separator": "sep=;\n" + strings.ReplaceAll(header, ",", ";") + "\nbottom-end;main-journal;M1;diameter;FV;2.4985 in;micrometer;Wren;2026-03-02 10:15;again, \"clean\"\n",
		"other order":    "Unit, Value ,subsystem,part,position,check,station,instrument,by,at,note\n,2.4985 in,bottom-end,main-journal,M1,diameter,FV,micrometer,Wren,2026-03-02 10:15,\"again, \"\"clean\"\"\"\n",
		"blank lines":    header + ",,\n\n,,,,,,,,,\nbottom-end,main-journal,M1,diameter,FV, 2.4985 in ,micrometer,Wren,2026-03-02 10:15,\"again, \"\"clean\"\"\",,\n\n",
	}
	for name, text := range tests {
		t.Run(name, func(t *testing.T) {
			rows, faults := ReadFindings([]byte(text), "x", zone)
			require.Empty(t, faults)
			require.Len(t, rows, 1)
			r := rows[0]
			require.Equal(t, time.Date(2026, 3, 2, 15, 15, 0, 0, time.UTC), r.Time)
			r.Line, r.At, r.Time = 0, "", time.Time{}
			require.Equal(t, Row{Subsystem: "bottom-end", Part: "main-journal", Position: "M1", Check: "diameter", Station: "FV", Value: "2.4985 in",
				Instrument: "micrometer", By: "Wren", Note: `again, "clean"`}, r)
		})
	}
}

func TestFindingsOfMechanics(t *testing.T) {
	text := header + ",unit\n" +
		"a,p,,c,,9/16\",rule,Wren,,\"two\nlines\",\n" + // an inch mark, and a note of two lines
		"a,p,,c,,\"1 1/2\"\"\",,,,,in\n" +
		"a,p,,c,,missing\n" + // short: what is not there is blank
		"a,p,,c,,missing,,,\n"
	rows, faults := ReadFindings([]byte(text), "x", nil)
	require.Empty(t, faults)
	require.Len(t, rows, 4)
	require.Equal(t, `9/16"`, rows[0].Value)
	require.Equal(t, "two\nlines", rows[0].Note)
	require.True(t, rows[0].Time.IsZero())
	require.Equal(t, []int{2, 4, 5, 6}, []int{rows[0].Line, rows[1].Line, rows[2].Line, rows[3].Line})
	require.Equal(t, `1 1/2"`, rows[1].Value)
	require.Equal(t, "in", rows[1].Unit)
	require.Equal(t, []int{0, 1}, []int{rows[2].Nth, rows[3].Nth}, "equal rows are counted")
	require.Equal(t, rows[2].Normalised(), rows[3].Normalised())
	require.NotEqual(t, rows[1].Normalised(), rows[2].Normalised())
}

func TestFindingFaults(t *testing.T) {
	tests := map[string]struct {
		text string
		rows int
		want []string
	}{
		"empty":     {"", 0, []string{" the file is empty"}},
		"utf-16":    {"\xff\xfea\x00", 0, []string{"1: the file is UTF-16"}},
		"no header": {"a,p,,c,,1,,,,\n", 0, []string{"1: the first line does not name the columns"}},
		"columns": {"subsystem,part,positon,check,station,value,instrument,,at,at,note,by\na,p,,c,,1,,,,,\n", 0,
			[]string{"1, positon: unknown column", "1: column 8 has no name", "1, at: the column stands here twice", "1, position: the column is missing"}},
		"rows": {header + "\n" +
			"a,p,,c,,1,,,yesterday,\n" +
			"a,p,,c,,1,,,2026-02-30,\n" +
			"a,,,c,,,,,02/03/2026,\n" +
			"a,p,,c,,2,50 in,,,,,x\n" +
			"a,p,,c,,1,,\xff,,\n" +
			"a,p,,c,,1,,\x07,,\n" +
			"a,p,,c,,1,,,,good\n" +
			",p,,c,,1,,,,\n", 1,
			[]string{`2, at: "yesterday" is no time`, `3, at: "2026-02-30" is no time`, "4, part: the part is blank", "4, value: a blank is not a reading",
				`4, at: "02/03/2026" is no time`, "5: 12 cells, but there are 10 columns", "6, by: this is not UTF-8 text",
				"7, by: there is an unprintable character in the cell", "9, subsystem: the subsystem is blank"}},
		"quotes": {header + "\n" +
			"a,p,,c,,1,,,,good\n" +
			"a,p,,c,,\"9/16,,,,bad\n" + // never closed
			"a,p,,c,,2,,,,\"good\"\n" +
			"a,p,,c,,\"9\"/16,,,,bad\n" + // closed in the middle
			"a,p,,c,,3,,,,good\n" +
			"a,p,,c,,3,,,,\"bad\n", 3,
			[]string{"3: a quote is opened and not closed as it should be", "5: a quote is opened and not closed as it should be",
				"7: a quote is opened and not closed as it should be"}},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			rows, faults := ReadFindings([]byte(tt.text), "x", nil)
			require.Len(t, rows, tt.rows)
			require.Equal(t, tt.want, places(t, faults))
		})
	}
}
