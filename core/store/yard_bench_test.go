package store

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// BenchmarkStories tells the stories of 20 and of 200 jobs with ten tags each, which is what a look over the whole yard reads. The aim is 100 ms.
func BenchmarkStories(b *testing.B) {
	for _, jobs := range []int{20, 200} {
		b.Run(fmt.Sprint(jobs), func(b *testing.B) {
			book := newBook(b)
			for j := range jobs {
				number := fmt.Sprintf("J-%03d", j+2) // beside the one the book begins with
				_, err := book.OpenJob(b.Context(), core.Job{Number: number, Title: "One of many"}, "Wren")
				require.NoError(b, err)
				var acts []core.Act
				for i := range 10 {
					acts = append(acts, &core.Tag{What: fmt.Sprint("part ", i), State: core.TagOff, Lies: "rack 1"})
				}
				_, err = book.Act(b.Context(), number, "Wren", acts...)
				require.NoError(b, err)
			}
			for b.Loop() {
				ss, err := book.Stories(b.Context())
				require.NoError(b, err)
				require.Len(b, ss, jobs+1)
			}
		})
	}
}
