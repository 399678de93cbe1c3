package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Draft is text that could not be read, kept beside the last good revision.
type Draft struct {
	Base   int // the revision it was typed over
	Client string
	Text   string
	At     time.Time
}

// SaveDraft keeps the draft of a build in place of the one before.
func (s *Store) SaveDraft(ctx context.Context, id string, d Draft) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		if err := exists(tx, id); err != nil {
			return err
		}
		_, err := tx.Exec(`INSERT INTO drafts (build, base, client, text, at) VALUES (?,?,?,?,?)
			ON CONFLICT (build) DO UPDATE SET base = excluded.base, client = excluded.client, text = excluded.text, at = excluded.at`,
			id, d.Base, d.Client, d.Text, s.stamp())
		return err
	})
}

// Draft returns the draft of a build, if there is one.
func (s *Store) Draft(ctx context.Context, id string) (Draft, bool, error) {
	var d Draft
	var at string
	err := s.read.QueryRowContext(ctx, `SELECT base, client, text, at FROM drafts WHERE build = ?`, id).Scan(&d.Base, &d.Client, &d.Text, &at)
	if errors.Is(err, sql.ErrNoRows) {
		return d, false, nil
	}
	if err != nil {
		return d, false, translate(err)
	}
	d.At, err = parseTime(at)
	return d, err == nil, err
}

// DropDraft forgets the draft of a build.
func (s *Store) DropDraft(ctx context.Context, id string) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		_, err := tx.Exec(`DELETE FROM drafts WHERE build = ?`, id)
		return err
	})
}

// Entry is one line of a build's record. It is only ever added.
type Entry struct {
	ID       string // made by the client; a repeated id is kept once
	Kind     string
	Revision int // the revision of the build it belongs to
	Body     string
	Bytes    []byte // a photo; absent in a list
	At       time.Time
}

// AddEntry adds a line to the record of a build. A repeated id changes nothing.
func (s *Store) AddEntry(ctx context.Context, id string, e Entry) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		if err := exists(tx, id); err != nil {
			return err
		}
		_, err := tx.Exec(`INSERT INTO records (build, number, id, kind, revision, body, at, bytes)
			SELECT ?1, coalesce(max(number), 0) + 1, ?2, ?3, ?4, ?5, ?6, ?7 FROM records WHERE build = ?1
			ON CONFLICT (build, id) DO NOTHING`, id, e.ID, e.Kind, e.Revision, e.Body, s.stamp(), e.Bytes)
		return err
	})
}

// Entries returns the record of a build in the order it was written; all kinds when kind is "".
func (s *Store) Entries(ctx context.Context, id, kind string) ([]Entry, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT id, kind, revision, body, at FROM records WHERE build = ?1 AND (?2 = '' OR kind = ?2) ORDER BY number`, id, kind)
	if err != nil {
		return nil, translate(err)
	}
	return collect(rows, func() (Entry, error) {
		var e Entry
		var at string
		if err := rows.Scan(&e.ID, &e.Kind, &e.Revision, &e.Body, &at); err != nil {
			return e, err
		}
		var err error
		e.At, err = parseTime(at)
		return e, err
	})
}

// EntryBytes returns the bytes kept with a line of the record.
func (s *Store) EntryBytes(ctx context.Context, id, entry string) ([]byte, error) {
	var b []byte
	err := s.read.QueryRowContext(ctx, `SELECT bytes FROM records WHERE build = ? AND id = ?`, id, entry).Scan(&b)
	if errors.Is(err, sql.ErrNoRows) || err == nil && len(b) == 0 {
		return nil, fmt.Errorf("%w: entry %q of %q has no bytes", ErrNoSuch, entry, id)
	}
	return b, translate(err)
}

// Paper is a paper as it was issued: its bytes are never made again.
type Paper struct {
	Number   int
	Name     string
	Status   string
	Revision int
	Hash     string // of the build's text
	Bytes    []byte // absent in a list
	At       time.Time
}

// Issue keeps a paper and returns its number within the build.
func (s *Store) Issue(ctx context.Context, id string, p Paper) (int, error) {
	var n int
	err := s.change(ctx, func(tx *sql.Tx) error {
		if err := exists(tx, id); err != nil {
			return err
		}
		return tx.QueryRow(`INSERT INTO papers (build, number, name, status, revision, hash, bytes, at)
			SELECT ?1, coalesce(max(number), 0) + 1, ?2, ?3, ?4, ?5, ?6, ?7 FROM papers WHERE build = ?1 RETURNING number`,
			id, p.Name, p.Status, p.Revision, p.Hash, p.Bytes, s.stamp()).Scan(&n)
	})
	return n, err
}

const paperColumns = `number, name, status, revision, hash, at`

func scanPaper(row interface{ Scan(...any) error }, more ...any) (Paper, error) {
	var p Paper
	var at string
	if err := row.Scan(append([]any{&p.Number, &p.Name, &p.Status, &p.Revision, &p.Hash, &at}, more...)...); err != nil {
		return p, err
	}
	var err error
	p.At, err = parseTime(at)
	return p, err
}

// Papers lists the papers issued for a build, without their bytes.
func (s *Store) Papers(ctx context.Context, id string) ([]Paper, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT `+paperColumns+` FROM papers WHERE build = ? ORDER BY number`, id)
	if err != nil {
		return nil, translate(err)
	}
	return collect(rows, func() (Paper, error) { return scanPaper(rows) })
}

// Paper returns one issued paper with its bytes.
func (s *Store) Paper(ctx context.Context, id string, n int) (Paper, error) {
	var bytes []byte
	p, err := scanPaper(s.read.QueryRowContext(ctx, `SELECT `+paperColumns+`, bytes FROM papers WHERE build = ? AND number = ?`, id, n), &bytes)
	if errors.Is(err, sql.ErrNoRows) {
		return p, fmt.Errorf("%w: paper %d of %q", ErrNoSuch, n, id)
	}
	p.Bytes = bytes
	return p, translate(err)
}

// Workshop returns the newest workshop text; "" when none was kept. Number counts its versions.
func (s *Store) Workshop(ctx context.Context) (text string, number int, err error) {
	err = s.read.QueryRowContext(ctx, `SELECT text, number FROM workshop ORDER BY number DESC LIMIT 1`).Scan(&text, &number)
	if errors.Is(err, sql.ErrNoRows) {
		return "", 0, nil
	}
	return text, number, translate(err)
}

// SetWorkshop keeps a new workshop text on version base, or answers Stale. Earlier versions stay.
func (s *Store) SetWorkshop(ctx context.Context, base int, client, text string) (int, error) {
	err := s.change(ctx, func(tx *sql.Tx) error {
		var now int
		if err := tx.QueryRow(`SELECT coalesce(max(number), 0) FROM workshop`).Scan(&now); err != nil {
			return err
		}
		if now != base {
			return Stale{Base: base, Now: now}
		}
		_, err := tx.Exec(`INSERT INTO workshop (number, client, text, at) VALUES (?,?,?,?)`, now+1, client, text, s.stamp())
		return err
	})
	if err != nil {
		return 0, err
	}
	return base + 1, nil
}

func exists(tx *sql.Tx, id string) error {
	var one int
	err := tx.QueryRow(`SELECT 1 FROM builds WHERE id = ?`, id).Scan(&one)
	if errors.Is(err, sql.ErrNoRows) {
		return fmt.Errorf("%w: %q", ErrNoBuild, id)
	}
	return err
}
