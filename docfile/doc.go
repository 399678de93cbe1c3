// Package docfile answers: what does this text say, what is wrong with it, and how is it changed in place?
//
// Read makes a File of the text of a build: doc.Build, every problem with its place and a hint, and the place of every
// value. A value that is wrong counts as missing; a text that cannot be read at all has one problem and no build.
// ReadRecord does the same for a record, and ReadInto for any other type with field tags.
//
// (*File).Apply does a doc.Change on the text by splice: all other bytes stay, and the inverse it returns gives the
// text back byte for byte. (*File).Preview tells what the change would make of the build without touching the text.
// Diff and Compile lead from one text to another; Touches and Conflicts tell whether two changes get in each other's
// way. Paths are described at doc.Op.
//
// Everything is made from the field table of package doc: nothing here knows a key, but for the few values that cannot
// stand together (together.go) and the lists whose ids share one namespace (refs.go). Files are never changed once
// made, so they can be read from several goroutines. The limits of a text are in load.go.
package docfile
