package sheet

// Reason is the kind of trouble that keeps a file from being read. The zero Reason is invalid.
type Reason uint8

const (
	// ReasonUnreadable is a file that the system does not hand over.
	ReasonUnreadable Reason = iota + 1
	// ReasonEmpty is a file without any content.
	ReasonEmpty
	// ReasonTruncated is a file whose end is missing.
	ReasonTruncated
	// ReasonDamaged is a file that contradicts itself: a wrong checksum, broken XML, a cell outside its row.
	ReasonDamaged
	// ReasonTooBig is a file beyond the limits that protect the reader.
	ReasonTooBig
	// ReasonEncrypted is a file that asks for a password.
	ReasonEncrypted
	// ReasonUnsupported is a file of a kind that no reader here knows.
	ReasonUnsupported
	// ReasonMisnamed is a file that is readable, but by another reader than the one that was asked.
	ReasonMisnamed
)

var reasonNames = [...]string{"", "unreadable", "empty", "truncated", "damaged", "too big", "encrypted", "unsupported", "misnamed"}

// String returns the reason in a word or two.
func (r Reason) String() string {
	if r < ReasonUnreadable || r > ReasonMisnamed {
		return "no reason"
	}
	return reasonNames[r]
}

// FileError says why a file was not read. Nothing of such a file is used.
type FileError struct {
	// File is the name of the file, as the user gave it.
	File string
	// Place is where in the file the trouble stands, for example "Heads!B7" or "xl/styles.xml, line 2, column 40";
	// empty for the file as a whole.
	Place  string
	Reason Reason
	// Problem is what is wrong, and Next is what to do about it; each is a clause without a full stop.
	Problem, Next string
	// Err is the cause, nil where there is none beneath.
	Err error
}

// Error returns file, place, problem and what to do next in one line.
func (e *FileError) Error() string {
	text := e.File
	if e.Place != "" {
		text += ", " + e.Place
	}
	text += ": " + e.Problem
	if e.Next != "" {
		text += "; " + e.Next
	}
	return text
}

// Unwrap returns the cause.
func (e *FileError) Unwrap() error { return e.Err }
