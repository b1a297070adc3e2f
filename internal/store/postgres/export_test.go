package postgres

import "context"

// Synchronous is what a connection of the store works under.
func (s *Store) Synchronous(ctx context.Context) (level string, err error) {
	return level, s.pool.QueryRow(ctx, `SHOW synchronous_commit`).Scan(&level)
}

// Insert is the statement of a put, for a loop without the store.
const Insert = insert
