package main

import (
	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) backupCommand() *cobra.Command {
	var restore bool
	cmd := &cobra.Command{
		Use: "backup FILE", Short: "Copy the book while it is in use; --restore makes a book of a copy", Args: cobra.ExactArgs(1),
		Example: "  fettle backup book-2026-11-25.db\n  fettle -C new-folder backup --restore book-2026-11-25.db",
		RunE: func(cmd *cobra.Command, args []string) error {
			if restore {
				book, err := store.Restore(cmd.Context(), args[0], c.dir(), c.clock)
				if err != nil {
					return err
				}
				if err := book.Close(); err != nil {
					return err
				}
				return c.report(map[string]string{"shop": c.dir()}, "restored; put fettle.yaml beside it if it is not there")
			}
			return c.withShop(cmd.Context(), func(s *shop) error {
				if err := s.book.Backup(cmd.Context(), args[0]); err != nil {
					return err
				}
				return c.report(map[string]string{"file": args[0]}, args[0])
			})
		},
	}
	cmd.Flags().BoolVar(&restore, "restore", false, "make the shop folder's book from FILE")
	return cmd
}
