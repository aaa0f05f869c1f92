package disk

import (
	"os"
	"time"
)

const (
	longestSave = 2 * time.Second       // how long an editor may take to write a record
	looksAgain  = time.Millisecond      // while it writes
	stillFor    = 20 * time.Millisecond // unchanged for so long is done, where the system does not tell; own choice
)

// BeingWritten reports whether some program is writing into the file, which
// must be opened for reading alone; where the system does not tell, whether it
// changed within this moment.
func BeingWritten(file *os.File) bool {
	yes, known := beingWritten(file)
	if known {
		return yes
	}
	info, err := file.Stat()
	if err != nil {
		return false
	}
	age := time.Since(info.ModTime())
	return age >= 0 && age < stillFor
}

// Settled waits until no program is writing into the file, which must be opened
// for reading alone; for two seconds at most. Editors that write in place are
// seen at work where the system tells who has a file open; elsewhere the file
// must not have changed for a moment.
func Settled(file *os.File) bool {
	for waited := time.Duration(0); waited < longestSave; waited += looksAgain {
		if !BeingWritten(file) {
			return true
		}
		time.Sleep(looksAgain)
	}
	return false
}
