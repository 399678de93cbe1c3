package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// Kind tells how a revision came about.
type Kind string

// The kinds of revision.
const (
	Made   Kind = "change"
	Undone Kind = "undo"
	Redone Kind = "redo"
	Typed  Kind = "text"
)

// Change is what makes the next revision: the text it leaves and how it came about.
type Change struct {
	ID      string // made by the client; a repeated id is applied once
	Client  string // whose undo it belongs to
	Kind    Kind
	Undoes  int // the revision that an undo or a redo takes back
	Title   string
	Ops     json.RawMessage // what was done
	Inverse json.RawMessage // what takes it back
	Paths   []string        // the document paths it touched
	Text    string          // the whole text afterwards
}

// Revision is one step in the life of a build.
type Revision struct {
	Number   int
	Change   string
	Client   string
	Kind     Kind
	Undoes   int
	Title    string
	At       time.Time
	Ops      json.RawMessage
	Inverse  json.RawMessage
	Paths    []string
	Hash     string
	Repeated bool // the change was applied before; nothing was done now
}

// wholeEvery is how often a whole text is kept.
const wholeEvery = 100

// Hash returns the SHA-256 of a text in hexadecimal.
func Hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// Append adds a revision on base, which must be the newest, or answers Stale. A change id that was applied before
// answers the revision it made, whatever base is.
func (s *Store) Append(ctx context.Context, id string, base int, head Head, c Change) (Revision, error) {
	var made Revision
	err := s.change(ctx, func(tx *sql.Tx) error {
		var now int
		var text string
		var deleted bool
		err := tx.QueryRow(`SELECT revision, text, deleted IS NOT NULL FROM builds WHERE id = ?`, id).Scan(&now, &text, &deleted)
		switch {
		case errors.Is(err, sql.ErrNoRows):
			return fmt.Errorf("%w: %q", ErrNoBuild, id)
		case err != nil:
			return err
		}
		old, found, err := byChange(tx, id, c.ID)
		switch {
		case err != nil:
			return err
		case found:
			made = old
			made.Repeated = true
			return nil
		case deleted:
			return fmt.Errorf("%w: %q", ErrDeleted, id)
		case base != now:
			return Stale{Base: base, Now: now}
		}
		made, err = s.insert(tx, id, now, text, head, c)
		return err
	})
	return made, err
}

func (s *Store) insert(tx *sql.Tx, id string, base int, before string, head Head, c Change) (Revision, error) {
	at := s.stamp()
	when, err := parseTime(at)
	if err != nil {
		return Revision{}, err
	}
	if c.Kind == "" {
		c.Kind = Made
	}
	r := Revision{Number: base + 1, Change: c.ID, Client: c.Client, Kind: c.Kind, Undoes: c.Undoes, Title: c.Title, At: when,
		Ops: c.Ops, Inverse: c.Inverse, Paths: c.Paths, Hash: Hash(c.Text)}
	paths, err := json.Marshal(append([]string{}, c.Paths...))
	if err != nil {
		return r, err
	}
	n, t := common(before, c.Text)
	middle := c.Text[n : len(c.Text)-t]
	var whole any
	if r.Number == 1 || r.Number%wholeEvery == 0 {
		whole, middle, n, t = c.Text, "", 0, 0
	}
	if _, err := tx.Exec(`INSERT INTO revisions (build, number, change, client, kind, undoes, title, at, ops, inverse, paths, head, tail, middle, whole, hash)
		VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)`, id, r.Number, r.Change, r.Client, string(r.Kind), r.Undoes, r.Title, at,
		string(r.Ops), string(r.Inverse), string(paths), n, t, middle, whole, r.Hash); err != nil {
		return r, err
	}
	return r, oneRow(tx.Exec(`UPDATE builds SET name = ?, customer = ?, stage = ?, items = ?, revision = ?, text = ?, hash = ?, changed = ?, summary = '' WHERE id = ?`,
		head.Name, head.Customer, head.Stage, head.Items, r.Number, c.Text, r.Hash, at, id))
}

