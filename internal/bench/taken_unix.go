//go:build !windows

package bench

import (
	"errors"
	"syscall"
)

// taken reports that a port could not be opened because another program has it.
func taken(err error) bool { return errors.Is(err, syscall.EADDRINUSE) }
