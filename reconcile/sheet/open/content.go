package open

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"example.com/seatline/reconcile/sheet"
)

// Content reads the file at a path, which errors call it by, as far as the limit of a name lets it: file, settings. Only regular files
// are read: a pipe may never end, and a device has no end. Errors are of type [*sheet.FileError].
func Content(path, limit string, limits sheet.Limits) ([]byte, error) {
	// The kind is looked at before the file is opened, since opening a pipe waits for its other end.
	info, err := os.Stat(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	if err := regular(path, info); err != nil {
		return nil, err
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	defer file.Close()
	if info, err = file.Stat(); err != nil {
		return nil, unreadable(path, err)
	}
	if err := regular(path, info); err != nil {
		return nil, err
	}
	most := limits.Of(limit)
	if info.Size() > most {
		return nil, limits.Beyond(path, "", limit, fmt.Sprintf("it has %d bytes", info.Size()))
	}
	var content bytes.Buffer
	content.Grow(int(info.Size()) + bytes.MinRead)
	read, err := content.ReadFrom(io.LimitReader(file, most+1)) // it may grow meanwhile
	if err != nil {
		return nil, unreadable(path, err)
	}
	if read > most {
		return nil, limits.Beyond(path, "", limit, "it grows while it is read")
	}
	return content.Bytes(), nil
}

// regular refuses what is no regular file.
func regular(path string, info fs.FileInfo) error {
	what := ""
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return &sheet.FileError{File: path, Reason: sheet.ReasonUnreadable, Problem: "it is a folder", Next: "name the files in it"}
	case mode&fs.ModeNamedPipe != 0:
		what = "a pipe"
	case mode&fs.ModeSocket != 0:
		what = "a socket"
	default:
		what = "a device"
	}
	return &sheet.FileError{File: path, Reason: sheet.ReasonUnreadable, Problem: "it is " + what + " and not a file, so it need not end",
		Next: "save what comes out of it in a file and name that"}
}

func unreadable(path string, err error) error {
	next := "check the name and whether another program holds it"
	if errors.Is(err, fs.ErrNotExist) {
		next = "check the path"
	}
	return &sheet.FileError{File: path, Reason: sheet.ReasonUnreadable, Problem: "it cannot be opened (" + cause(err) + ")", Next: next, Err: err}
}

// cause leaves out the path, which the message has already.
func cause(err error) string {
	if inner, ok := errors.AsType[*fs.PathError](err); ok {
		return inner.Err.Error()
	}
	return err.Error()
}
