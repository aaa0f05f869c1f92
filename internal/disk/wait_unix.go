//go:build unix

package disk

import "syscall"

// dontWait has an open return at once, where else it would wait for another
// program to open the pipe's other end (POSIX.1-2017, open, O_NONBLOCK). It
// does nothing to plain files.
const dontWait = syscall.O_NONBLOCK
