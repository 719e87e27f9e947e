package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What two wrote into a field who did not see each other's is kept, and a third's with it, until one is chosen; other fields are left alone.
func TestATagKeepsWhatDiffers(t *testing.T) {
	word := func(field, text, by string) TagWord { return TagWord{Field: field, Text: text, Stamp: Stamp{By: by}} }
	first, second, third := word("lies", "rack 2", "Wenna"), word("lies", "rack 5", "Pasco"), word("lies", "yard", "Jory")
	tag := Tag{ID: "T-001"}
	tag.Differ(first, second)
	was := tag
	tag.Differ(second, third)
	tag.Differ(word("note", "dry", "Wenna"), word("note", "wet", "Jory"))
	require.Equal(t, []TagWord{first, second}, was.Differing, "what was read before is left alone")
	require.Equal(t, []TagWord{first, second, third}, tag.Differing[:3])
	tag.Settle("lies")
	require.Equal(t, []TagWord{word("note", "dry", "Wenna"), word("note", "wet", "Jory")}, tag.Differing)
	require.Len(t, was.Differing, 2)
}
