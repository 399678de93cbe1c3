package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Head is what the list of builds shows without reading a text.
type Head struct {
	Name, Customer, Stage string
	Items                 int
}

// Build is one build as it stands.
type Build struct {
	ID       string
	Head     Head
	Revision int
	Text     string // absent in a list
	Hash     string
	Changed  time.Time
	Deleted  bool
	Draft    bool   // there is unreadable text kept beside it
	Summary  string // see SetSummary; "" when it belongs to an older revision
}

const buildColumns = `b.id, b.name, b.customer, b.stage, b.items, b.revision, b.hash, b.changed, b.deleted IS NOT NULL, b.summary,
	EXISTS (SELECT 1 FROM drafts d WHERE d.build = b.id)`

func scanBuild(row interface{ Scan(...any) error }, more ...any) (Build, error) {
	var b Build
	var changed string
	err := row.Scan(append([]any{&b.ID, &b.Head.Name, &b.Head.Customer, &b.Head.Stage, &b.Head.Items, &b.Revision, &b.Hash, &changed, &b.Deleted, &b.Summary, &b.Draft}, more...)...)
	if err != nil {
		return b, err
	}
	b.Changed, err = parseTime(changed)
	return b, err
}

// List returns the builds, the last changed first; deleted ones only when asked for. Texts are left out.
func (s *Store) List(ctx context.Context, deleted bool) ([]Build, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT `+buildColumns+` FROM builds b WHERE ? OR b.deleted IS NULL ORDER BY b.changed DESC, b.id`, deleted)
	if err != nil {
		return nil, translate(err)
	}
	return collect(rows, func() (Build, error) { return scanBuild(rows) })
}

// Load returns a build with its newest text. A deleted build comes with ErrDeleted.
func (s *Store) Load(ctx context.Context, id string) (Build, error) {
	var text string
	b, err := scanBuild(s.read.QueryRowContext(ctx, `SELECT `+buildColumns+`, b.text FROM builds b WHERE b.id = ?`, id), &text)
	if errors.Is(err, sql.ErrNoRows) {
		return b, fmt.Errorf("%w: %q", ErrNoBuild, id)
	}
	if err != nil {
		return b, translate(err)
	}
	b.Text = text
	if b.Deleted {
		return b, fmt.Errorf("%w: %q", ErrDeleted, id)
	}
	return b, nil
}

// Newest returns the number of the newest revision, for a caller that keeps the text itself.
func (s *Store) Newest(ctx context.Context, id string) (int, error) {
	var n int
	var deleted bool
	err := s.read.QueryRowContext(ctx, `SELECT revision, deleted IS NOT NULL FROM builds WHERE id = ?`, id).Scan(&n, &deleted)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return 0, fmt.Errorf("%w: %q", ErrNoBuild, id)
	case err != nil:
		return 0, translate(err)
	case deleted:
		return n, fmt.Errorf("%w: %q", ErrDeleted, id)
	}
	return n, nil
}

// Pulse tells whether anything of a build changed, also by another process.
type Pulse struct {
	Revision int
	Entries  int // of the record
	Deleted  bool
}

// Pulse reads the pulse of a build.
func (s *Store) Pulse(ctx context.Context, id string) (Pulse, error) {
	var p Pulse
	err := s.read.QueryRowContext(ctx, `SELECT revision, (SELECT coalesce(max(number), 0) FROM records WHERE build = ?1), deleted IS NOT NULL FROM builds WHERE id = ?1`, id).Scan(&p.Revision, &p.Entries, &p.Deleted)
	if errors.Is(err, sql.ErrNoRows) {
		return p, fmt.Errorf("%w: %q", ErrNoBuild, id)
	}
	return p, translate(err)
}

// Create keeps a new build; first is its first revision, number 1. An id once used is never given again, even when the
// build is deleted. A repeated change id on the same build answers the build that it made.
func (s *Store) Create(ctx context.Context, id string, head Head, first Change) (Revision, error) {
	var made Revision
	err := s.change(ctx, func(tx *sql.Tx) error {
		var exists bool
		if err := tx.QueryRow(`SELECT EXISTS (SELECT 1 FROM builds WHERE id = ?)`, id).Scan(&exists); err != nil {
			return err
		}
		if exists {
			old, found, err := byChange(tx, id, first.ID)
			if err != nil {
				return err
			}
			if found && old.Number == 1 {
				made = old
				made.Repeated = true
				return nil
			}
			return fmt.Errorf("%w: %q", ErrExists, id)
		}
		if _, err := tx.Exec(`INSERT INTO builds (id, name, customer, stage, items, revision, text, hash, changed) VALUES (?, '', '', '', 0, 0, '', '', '')`, id); err != nil {
			return err
		}
		var err error
		made, err = s.insert(tx, id, 0, "", head, first)
		return err
	})
	return made, err
}

// Delete puts a build aside; it is kept whole.
func (s *Store) Delete(ctx context.Context, id string) error { return s.setDeleted(ctx, id, true) }

// Restore brings a deleted build back.
func (s *Store) Restore(ctx context.Context, id string) error { return s.setDeleted(ctx, id, false) }

func (s *Store) setDeleted(ctx context.Context, id string, deleted bool) error {
	var when any
	if deleted {
		when = s.stamp()
	}
	return s.change(ctx, func(tx *sql.Tx) error {
		return oneRow(tx.Exec(`UPDATE builds SET deleted = ? WHERE id = ?`, when, id))
	})
}

// SetSummary keeps a text of the caller's beside revision n for the list of builds. It is forgotten with the next
// revision, and not kept when n is no longer the newest.
func (s *Store) SetSummary(ctx context.Context, id string, n int, summary string) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		_, err := tx.Exec(`UPDATE builds SET summary = ? WHERE id = ? AND revision = ?`, summary, id, n)
		return err
	})
}

func oneRow(res sql.Result, err error) error {
	if err != nil {
		return err
	}
	n, err := res.RowsAffected()
	if err != nil {
		return err
	}
	if n == 0 {
		return ErrNoBuild
	}
	return nil
}

func collect[T any](rows *sql.Rows, scan func() (T, error)) ([]T, error) {
	defer rows.Close()
	var out []T
	for rows.Next() {
		v, err := scan()
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, translate(rows.Err())
}
