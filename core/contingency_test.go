package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What is held back stands with the paper it was agreed on, every note that drew or saved, and what is left of it.
func TestHeldBackDrawnAndLeft(t *testing.T) {
	s := agreedStory(t, 2)
	require.Nil(t, s.HeldBack(), "nothing is agreed yet")
	whole, left := s.Contingency()
	require.Equal(t, []string{"0.00", "0.00"}, []string{whole.Number(), left.Number()})

	doing(t, s, budget(2, 1100))
	approved(t, s, 1, SurpriseOption{Do: "weld", Sum: dollars(65), Tax: dollars(5)})
	approved(t, s, 2, SurpriseOption{Do: "a new one", Sum: dollars(40)})
	approved(t, s, 3, SurpriseOption{Do: "leave it"})
	c := s.HeldBack()
	require.Equal(t, []any{"J-001-S", 2, "O. Wner", "150.00", "50.00"}, []any{c.Paper, c.Revision, c.Who, c.Held.Number(), c.Left.Number()})
	require.Equal(t, s.Agreed(GateBudget).At, c.Agreed)
	require.Len(t, c.Drawn, 2, "what costs nothing draws nothing")
	require.Equal(t, []any{"N-001", "60.00", "N-002", "40.00"}, []any{c.Drawn[0].Note, c.Drawn[0].Sum.Number(), c.Drawn[1].Note, c.Drawn[1].Sum.Number()}, "before tax")
	require.Equal(t, s.Note("N-001").Closed.At, c.Drawn[0].At)
	require.Equal(t, "O. Wner", c.Drawn[0].Who)
}