// common returns how many bytes two texts share at the start and at the end, without overlap.
func common(a, b string) (head, tail int) {
	n := min(len(a), len(b))
	for head < n && a[head] == b[head] {
		head++
	}
	for tail < n-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return head, tail
}

const revisionColumns = `number, change, client, kind, undoes, title, at, ops, inverse, paths, hash`

func scanRevision(row interface{ Scan(...any) error }) (Revision, error) {
	var r Revision
	var at, ops, inverse, paths, kind string
	if err := row.Scan(&r.Number, &r.Change, &r.Client, &kind, &r.Undoes, &r.Title, &at, &ops, &inverse, &paths, &r.Hash); err != nil {
		return r, err
	}
	r.Kind, r.Ops, r.Inverse = Kind(kind), json.RawMessage(ops), json.RawMessage(inverse)
	if err := json.Unmarshal([]byte(paths), &r.Paths); err != nil {
		return r, fmt.Errorf("revision %d: paths: %w", r.Number, err)
	}
	var err error
	r.At, err = parseTime(at)
	return r, err
}

type querier interface {
	QueryRow(query string, args ...any) *sql.Row
}

func byChange(q querier, id, change string) (Revision, bool, error) {
	r, err := scanRevision(q.QueryRow(`SELECT `+revisionColumns+` FROM revisions WHERE build = ? AND change = ?`, id, change))
	if errors.Is(err, sql.ErrNoRows) {
		return r, false, nil
	}
	return r, err == nil, err
}

// Applied returns the revision that a change id made, if any.
func (s *Store) Applied(ctx context.Context, id, change string) (Revision, bool, error) {
	r, found, err := byChange(s.read, id, change)
	return r, found, translate(err)
}

// History returns the revisions after number since, the newest first, without their operations; at most limit of them,
// all when limit is 0.
func (s *Store) History(ctx context.Context, id string, since, limit int) ([]Revision, error) {
	if limit <= 0 {
		limit = -1
	}
	rows, err := s.read.QueryContext(ctx, `SELECT number, change, client, kind, undoes, title, at, '', '', paths, hash
		FROM revisions WHERE build = ? AND number > ? ORDER BY number DESC LIMIT ?`, id, since, limit)
	if err != nil {
		return nil, translate(err)
	}
	return collect(rows, func() (Revision, error) { return scanRevision(rows) })
}

// Revision returns one revision without its text.
func (s *Store) Revision(ctx context.Context, id string, n int) (Revision, error) {
	r, err := scanRevision(s.read.QueryRowContext(ctx, `SELECT `+revisionColumns+` FROM revisions WHERE build = ? AND number = ?`, id, n))
	if errors.Is(err, sql.ErrNoRows) {
		return r, fmt.Errorf("%w: %d of %q", ErrNoSuch, n, id)
	}
	return r, translate(err)
}

// At returns the text of revision n, byte for byte.
func (s *Store) At(ctx context.Context, id string, n int) (string, error) {
	rows, err := s.read.QueryContext(ctx, `SELECT number, head, tail, middle, whole, hash FROM revisions
		WHERE build = ?1 AND number <= ?2 AND number >= (SELECT max(number) FROM revisions WHERE build = ?1 AND number <= ?2 AND whole IS NOT NULL)
		ORDER BY number`, id, n)
	if err != nil {
		return "", translate(err)
	}
	defer rows.Close()
	var text, hash string
	last := 0
	for rows.Next() {
		var head, tail int
		var middle string
		var whole sql.NullString
		if err := rows.Scan(&last, &head, &tail, &middle, &whole, &hash); err != nil {
			return "", translate(err)
		}
		switch {
		case whole.Valid:
			text = whole.String
		case head < 0 || tail < 0 || head+tail > len(text):
			return "", fmt.Errorf("revision %d of %q does not fit the one before", last, id)
		default:
			text = text[:head] + middle + text[len(text)-tail:]
		}
	}
	if err := rows.Err(); err != nil {
		return "", translate(err)
	}
	if last != n || n < 1 {
		return "", fmt.Errorf("%w: %d of %q", ErrNoSuch, n, id)
	}
	if Hash(text) != hash {
		return "", fmt.Errorf("revision %d of %q has the wrong hash", n, id)
	}
	return text, nil
}
