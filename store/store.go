// Package store answers: what is kept, and is it still there after the power failed?
//
// Open gives a Store over one SQLite file. Create, Append and Load keep a build as a chain of revisions, each with the
// operations that made it and their inverse; any earlier text comes back to the byte. Beside a build stand its draft
// (text that could not be read), its record (readings, only ever added) and the papers issued.
//
// The store takes a change only on the newest revision and answers Stale otherwise; whether a change made on an older
// revision may be carried over is decided by the caller, who knows the document. Every commit is on the disk before a
// call returns (synchronous=FULL). Texts are kept as they are; the store reads nothing in them.
package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/ncruces/go-sqlite3"
	"github.com/ncruces/go-sqlite3/driver"
)

//go:embed migrations/*.sql
var migrations embed.FS

// application marks a database file as ours ("Bert").
const application = 0x42657274

// Settings hold for every connection. The busy timeout stands first: the order matters when two processes start together.
var settings = []string{
	"busy_timeout(10000)",
	"journal_mode(wal)",
	"synchronous(full)",
	"foreign_keys(on)",
	"trusted_schema(off)",
	"cache_size(-2000)",
}

// Store keeps builds in one SQLite file. It may be used by several goroutines, and the file by several processes.
type Store struct {
	write *sql.DB // one connection: one writer
	read  *sql.DB
	path  string
	now   func() time.Time
}

// Open opens the store in the file at path and makes it when it is not there. It refuses a file that is not a store
// and one that a newer program wrote.
func Open(ctx context.Context, path string) (*Store, error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, fmt.Errorf("make the data folder: %w", err)
	}
	s := &Store{path: path, now: time.Now}
	var err error
	if s.write, err = connect(path, "immediate"); err != nil {
		return nil, err
	}
	s.write.SetMaxOpenConns(1)
	if err := s.migrate(ctx); err != nil {
		return nil, errors.Join(translate(err), s.write.Close())
	}
	if s.read, err = connect(path, "deferred"); err != nil {
		return nil, errors.Join(err, s.write.Close())
	}
	s.read.SetMaxOpenConns(3)
	s.read.SetMaxIdleConns(1)
	return s, nil
}

func connect(path, lock string) (*sql.DB, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	slashed := filepath.ToSlash(abs)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed
	}
	query := url.Values{"_txlock": {lock}, "_pragma": settings}
	name := url.URL{Scheme: "file", Path: slashed, RawQuery: query.Encode()}
	db, err := driver.Open(name.String())
	if err != nil {
		return nil, translate(err)
	}
	return db, nil
}

// Close closes the file.
func (s *Store) Close() error { return errors.Join(s.read.Close(), s.write.Close()) }

// Backup writes a consistent copy of the store to a new file at path while the store stays in use.
func (s *Store) Backup(ctx context.Context, path string) error {
	if _, err := os.Stat(path); err == nil {
		return fmt.Errorf("backup to %q: %w", path, fs.ErrExist)
	}
	if _, err := s.read.ExecContext(ctx, `VACUUM INTO ?`, path); err != nil {
		return fmt.Errorf("backup to %q: %w", path, translate(err))
	}
	return nil
}

// Check reads the whole file and tells what is wrong with it: nothing for a sound one.
func (s *Store) Check(ctx context.Context) error {
	var says string
	if err := s.read.QueryRowContext(ctx, `PRAGMA integrity_check`).Scan(&says); err != nil {
		return translate(err)
	}
	if says != "ok" {
		return fmt.Errorf("the data file is damaged: %s", says)
	}
	return nil
}

// migrate brings the tables up to this program's version, one step a transaction.
func (s *Store) migrate(ctx context.Context) error {
	names, err := fs.Glob(migrations, "migrations/*.sql") // sorted
	if err != nil {
		return err
	}
	for {
		done, err := s.step(ctx, names)
		if err != nil || done {
			return err
		}
	}
}

func (s *Store) step(ctx context.Context, names []string) (done bool, err error) {
	err = s.change(ctx, func(tx *sql.Tx) error {
		var version, app, tables int
		if err := tx.QueryRow(`SELECT (SELECT user_version FROM pragma_user_version),
			(SELECT application_id FROM pragma_application_id), (SELECT count(*) FROM sqlite_schema)`).Scan(&version, &app, &tables); err != nil {
			return err
		}
		switch {
		case app != application && (app != 0 || tables > 0):
			return fmt.Errorf("%q is a database of another program", s.path)
		case version > len(names):
			return fmt.Errorf("%q was written by a newer program (tables %d, known here %d)", s.path, version, len(names))
		case version == len(names):
			done = true
			return nil
		}
		text, err := migrations.ReadFile(names[version])
		if err != nil {
			return err
		}
		if _, err := tx.Exec(string(text)); err != nil {
			return fmt.Errorf("%s: %w", names[version], err)
		}
		_, err = tx.Exec(fmt.Sprintf(`PRAGMA application_id = %d; PRAGMA user_version = %d`, application, version+1))
		return err
	})
	return done, err
}

// change runs do in one writing transaction: all of it is kept, or nothing.
func (s *Store) change(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return translate(err)
	}
	if err := do(tx); err != nil {
		if undo := tx.Rollback(); undo != nil && !errors.Is(undo, sql.ErrTxDone) {
			err = errors.Join(err, undo)
		}
		return translate(err)
	}
	return translate(tx.Commit())
}

// translate gives the errors that people can do something about their own kind.
func translate(err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, sqlite3.FULL):
		return fmt.Errorf("%w (%w)", ErrFull, err)
	case errors.Is(err, sqlite3.BUSY):
		return fmt.Errorf("%w (%w)", ErrBusy, err)
	case errors.Is(err, sqlite3.NOTADB):
		return fmt.Errorf("%w (%w)", ErrNotStore, err)
	case errors.Is(err, sqlite3.IOERR_WRITE), errors.Is(err, sqlite3.IOERR_FSYNC), errors.Is(err, sqlite3.IOERR_SHMSIZE), errors.Is(err, sqlite3.IOERR_TRUNCATE):
		return fmt.Errorf("%w (%w)", ErrWrite, err)
	}
	return err
}

func (s *Store) stamp() string { return s.now().UTC().Format(time.RFC3339Nano) }

func parseTime(text string) (time.Time, error) { return time.Parse(time.RFC3339Nano, text) }
