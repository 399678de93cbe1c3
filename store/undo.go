package store

import (
	"context"
	"fmt"
)

// ToUndo returns the revision that the client's next undo takes back: its own last change not yet undone. Applying the
// revision's Inverse takes it back. ErrNothing when there is none.
func (s *Store) ToUndo(ctx context.Context, id, client string) (Revision, error) {
	undo, _, err := s.stacks(ctx, id, client)
	return s.top(ctx, id, undo, err)
}

// ToRedo returns the undo revision that the client's next redo takes back; a new change of the client forgets them.
func (s *Store) ToRedo(ctx context.Context, id, client string) (Revision, error) {
	_, redo, err := s.stacks(ctx, id, client)
	return s.top(ctx, id, redo, err)
}

func (s *Store) top(ctx context.Context, id string, stack []int, err error) (Revision, error) {
	if err != nil {
		return Revision{}, err
	}
	if len(stack) == 0 {
		return Revision{}, ErrNothing
	}
	return s.Revision(ctx, id, stack[len(stack)-1])
}

// stacks plays the client's revisions: what can be undone and what can be redone, the next one last. The first
// revision of a build cannot be undone.
func (s *Store) stacks(ctx context.Context, id, client string) (undo, redo []int, err error) {
	rows, err := s.read.QueryContext(ctx, `SELECT number, kind, undoes FROM revisions WHERE build = ? AND client = ? AND number > 1 ORDER BY number`, id, client)
	if err != nil {
		return nil, nil, translate(err)
	}
	defer rows.Close()
	for rows.Next() {
		var n, undoes int
		var kind string
		if err := rows.Scan(&n, &kind, &undoes); err != nil {
			return nil, nil, translate(err)
		}
		switch Kind(kind) {
		case Undone:
			undo, err = pop(undo, undoes)
			redo = append(redo, n)
		case Redone:
			redo, err = pop(redo, undoes)
			undo = append(undo, n)
		default:
			undo, redo = append(undo, n), nil
		}
		if err != nil {
			return nil, nil, fmt.Errorf("revision %d of %q: %w", n, id, err)
		}
	}
	return undo, redo, translate(rows.Err())
}

func pop(stack []int, want int) ([]int, error) {
	if len(stack) == 0 || stack[len(stack)-1] != want {
		return nil, fmt.Errorf("takes back revision %d, which is not the last", want)
	}
	return stack[:len(stack)-1], nil
}
