package store

import (
	"errors"
	"fmt"
)

// What can go wrong and is no fault of the program. In every case nothing was changed.
var (
	ErrFull     = errors.New("the disk is full, nothing was saved")
	ErrWrite    = errors.New("the disk refuses to be written, nothing was saved")
	ErrBusy     = errors.New("another program holds the data file")
	ErrNotStore = errors.New("the file is not a store of builds")
	ErrNoBuild  = errors.New("no such build")
	ErrDeleted  = errors.New("the build is deleted")
	ErrExists   = errors.New("a build with this id exists")
	ErrNoSuch   = errors.New("no such revision")
	ErrNothing  = errors.New("nothing to take back")
)

// Stale is the answer to a change that was not made on the newest revision.
type Stale struct {
	Base, Now int
}

func (e Stale) Error() string {
	return fmt.Sprintf("revision %d is not the newest, %d is", e.Base, e.Now)
}
